#pragma once
// What a person does to the window, kept apart from SDL so that tests can do it too, and fed to Dear ImGui
// one press or release a frame: a click is a frame of hovering, a frame down and a frame up.
#include <imgui.h>

#include <cstdint>
#include <deque>
#include <string>
#include <variant>

namespace shutlane {

enum class Key : std::uint8_t {
  none,
  tab,
  enter,
  space,
  escape,
  left,
  right,
  up,
  down,
  home,
  end,
  page_up,
  page_down,
  backspace,
  del,
  f1,
  f2,
  f3,
  f4,
  f5,
  f6,
  f7,
  f8,
  f9,
  f10,
  plus,
  minus,
  comma,
  period,
  slash,
  digit0,
  digit1,
  digit2,
  digit3,
  digit4,
  digit5,
  digit6,
  digit7,
  digit8,
  digit9,
  a,
  b,
  c,
  d,
  e,
  f,
  g,
  h,
  i,
  j,
  k,
  l,
  m,
  n,
  o,
  p,
  q,
  r,
  s,
  t,
  u,
  v,
  w,
  x,
  y,
  z,
};

struct KeyPress {
  Key key = Key::none;
  bool shift = false, ctrl = false, alt = false;
  friend bool operator==(const KeyPress&, const KeyPress&) = default;
};

struct PointerMoved {
  double x = 0, y = 0;
};
struct PointerLeft {};
struct ButtonChanged {
  int button = 0;  ///< 0 left, 1 right, 2 middle
  bool down = false;
  double x = 0, y = 0;
};
struct Wheel {
  double dx = 0, dy = 0;
};
struct KeyChanged {
  KeyPress press;
  bool down = false;
};
struct Typed {
  std::string utf8;
};
struct FocusChanged {
  bool focused = false;
};
struct FileDropped {
  std::string path;
};
using InputEvent = std::variant<PointerMoved, PointerLeft, ButtonChanged, Wheel, KeyChanged, Typed,
                                FocusChanged, FileDropped>;

class InputQueue {
 public:
  /// Maps the keys that Dear ImGui's own fields need; call once with its context current.
  static void prepare(ImGuiIO& io);
  void push(InputEvent event) { events_.push_back(std::move(event)); }
  bool pending() const { return !events_.empty(); }
  /// Feeds what one frame may see. Key presses of this frame are in `pressed` and files in `dropped`
  /// afterwards.
  void feed(ImGuiIO& io);
  std::deque<KeyPress> pressed;
  std::deque<std::string> dropped;

 private:
  std::deque<InputEvent> events_;
};

}  // namespace shutlane
