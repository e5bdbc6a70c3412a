#pragma once
// Engines of every layout for the tests of drawings and benches, all with invented numbers.
#include <gtest/gtest.h>

#include "sim/mechanism/engine.hpp"

namespace shutlane::demo {

struct Bank {
  double tilt_deg;
  std::vector<int> cylinders;
  double bore_offset_mm = 0;
};

inline EngineSpec spec(std::string name, std::vector<int> order, std::vector<Bank> banks) {
  EngineSpec s;
  s.name = std::move(name);
  s.source = "invented demonstration values";
  s.cylinder = {84, 89.6, 141, 0, 10.2};
  s.layout.firing_order = std::move(order);
  for (size_t i = 0; i < banks.size(); ++i)
    s.layout.banks.push_back(
        {"bank " + std::to_string(i + 1), banks[i].tilt_deg, banks[i].cylinders,
         banks[i].bore_offset_mm != 0 ? std::optional(banks[i].bore_offset_mm) : std::nullopt});
  ValveSpec intake;
  intake.kind = ValveKind::intake;
  intake.opens_deg = 12;
  intake.closes_deg = 48;
  intake.peak_lift_mm = 9.7;
  intake.lift_law = LiftLaw::polynomial_4567;
  ValveSpec exhaust = intake;
  exhaust.kind = ValveKind::exhaust;
  exhaust.opens_deg = 50;
  exhaust.closes_deg = 10;
  exhaust.peak_lift_mm = 9.5;
  s.valves = {intake, exhaust};
  s.tolerance.timing_deg = 3;
  return s;
}

inline std::vector<EngineSpec> all_specs() {
  std::vector<EngineSpec> all;
  all.push_back(spec("Single", {1}, {{0, {1}}}));
  all.push_back(spec("Inline three", {1, 3, 2}, {{8, {1, 2, 3}, 10}}));
  all.push_back(spec("Inline four", {1, 3, 4, 2}, {{0, {1, 2, 3, 4}}}));
  all.push_back(spec("Inline six", {1, 5, 3, 6, 2, 4}, {{0, {1, 2, 3, 4, 5, 6}}}));
  all.push_back(spec("V twin", {1, 2}, {{-45, {1}}, {45, {2}}}));
  all.back().layout.firing_intervals_deg = {270, 450};
  all.push_back(spec("V8", {1, 8, 4, 3, 6, 5, 7, 2}, {{-45, {1, 3, 5, 7}}, {45, {2, 4, 6, 8}}}));
  all.push_back(spec("Flat six", {1, 6, 2, 4, 3, 5}, {{-90, {1, 2, 3}}, {90, {4, 5, 6}}}));
  all.back().layout.rotation = Rotation::anticlockwise;
  all.push_back(spec("V12", {1, 7, 5, 11, 3, 9, 6, 12, 2, 8, 4, 10},
                     {{-30, {1, 2, 3, 4, 5, 6}}, {30, {7, 8, 9, 10, 11, 12}}}));
  all.push_back(spec(
      "W12", {1, 12, 5, 8, 3, 10, 6, 7, 2, 11, 4, 9},
      {{-43.5, {1, 3, 5}, 12}, {-28.5, {2, 4, 6}, -12}, {28.5, {7, 9, 11}, 12}, {43.5, {8, 10, 12}, -12}}));
  all.push_back(spec("Narrow six", {1, 5, 3, 6, 2, 4}, {{-7.5, {1, 3, 5}, 12}, {7.5, {2, 4, 6}, -12}}));
  std::vector<Bank> star;
  for (int i = 0; i < 7; ++i) star.push_back({360.0 * i / 7, {i + 1}});
  all.push_back(spec("Radial seven", {1, 3, 5, 7, 2, 4, 6}, star));
  return all;
}

inline Engine built(const EngineSpec& s) {
  auto made = build_engine(s);
  if (const auto* mistakes = std::get_if<std::vector<Mistake>>(&made))
    throw std::runtime_error(s.name + ": " + mistakes->front().key + " " + mistakes->front().wrong);
  return std::get<Engine>(made);
}

inline Engine named(const std::string& name) {
  for (const EngineSpec& s : all_specs())
    if (s.name == name) return built(s);
  throw std::runtime_error("no demo engine " + name);
}

}  // namespace shutlane::demo
