#include "ui/window/input.hpp"

#include <cfloat>
#include <utility>

namespace shutlane {
namespace {

int index_of(Key key) { return static_cast<int>(key) + 1; }  // 0 stays free

void apply(ImGuiIO& io, const InputEvent& event) {
  if (const auto* at = std::get_if<PointerMoved>(&event)) {
    io.MousePos = {static_cast<float>(at->x), static_cast<float>(at->y)};
  } else if (std::holds_alternative<PointerLeft>(event)) {
    io.MousePos = {-FLT_MAX, -FLT_MAX};
  } else if (const auto* button = std::get_if<ButtonChanged>(&event)) {
    io.MousePos = {static_cast<float>(button->x), static_cast<float>(button->y)};
    if (button->button >= 0 && button->button < 3) io.MouseDown[button->button] = button->down;
  } else if (const auto* wheel = std::get_if<Wheel>(&event)) {
    io.MouseWheel += static_cast<float>(wheel->dy);
    io.MouseWheelH += static_cast<float>(wheel->dx);
  } else if (const auto* typed = std::get_if<Typed>(&event)) {
    io.AddInputCharactersUTF8(typed->utf8.c_str());
  } else if (const auto* focus = std::get_if<FocusChanged>(&event)) {
    io.AddFocusEvent(focus->focused);
  } else if (const auto* key = std::get_if<KeyChanged>(&event)) {
    io.KeysDown[index_of(key->press.key)] = key->down;
    io.KeyShift = key->press.shift;
    io.KeyCtrl = key->press.ctrl;
    io.KeyAlt = key->press.alt;
  }
}

}  // namespace

void InputQueue::prepare(ImGuiIO& io) {
  constexpr std::pair<int, Key> kKeys[] = {{ImGuiKey_Tab, Key::tab},
                                           {ImGuiKey_LeftArrow, Key::left},
                                           {ImGuiKey_RightArrow, Key::right},
                                           {ImGuiKey_UpArrow, Key::up},
                                           {ImGuiKey_DownArrow, Key::down},
                                           {ImGuiKey_PageUp, Key::page_up},
                                           {ImGuiKey_PageDown, Key::page_down},
                                           {ImGuiKey_Home, Key::home},
                                           {ImGuiKey_End, Key::end},
                                           {ImGuiKey_Delete, Key::del},
                                           {ImGuiKey_Backspace, Key::backspace},
                                           {ImGuiKey_Space, Key::space},
                                           {ImGuiKey_Enter, Key::enter},
                                           {ImGuiKey_Escape, Key::escape},
                                           {ImGuiKey_A, Key::a},
                                           {ImGuiKey_C, Key::c},
                                           {ImGuiKey_V, Key::v},
                                           {ImGuiKey_X, Key::x},
                                           {ImGuiKey_Y, Key::y},
                                           {ImGuiKey_Z, Key::z}};
  for (const auto& [imgui_key, key] : kKeys) io.KeyMap[imgui_key] = index_of(key);
}

namespace {

/// Keys that go on while they are held. No other does: a glove left on enter must not log looks, blasting and
/// turns that nobody made.
bool goes_on_while_held(Key key) {
  switch (key) {
    case Key::left:
    case Key::right:
    case Key::up:
    case Key::down:
    case Key::page_up:
    case Key::page_down:
    case Key::plus:
    case Key::minus:
    case Key::comma:
    case Key::period:
    case Key::backspace:
    case Key::del:
      return true;
    default:
      return false;
  }
}

}  // namespace

void InputQueue::feed(ImGuiIO& io) {
  pressed.clear();
  dropped.clear();
  bool moved = false;
  while (!events_.empty()) {
    const InputEvent next = events_.front();  // its own: it is read after it has left the queue
    const bool button = std::holds_alternative<ButtonChanged>(next);
    if (button && moved) return;  // hovering is settled a frame before the press
    const auto* key = std::get_if<KeyChanged>(&next);
    // A key pressed and released within one frame would not be seen by Dear ImGui's fields.
    if (key && !key->down && !pressed.empty() && pressed.back().key == key->press.key) return;
    const bool held = key && key->down && io.KeysDown[index_of(key->press.key)];
    if (key && key->down && (!held || goes_on_while_held(key->press.key))) pressed.push_back(key->press);
    if (const auto* file = std::get_if<FileDropped>(&next)) dropped.push_back(file->path);
    moved = moved || std::holds_alternative<PointerMoved>(next);
    const bool stop = button || (key && key->down);
    apply(io, next);
    events_.pop_front();  // `next` and `key` are gone with it
    if (stop) return;
  }
}

}  // namespace shutlane
