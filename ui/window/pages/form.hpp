#pragma once
// Pages that cover the bench: a headline, and rows of large answers to press.
#include <string>
#include <vector>

#include "ui/window/session.hpp"
#include "ui/window/ui.hpp"

namespace shutlane {

/// Lays rows of answers below one another; each row's question stands above it.
class Form {
 public:
  Form(Ui& ui, Box room) : ui_(ui), room_(room), y_(room.y) {}

  struct Choice {
    std::string id, label, note;
    bool selected = false, enabled = true;
  };
  /// Gives the index of the answer that was pressed in this frame. `per_line`: answers side by side; 0: all
  /// of them.
  std::optional<size_t> ask(const std::string& question, const std::vector<Choice>& choices,
                            size_t per_line = 0, double height_mm = kTarget_mm);
  void say(const std::string& text, Colour colour, double size_mm = 4.8);
  void space(double millimetres) { y_ += ui_.mm(millimetres); }
  double y() const { return y_; }
  Box left() const { return {room_.x, y_, room_.w, room_.bottom() - y_}; }

 private:
  Ui& ui_;
  Box room_;
  double y_;
};

}  // namespace shutlane
