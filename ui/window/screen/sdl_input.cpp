#include "ui/window/screen/sdl_input.hpp"

#include <utility>

namespace shutlane {
namespace {

Key key_of(SDL_Keycode code) {
  if (code >= SDLK_a && code <= SDLK_z) return static_cast<Key>(static_cast<int>(Key::a) + (code - SDLK_a));
  if (code >= SDLK_0 && code <= SDLK_9)
    return static_cast<Key>(static_cast<int>(Key::digit0) + (code - SDLK_0));
  if (code >= SDLK_F1 && code <= SDLK_F10)
    return static_cast<Key>(static_cast<int>(Key::f1) + (code - SDLK_F1));
  if (code >= SDLK_KP_1 && code <= SDLK_KP_9)
    return static_cast<Key>(static_cast<int>(Key::digit1) + (code - SDLK_KP_1));
  switch (code) {
    case SDLK_TAB:
      return Key::tab;
    case SDLK_RETURN:
    case SDLK_KP_ENTER:
      return Key::enter;
    case SDLK_SPACE:
      return Key::space;
    case SDLK_ESCAPE:
      return Key::escape;
    case SDLK_LEFT:
      return Key::left;
    case SDLK_RIGHT:
      return Key::right;
    case SDLK_UP:
      return Key::up;
    case SDLK_DOWN:
      return Key::down;
    case SDLK_HOME:
      return Key::home;
    case SDLK_END:
      return Key::end;
    case SDLK_PAGEUP:
      return Key::page_up;
    case SDLK_PAGEDOWN:
      return Key::page_down;
    case SDLK_BACKSPACE:
      return Key::backspace;
    case SDLK_DELETE:
      return Key::del;
    case SDLK_PLUS:
    case SDLK_EQUALS:
    case SDLK_KP_PLUS:
      return Key::plus;
    case SDLK_MINUS:
    case SDLK_KP_MINUS:
      return Key::minus;
    case SDLK_COMMA:
      return Key::comma;
    case SDLK_PERIOD:
      return Key::period;
    case SDLK_SLASH:
      return Key::slash;
    case SDLK_KP_0:
      return Key::digit0;
    default:
      return Key::none;
  }
}

int button_of(Uint8 sdl_button) {
  return sdl_button == SDL_BUTTON_LEFT     ? 0
         : sdl_button == SDL_BUTTON_RIGHT  ? 1
         : sdl_button == SDL_BUTTON_MIDDLE ? 2
                                           : -1;
}

std::optional<InputEvent> of_window(const SDL_WindowEvent& event) {
  if (event.event == SDL_WINDOWEVENT_LEAVE) return PointerLeft{};
  if (event.event == SDL_WINDOWEVENT_FOCUS_GAINED) return FocusChanged{true};
  if (event.event == SDL_WINDOWEVENT_FOCUS_LOST) return FocusChanged{false};
  return {};
}

}  // namespace

std::optional<InputEvent> from_sdl(const SDL_Event& event, double pixels_per_point) {
  switch (event.type) {
    case SDL_MOUSEMOTION:
      return PointerMoved{event.motion.x * pixels_per_point, event.motion.y * pixels_per_point};
    case SDL_MOUSEBUTTONDOWN:
    case SDL_MOUSEBUTTONUP:
      return ButtonChanged{button_of(event.button.button), event.type == SDL_MOUSEBUTTONDOWN,
                           event.button.x * pixels_per_point, event.button.y * pixels_per_point};
    case SDL_MOUSEWHEEL:
      return Wheel{static_cast<double>(event.wheel.preciseX), static_cast<double>(event.wheel.preciseY)};
    case SDL_TEXTINPUT:
      return Typed{event.text.text};
    case SDL_KEYDOWN:
    case SDL_KEYUP: {
      const Uint16 mod = event.key.keysym.mod;
      const Key key = key_of(event.key.keysym.sym);
      if (key == Key::none) return {};
      return KeyChanged{{key, (mod & KMOD_SHIFT) != 0, (mod & KMOD_CTRL) != 0, (mod & KMOD_ALT) != 0},
                        event.type == SDL_KEYDOWN};
    }
    case SDL_DROPFILE: {
      std::string path = event.drop.file ? event.drop.file : "";
      SDL_free(event.drop.file);
      return FileDropped{std::move(path)};
    }
    case SDL_WINDOWEVENT:
      return of_window(event.window);
    default:
      return {};
  }
}

}  // namespace shutlane
