#pragma once
// What tests of Teach and Explore do again and again.
#include <string>

#include "tests/window/harness.hpp"
#include "ui/window/study/study.hpp"

namespace shutlane {

inline Study& study(Harness& h) { return *h.viewer.ui().study; }

inline void on_bench(Harness& h, const std::string& engine, Bench bench, Preferences preferences = {}) {
  h.open(engine, preferences);
  h.queue(ShowBench{bench});
}

/// The text of the frame that begins so; empty when there is none.
inline std::string text_that_begins(Harness& h, const std::string& begin) {
  for (const TextItem& t : h.items().texts)
    if (t.text.starts_with(begin)) return t.text;
  return {};
}

inline void turn_knob(Harness& h, KnobKind kind, double value) {
  study(h).knob(kind, 0, value, false);
  h.settle();
}

}  // namespace shutlane
