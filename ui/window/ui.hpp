#pragma once
// The widget layer: sizes in millimetres of the real screen, buttons that tests and the keyboard can find,
// text that says when it does not fit. One Ui lives as long as the window; begin() and end() enclose a frame.
#include <imgui.h>

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "sim/job/advice.hpp"
#include "sim/job/model.hpp"
#include "ui/window/colours.hpp"
#include "ui/window/font_book.hpp"
#include "ui/window/input.hpp"
#include "ui/window/items.hpp"
#include "ui/window/screen_canvas.hpp"

namespace shutlane {

class Study;
class BumpBench;
class Beeper;

/// Within it most desktops take a further click for a double one.
inline constexpr double kHold_s = 0.5;
/// Before the answer to a stop can be given: nobody reads that in half a second.
inline constexpr double kHoldStop_s = 2;
/// Before "it is done" can be said of what takes a minute.
inline constexpr double kHoldCheck_s = 1.5;

inline constexpr double kTarget_mm = 15;     ///< the least height and width of what is pressed with gloves
inline constexpr double kStateWord_mm = 12;  ///< the least height of a state word's line

/// Where the screen's size is not known it is taken for 15.6 inches across.
inline constexpr double kAssumedDiagonal_in = 15.6;
double assumed_dpi(double width_px, double height_px);

enum class Look { plain, wide, tab, quiet };

struct ButtonSpec {
  std::string id;
  std::string label;
  std::string note;  ///< small, below the label
  std::string tip;   ///< explains the term; shown after half a second
  Look look = Look::plain;
  bool enabled = true, selected = false;
  double size_mm = 6;       ///< height of the label's line; made smaller where it does not fit
  double room_left_px = 0;  ///< kept free of the label at its left, for a sign
  bool head_line = false;   ///< what stands before a colon has a line of its own, smaller
};

class Ui {
 public:
  explicit Ui(FontBook& fonts) : fonts_(fonts) {}

  struct Frame {
    double width_px = 0, height_px = 0;
    double dpi = 96;
    double scale = 1;  ///< of text that is not bound to a least size
    Theme theme = Theme::dark;
  };
  void begin(const Frame& frame, const InputQueue& input);
  void end();

  // Sizes
  double mm(double millimetres) const { return millimetres * frame_.dpi / 25.4; }
  double type_mm(double millimetres) const { return mm(millimetres) * frame_.scale; }
  Box screen() const { return {0, 0, frame_.width_px, frame_.height_px}; }
  Theme theme() const { return frame_.theme; }
  const Palette& palette() const { return shutlane::palette(frame_.theme); }
  const WindowColours& colours() const { return window_colours(frame_.theme); }
  ScreenCanvas& canvas() { return *canvas_; }
  ImDrawList& list() { return *list_; }
  FontBook& fonts() { return fonts_; }

  // Pressing
  /// True in the frame in which it is pressed, by pointer or keyboard.
  bool button(const ButtonSpec& spec, Box box);
  /// An area of its own drawing that can be pressed; registered like a button.
  struct Area {
    bool pressed = false, over = false, focused = false;
  };
  Area area(const std::string& id, const std::string& label, Box box, bool enabled = true,
            bool selected = false, const std::string& tip = {});
  void draw_focus(Box box, double corner);
  void hint(Box box, const std::string& tip);  ///< a tooltip of what is drawn there, not to be pressed
  bool arrows_walk = false;  ///< the arrow keys move the focus to the next item in their direction

  // Keys: true when it was pressed in this frame; each press is taken once.
  bool key(KeyPress press);
  bool key(Key plain) { return key(KeyPress{plain}); }
  std::optional<int> digit();  ///< 0..9
  /// For a moment no action is taken, so that a second click, or a third, does not answer a question that
  /// nobody has read: the same place then asks for the next step.
  void hold_actions(double seconds = kHold_s);
  bool actions_held() const;
  void drop_focus() { focus_.clear(); }
  const std::string& focus() const {
    return focus_;
  }  ///< id of the item that the keyboard stands on; empty: none
  bool has_focus() const { return !focus_.empty(); }
  void focus_on(std::string_view id) { focus_ = id; }
  bool focus_is(std::string_view id) const { return focus_ == id; }

  // Text, registered with its room
  struct TextSpec {
    double size_px = 0;
    Colour colour;
    Align align = Align::left;
    Weight weight = Weight::regular;
    double least = 1;     ///< may be made smaller down to this share of the size
    bool middle = false;  ///< a paragraph set to the left stands in the middle of its height all the same
  };
  /// One line, its middle at the middle of the room's height. Gives the line height used.
  double text_in(Box room, std::string_view utf8, const TextSpec& spec);
  /// Broken into at most `lines` lines between words, as large as fits. Gives the height used.
  double paragraph_in(Box room, std::string_view utf8, const TextSpec& spec, int lines = 2);
  double fitting_size(std::string_view utf8, double width_px, double size_px, Weight weight, double least);

  // What pages keep while they are open
  struct StartAnswers {
    size_t cylinders = 0;
    std::string engine;
    std::optional<TurnBy> turn_by;
    bool wrench_too = false;
  };
  StartAnswers start_answers;
  double pending_margin_deg = -1;  ///< a smaller margin that waits for its reason; -1: none

  /// What Teach and Explore keep between frames; made by them.
  std::shared_ptr<Study> study;
  std::string own_engines;  ///< the folder of the person's engine files; empty: none
  /// What Work keeps of bumps between frames; made by it when the starter turns the crank.
  std::shared_ptr<BumpBench> bump;
  /// Of the frame before, so that Work sees when another question stands where the last was answered.
  std::optional<Stage> stage_shown;
  std::ptrdiff_t ticks_shown = 0;  ///< lines of a check list that were ticked then
  Beeper* beeper = nullptr;         ///< null: silent
  std::deque<std::string> dropped;  ///< files dropped on the window in this frame
  /// Wakes the window from another thread; empty when nothing can, then a bench asks for a frame now and
  /// then.
  std::function<void()> wake_from_thread;

  /// Why what was last done is not on the disk; stands over every page until it is. Empty: it is.
  std::string not_saved;

  /// Set by a page in every frame: tooltips are one line in this row, where nothing is pressed.
  std::optional<Box> tip_row;
  std::optional<Box> tip_box() const { return tip_box_; }  ///< of the tooltip in this frame

  const Items& items() const { return items_; }
  Items& items() { return items_; }
  /// Seconds until something on the screen wants another frame (a tooltip); nullopt: never.
  std::optional<double> wake_after_s() const { return wake_after_s_; }
  void wake_after(double seconds);
  /// Something was pressed in this frame, so that what was drawn before it may be out of date.
  bool out_of_date() const { return out_of_date_; }

 private:
  bool out_of_date_ = false;
  void note_text(std::string_view utf8, Point at, double size, double width, Align align, Box room);
  void tip_for(const std::string& id, const std::string& tip, Box of);
  Box tip_place(double width, double height) const;
  void walk();
  void walk_along(const std::vector<const Item*>& stops, bool back);
  void walk_towards(const std::vector<const Item*>& stops, Key arrow);

  FontBook& fonts_;
  Frame frame_;
  std::optional<ScreenCanvas> canvas_;
  ImDrawList* list_ = nullptr;
  Items items_;
  std::deque<KeyPress> keys_;
  std::string focus_;    ///< id of the item that the keyboard stands on
  std::string over_id_;  ///< under the pointer since over_s_
  double over_s_ = 0;
  std::optional<Point> pressed_at_;  ///< until the pointer has moved away: no tooltip covers what came of it
  double held_until_s_ = 0;
  std::string tip_;
  std::optional<Box> tip_box_;
  Box tip_of_;  ///< the place of what it explains, which it leaves free
  std::optional<double> wake_after_s_;
};

}  // namespace shutlane
