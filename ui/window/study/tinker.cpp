#include "ui/window/study/tinker.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/mechanism/layout.hpp"
#include "sim/mechanism/ranges.hpp"
#include "ui/drawings/layout_icon.hpp"
#include "ui/window/study/readings.hpp"
#include "ui/window/study/texts.hpp"

namespace shutlane {

namespace {

constexpr double kUnchanged = 1e-9;

bool is_table(const ValveSpec& v) { return v.lift_law == LiftLaw::table; }

/// Tilts of the outermost banks; the angle between them is the bank angle.
std::pair<double, double> outer_tilts_deg(const LayoutSpec& layout) {
  const auto [low, high] =
      std::minmax_element(layout.banks.begin(), layout.banks.end(),
                          [](const BankSpec& a, const BankSpec& b) { return a.tilt_deg < b.tilt_deg; });
  return {low->tilt_deg, high->tilt_deg};
}

/// "every 120°", "75° and 105° in turn", or the shortest and the longest.
std::string intervals_in_words(const LayoutSpec& layout) {
  const std::vector<double>& all = layout.firing_intervals_deg;
  if (all.empty())
    return texts::every(angle_in(kCycle_deg / static_cast<double>(layout.firing_order.size())));
  auto repeats_after = [&](size_t n) {
    for (size_t i = n; i < all.size(); ++i)
      if (std::fabs(all[i] - all[i - n]) > 0.05) return false;
    return true;
  };
  if (repeats_after(1)) return texts::every(angle_in(all[0]));
  if (repeats_after(2)) return texts::in_turn(angle_in(all[0]), angle_in(all[1]));
  const auto [shortest, longest] = std::minmax_element(all.begin(), all.end());
  return texts::from_to(angle_in(*shortest), angle_in(*longest));
}

}  // namespace

std::string knob_in_words(const Knob& knob, double value, Measures measures) {
  if (knob.degrees) return angle_in(value);
  const bool fine = knob.step < 0.1;
  if (measures == Measures::us) return fmt::format("{:.{}f} in", value / 25.4, fine ? 4 : 3);
  return fmt::format("{:.{}f} mm", value, fine ? 2 : 1);
}

bool Knob::changed() const { return std::fabs(value - in_file) > kUnchanged; }

Tinker::Tinker(const Engine& engine)
    : file_(engine.spec),
      spec_(engine.spec),
      in_file_(std::make_shared<const Engine>(engine)),
      good_(in_file_),
      earlier_deg_(engine.spec.valves.size(), 0.0) {}

double Tinker::value_of(const EngineSpec& spec, KnobKind kind, size_t valve) const {
  const ValveSpec* v = valve < spec.valves.size() ? &spec.valves[valve] : nullptr;
  switch (kind) {
    case KnobKind::opens:
      return v->opens_deg;
    case KnobKind::closes:
      return v->closes_deg;
    case KnobKind::earlier:
      return &spec == &spec_ ? earlier_deg_[valve] : 0;
    case KnobKind::may_be_earlier:
      return v->phase_range_deg[1];
    case KnobKind::may_be_later:
      return -v->phase_range_deg[0] + 0.0;
    case KnobKind::clearance:
      return v->clearance_mm;
    case KnobKind::lift:
      return v->peak_lift_mm;
    case KnobKind::timing:
      return spec.tolerance.timing_deg;
    case KnobKind::bank_angle: {
      const auto [low_deg, high_deg] = outer_tilts_deg(spec.layout);
      return spec.layout.banks.size() == 1 ? low_deg : high_deg - low_deg;
    }
    case KnobKind::rod:
      return spec.cylinder.rod_mm;
    case KnobKind::offset:
      break;
  }
  return spec.cylinder.bore_offset_mm;
}

void Tinker::put(KnobKind kind, size_t valve, double value) {
  ValveSpec* v = valve < spec_.valves.size() ? &spec_.valves[valve] : nullptr;
  switch (kind) {
    case KnobKind::opens:
      v->opens_deg = value;
      break;
    case KnobKind::closes:
      v->closes_deg = value;
      break;
    case KnobKind::earlier: {
      const double more_deg = value - earlier_deg_[valve];
      earlier_deg_[valve] = value;
      if (is_table(*v)) {
        v->peak_at_deg -= more_deg;
      } else {
        v->opens_deg += more_deg;
        v->closes_deg -= more_deg;
      }
      break;
    }
    case KnobKind::may_be_earlier:
      v->phase_range_deg[1] = value;
      break;
    case KnobKind::may_be_later:
      v->phase_range_deg[0] = -value + 0.0;
      break;
    case KnobKind::clearance:
      v->clearance_mm = value;
      break;
    case KnobKind::lift:
      v->peak_lift_mm = value;
      break;
    case KnobKind::timing:
      spec_.tolerance.timing_deg = value;
      break;
    case KnobKind::bank_angle: {
      const auto [low_deg, high_deg] = outer_tilts_deg(file_.layout);
      const double middle_deg = (low_deg + high_deg) / 2, spread_deg = high_deg - low_deg;
      for (size_t i = 0; i < spec_.layout.banks.size(); ++i) {
        const double stated_deg = file_.layout.banks[i].tilt_deg;
        const bool as_stated = std::fabs(value - spread_deg) <= kUnchanged;
        spec_.layout.banks[i].tilt_deg = spec_.layout.banks.size() == 1 ? value
                                         : as_stated
                                             ? stated_deg
                                             : middle_deg + (stated_deg - middle_deg) * value / spread_deg;
      }
      break;
    }
    case KnobKind::rod:
      spec_.cylinder.rod_mm = value;
      break;
    case KnobKind::offset:
      spec_.cylinder.bore_offset_mm = value;
      break;
  }
}

std::vector<Knob> Tinker::knobs() const {
  std::vector<Knob> all;
  if (!in_file_) return all;
  auto add = [&](KnobKind kind, size_t valve, std::string label, bool degrees, double low, double high,
                 double step) {
    const double in_file = value_of(file_, kind, valve);
    all.push_back({kind, valve, std::move(label), degrees, std::min(low, in_file), std::max(high, in_file),
                   step, value_of(spec_, kind, valve), in_file});
    all.back().by_hand = changed_itself(all.back());
  };
  for (const ValveKind kind : {ValveKind::intake, ValveKind::exhaust}) {
    const bool intake = kind == ValveKind::intake;
    const auto of_kind = [&](const ValveSpec& v) { return v.kind == kind; };
    const int kinds = static_cast<int>(std::count_if(file_.valves.begin(), file_.valves.end(), of_kind));
    int place = 0;
    for (size_t i = 0; i < file_.valves.size(); ++i) {
      if (file_.valves[i].kind != kind) continue;
      const std::string name = texts::valves(intake, place++, kinds);
      const bool table = is_table(file_.valves[i]);
      if (!table) {
        add(KnobKind::opens, i, texts::knob_opens(name, intake), true, -60, 100, 1);
        add(KnobKind::closes, i, texts::knob_closes(name, intake), true, -60, 120, 1);
      }
      add(KnobKind::earlier, i, texts::knob_earlier(name), true, -60, 60, 1);
      if (intake) {
        add(KnobKind::may_be_earlier, i, texts::knob_may_be_earlier(name), true, 0, 60, 1);
        add(KnobKind::may_be_later, i, texts::knob_may_be_later(name), true, 0, 60, 1);
      }
      if (!table) add(KnobKind::clearance, i, texts::knob_clearance(name), false, 0, 1, 0.05);
      if (!table) add(KnobKind::lift, i, texts::knob_lift(name), false, 2, 16, 0.1);
    }
  }
  add(KnobKind::timing, 0, texts::knob_timing(), true, 0, ranges::timing_deg.high, 1);
  const size_t banks = file_.layout.banks.size();
  if (banks == 1)
    add(KnobKind::bank_angle, 0, texts::knob_lean(), true, -90, 90, 1);
  else if (layout_kind(file_.layout) != LayoutKind::radial && value_of(file_, KnobKind::bank_angle, 0) > 0)
    add(KnobKind::bank_angle, 0, texts::knob_bank_angle(), true, 10, 180, 1);
  const CylinderSpec& c = file_.cylinder;
  add(KnobKind::rod, 0, texts::knob_rod(), false, std::round(0.55 * c.stroke_mm), std::round(3 * c.stroke_mm),
      1);
  add(KnobKind::offset, 0, texts::knob_offset(), false, -std::round(0.3 * c.bore_mm),
      std::round(0.3 * c.bore_mm), 1);
  return all;
}

void Tinker::set(KnobKind kind, size_t valve, double value) {
  for (const Knob& knob : knobs()) {
    if (knob.kind != kind || knob.valve != valve) continue;
    put(kind, valve, std::clamp(value, knob.low, knob.high));
    refire();
    rebuild();
    return;
  }
}

void Tinker::set_keep_crank(bool keep) {
  keep_crank_ = keep;
  refire();
  rebuild();
}

/// After banks, rod or offset changed: firing intervals from the crank, or the crank from the intervals.
void Tinker::refire() {
  spec_.layout.firing_order = file_.layout.firing_order;
  spec_.layout.firing_intervals_deg = file_.layout.firing_intervals_deg;
  spec_.layout.crank_pins_deg = file_.layout.crank_pins_deg;
  if (spec_.cylinder.rod_mm <= spec_.cylinder.stroke_mm / 2 + std::fabs(spec_.cylinder.bore_offset_mm))
    return;
  bool moved = false;
  struct Firing {
    double at_deg;
    int cylinder;
  };
  std::vector<Firing> firings;
  for (const size_t i : in_file_->firing) {
    const Cylinder& c = in_file_->cylinders[i];
    // A pin that stays put fires later by as much as the new banks ask of it.
    const double later_deg =
        turn_difference_deg(crank_pin_for_deg(spec_, c.number, c.firing_tdc_deg), c.crank_pin_deg);
    const bool same = std::fabs(later_deg) < 1e-7;
    moved = moved || !same;
    firings.push_back({wrap_deg(c.firing_tdc_deg + (same ? 0 : later_deg)), c.number});
  }
  if (!moved) return;
  if (!keep_crank_) {
    // What the file states of the pins is stated of the new ones.
    for (auto& [number, crank_pin_deg] : spec_.layout.crank_pins_deg)
      if (const Cylinder* c = in_file_->find(number)) {
        const double moved_deg =
            std::fmod(crank_pin_for_deg(spec_, number, c->firing_tdc_deg) + kTurn_deg, kTurn_deg);
        crank_pin_deg = std::fmod(std::round(moved_deg * 1000) / 1000, kTurn_deg);
      }
    return;
  }
  for (Firing& f : firings)  // rounding must not throw cylinder 1's neighbours a cycle away
    if (f.at_deg > kCycle_deg - kSame_deg) f.at_deg = 0;
  std::stable_sort(firings.begin(), firings.end(), [](const Firing& a, const Firing& b) {
    return a.at_deg != b.at_deg ? a.at_deg < b.at_deg : (a.cylinder == 1 && b.cylinder != 1);
  });
  spec_.layout.firing_order.clear();
  spec_.layout.firing_intervals_deg.clear();
  for (size_t i = 0; i < firings.size(); ++i) {
    spec_.layout.firing_order.push_back(firings[i].cylinder);
    const double next_deg = i + 1 < firings.size() ? firings[i + 1].at_deg : kCycle_deg + firings[0].at_deg;
    // To a thousandth of a degree, as a person would write it.
    spec_.layout.firing_intervals_deg.push_back(std::round((next_deg - firings[i].at_deg) * 1000) / 1000);
  }
}

void Tinker::rebuild() {
  auto made = build_engine(spec_);
  if (auto* wrong = std::get_if<std::vector<Mistake>>(&made)) {
    mistakes_ = std::move(*wrong);
    return;
  }
  mistakes_.clear();
  good_ = std::make_shared<const Engine>(std::get<Engine>(std::move(made)));
}

void Tinker::back_to_file() {
  spec_ = file_;
  std::fill(earlier_deg_.begin(), earlier_deg_.end(), 0.0);
  good_ = in_file_;
  mistakes_.clear();
}

bool Tinker::changed() const { return !(spec_ == file_); }

/// By the person, not by another knob: a cam turned as a whole moves its events without being asked to.
bool Tinker::changed_itself(const Knob& knob) const {
  if (knob.kind == KnobKind::opens)
    return std::fabs(knob.value - earlier_deg_[knob.valve] - knob.in_file) > kUnchanged;
  if (knob.kind == KnobKind::closes)
    return std::fabs(knob.value + earlier_deg_[knob.valve] - knob.in_file) > kUnchanged;
  return knob.changed();
}

std::vector<KnobChange> Tinker::changes(Measures measures) const {
  std::vector<KnobChange> all;
  if (!in_file_ || !changed()) return all;
  for (const Knob& knob : knobs())
    if (knob.by_hand)
      all.push_back({knob.label, knob_in_words(knob, knob.in_file, measures),
                     knob_in_words(knob, knob.value, measures)});
  if (spec_.layout.firing_order != file_.layout.firing_order ||
      spec_.layout.firing_intervals_deg != file_.layout.firing_intervals_deg)
    all.push_back(
        {texts::change_intervals(), intervals_in_words(file_.layout), intervals_in_words(spec_.layout)});
  return all;
}

}  // namespace shutlane
