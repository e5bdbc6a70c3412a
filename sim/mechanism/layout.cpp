#include "sim/mechanism/layout.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include "sim/cycle/angle.hpp"
#include "sim/cycle/trig.hpp"
#include "sim/mechanism/ranges.hpp"
#include "sim/mechanism/text.hpp"

namespace shutlane {

namespace {

double bore_lean_deg(const EngineSpec& spec, const BankSpec& bank) {
  return std::asin(bore_offset_mm(spec, bank) / (spec.cylinder.rod_mm + spec.cylinder.stroke_mm / 2)) /
         kRad_per_deg;
}

std::string numbers(const std::set<int>& set) {
  std::string text;
  for (const int n : set) text += (text.empty() ? "" : ", ") + std::to_string(n);
  return text;
}

class LayoutCheck {
 public:
  LayoutCheck(const EngineSpec& spec, std::vector<Mistake>& mistakes)
      : spec_(spec), layout_(spec.layout), mistakes_(mistakes) {}

  void run() {
    const bool order_good = order();
    const bool intervals_good = intervals();
    const bool banks_good = banks();
    if (order_good && intervals_good && banks_good) crank_pins();
  }

 private:
  void add(std::string key, std::string wrong, std::string expected) {
    mistakes_.push_back({std::move(key), std::move(wrong), std::move(expected)});
  }

  bool order() {
    const size_t before = mistakes_.size();
    if (layout_.firing_order.empty())
      add("layout.firing_order", "is empty", "every cylinder once, in the order in which they fire");
    for (const int n : layout_.firing_order) {
      if (!ranges::cylinder_number.holds(n))
        add("layout.firing_order", "cylinder " + std::to_string(n) + " is out of range",
            "numbers from 1 to 99");
      else if (!ordered_.insert(n).second)
        add("layout.firing_order", "cylinder " + std::to_string(n) + " stands there more than once",
            "every cylinder once");
    }
    if (!layout_.firing_order.empty() && !ordered_.contains(1))
      add("layout.firing_order", "cylinder 1 is missing",
          "a cylinder 1: all angles count from its firing TDC");
    return mistakes_.size() == before;
  }

  bool intervals() {
    const auto& steps = layout_.firing_intervals_deg;
    if (steps.empty()) return true;
    const size_t before = mistakes_.size();
    if (steps.size() != layout_.firing_order.size())
      add("layout.firing_intervals_deg",
          "has " + std::to_string(steps.size()) + " entries for " +
              std::to_string(layout_.firing_order.size()) + " firings",
          "one interval from each firing to the next");
    double sum_deg = 0;
    for (const double step_deg : steps) {
      if (!ranges::firing_interval_deg.holds(step_deg))
        add("layout.firing_intervals_deg", short_number(step_deg) + " is out of range",
            "0 to 720 degrees each");
      sum_deg += step_deg;
    }
    if (mistakes_.size() == before && std::fabs(sum_deg - kCycle_deg) > kIntervalSum_deg)
      add("layout.firing_intervals_deg", "the intervals sum to " + short_number(sum_deg), "720 within 0.01");
    return mistakes_.size() == before;
  }

  bool banks() {
    const size_t before = mistakes_.size();
    std::set<std::string> names;
    std::set<int> placed;
    if (layout_.banks.empty())
      add("layout.bank", "there is no bank", "at least one [[layout.bank]] with its cylinders");
    for (size_t i = 0; i < layout_.banks.size(); ++i) {
      const BankSpec& bank = layout_.banks[i];
      const std::string key = "layout.bank[" + std::to_string(i) + "]";
      if (!names.insert(bank.name).second)
        add(key + ".name", "'" + bank.name + "' names two banks", "a name of its own for each bank");
      if (!ranges::tilt_deg.holds(bank.tilt_deg))
        add(key + ".tilt_deg", short_number(bank.tilt_deg) + " is out of range", "-360 to 360");
      if (bank.cylinders.empty())
        add(key + ".cylinders", "is empty", "the bank's cylinders from the pulley end");
      for (const int n : bank.cylinders) {
        if (!ranges::cylinder_number.holds(n))
          add(key + ".cylinders", "cylinder " + std::to_string(n) + " is out of range",
              "numbers from 1 to 99");
        else if (!placed.insert(n).second)
          add(key + ".cylinders", "cylinder " + std::to_string(n) + " stands in the banks more than once",
              "every cylinder in one bank, once");
        else if (!ordered_.contains(n) && !layout_.firing_order.empty())
          add(key + ".cylinders", "cylinder " + std::to_string(n) + " is not in the firing order",
              "the same cylinders in the banks and in the firing order");
      }
    }
    std::set<int> lost;
    std::set_difference(ordered_.begin(), ordered_.end(), placed.begin(), placed.end(),
                        std::inserter(lost, lost.end()));
    if (!lost.empty() && !layout_.banks.empty())
      add("layout.firing_order", "no bank holds " + numbers(lost), "every cylinder in one bank, once");
    return mistakes_.size() == before;
  }

  /// From each firing to the next, as the stated pins would have it: the least step of each, 0 to 360.
  std::vector<double> least_steps_by_pins() const {
    const size_t n = layout_.firing_order.size();
    std::vector<double> steps_deg;
    for (size_t i = 0; i < n; ++i) {
      const auto past_first_deg = [&](int number) {
        return crank_pin_for_deg(spec_, number, 0) - layout_.crank_pins_deg.at(number);
      };
      double step_deg = turn_difference_deg(past_first_deg(layout_.firing_order[(i + 1) % n]),
                                            past_first_deg(layout_.firing_order[i]));
      if (step_deg < -kCrankPinAgrees_deg) step_deg += kTurn_deg;
      steps_deg.push_back(std::max(0.0, step_deg));
    }
    return steps_deg;
  }

  /// The intervals by which the stated pins would fire in this order, in words. A pin comes round twice a
  /// cycle: where that leaves a choice of a few, all of them; empty where there are more, or none.
  std::string intervals_by_pins() const {
    constexpr size_t kMostNamed = 3;
    const std::vector<double> least_deg = least_steps_by_pins();
    double left_deg = kCycle_deg;
    for (const double step_deg : least_deg) left_deg -= step_deg;
    std::vector<std::vector<double>> sets;
    if (std::fabs(left_deg) < kCrankPinAgrees_deg) {
      sets.push_back(least_deg);
    } else if (std::fabs(left_deg - kTurn_deg) < kCrankPinAgrees_deg && least_deg.size() <= kMostNamed) {
      for (size_t later = least_deg.size(); later-- > 0;) {
        sets.push_back(least_deg);
        sets.back()[later] += kTurn_deg;
      }
    }
    std::string text;
    for (const std::vector<double>& steps_deg : sets) {
      std::string list;
      for (const double step_deg : steps_deg) list += (list.empty() ? "" : ", ") + short_number(step_deg);
      text += (text.empty() ? "firing_intervals_deg = [" : " or [") + list + "]";
    }
    if (sets.size() > 1)
      return text + ": these pins can fire either way in this order; which, the engine's data say";
    return text.empty() ? text : text + ", which is how these pins fire in this order";
  }

  /// "1 = 0, 2 = 240, 3 = 120": the pins that the file asks for without its table of them.
  std::string pins_asked_for(const std::map<int, double>& tdc_deg) const {
    std::string list;
    for (const int number : ordered_)
      list += (list.empty() ? "" : ", ") + std::to_string(number) + " = " +
              short_number(crank_pin_for_deg(spec_, number, tdc_deg.at(number)));
    return list;
  }

  void crank_pins() {
    if (layout_.crank_pins_deg.empty()) return;
    const size_t before = mistakes_.size();
    std::optional<size_t> first_off;  // among the mistakes
    std::set<int> lost = ordered_;
    const auto tdc_deg = firing_tdc_deg(layout_);
    for (const auto& [number, stated_deg] : layout_.crank_pins_deg) {
      const std::string key = "layout.crank_pins_deg." + std::to_string(number);
      if (lost.erase(number) == 0) {
        add(key, "the engine has no cylinder " + std::to_string(number), "one of " + numbers(ordered_));
        continue;
      }
      if (!ranges::crank_pin_deg.holds(stated_deg)) {
        add(key, short_number(stated_deg) + " is out of range", "-720 to 720");
        continue;
      }
      const double asked_deg = crank_pin_for_deg(spec_, number, tdc_deg.at(number));
      const double off_deg = turn_difference_deg(stated_deg, asked_deg);
      if (std::isfinite(asked_deg) && !(std::fabs(off_deg) <= kCrankPinAgrees_deg)) {
        if (!first_off) first_off = mistakes_.size();
        add(key,
            "the pin of cylinder " + std::to_string(number) + " stands " + short_number(std::fabs(off_deg)) +
                " degrees " + (off_deg > 0 ? "past" : "short of") + " where its firing needs it",
            short_number(asked_deg) +
                " from the firing order, its intervals and the banks, or no table: pins follow from "
                "firing_order");
      }
    }
    if (!lost.empty())
      add("layout.crank_pins_deg", "no crank pin for " + numbers(lost),
          "the crank pin of every cylinder, or no table: they follow from firing_order");
    if (!first_off || !lost.empty()) return;
    // Whoever knows the pins and not the intervals is told what they come to, once for all pins.
    const std::string fitting = layout_.firing_intervals_deg.empty() ? intervals_by_pins() : "";
    if (!fitting.empty()) {
      mistakes_.resize(before);
      add("layout.crank_pins_deg", "these pins do not fire evenly, and no firing_intervals_deg is stated",
          fitting);
      return;
    }
    // Which of the two is wrong nobody here can know; said once, with the first pin that is off.
    mistakes_[*first_off].expected +=
        ". Or is it two swapped banks (tilt_deg), another firing_order or other firing_intervals_deg? As "
        "they "
        "stand they imply the pins " +
        pins_asked_for(tdc_deg);
  }

  const EngineSpec& spec_;
  const LayoutSpec& layout_;
  std::vector<Mistake>& mistakes_;
  std::set<int> ordered_;
};

}  // namespace

double turn_difference_deg(double a_deg, double b_deg) {
  const double d = std::fmod(a_deg - b_deg, kTurn_deg);
  return d > 180 ? d - kTurn_deg : d <= -180 ? d + kTurn_deg : d;
}

double bore_offset_mm(const EngineSpec& spec, const BankSpec& bank) {
  return bank.bore_offset_mm.value_or(spec.cylinder.bore_offset_mm);
}

const BankSpec& bank_of(const LayoutSpec& layout, int number) {
  for (const BankSpec& bank : layout.banks)
    if (std::find(bank.cylinders.begin(), bank.cylinders.end(), number) != bank.cylinders.end()) return bank;
  return layout.banks.front();
}

std::map<int, double> firing_tdc_deg(const LayoutSpec& layout) {
  const size_t n = layout.firing_order.size();
  const auto first = std::find(layout.firing_order.begin(), layout.firing_order.end(), 1);
  const size_t start =
      first == layout.firing_order.end() ? 0 : static_cast<size_t>(first - layout.firing_order.begin());
  std::map<int, double> tdc_deg;
  double at_deg = 0;
  for (size_t i = 0; i < n; ++i) {
    const size_t place = (start + i) % n;
    // Even firing is one product, so that no rounding piles up along the order.
    if (layout.firing_intervals_deg.empty())
      at_deg = kCycle_deg * static_cast<double>(i) / static_cast<double>(n);
    tdc_deg[layout.firing_order[place]] = wrap_deg(at_deg);
    if (!layout.firing_intervals_deg.empty()) at_deg += layout.firing_intervals_deg[place];
  }
  return tdc_deg;
}

double crank_pin_for_deg(const EngineSpec& spec, int number, double firing_tdc_deg) {
  const BankSpec& bank = bank_of(spec.layout, number);
  const BankSpec& first = bank_of(spec.layout, 1);
  const double lean_deg =
      bank.tilt_deg - first.tilt_deg + bore_lean_deg(spec, bank) - bore_lean_deg(spec, first);
  const double turned_deg = (spec.layout.rotation == Rotation::clockwise ? lean_deg : -lean_deg) - firing_tdc_deg;
  const double r = std::fmod(turned_deg, kTurn_deg);
  const double positive = r < 0 ? r + kTurn_deg : r;
  return positive >= kTurn_deg - 1e-9 ? 0.0 : positive + 0.0;
}

void check_layout(const EngineSpec& spec, std::vector<Mistake>& mistakes) {
  LayoutCheck(spec, mistakes).run();
}

}  // namespace shutlane
