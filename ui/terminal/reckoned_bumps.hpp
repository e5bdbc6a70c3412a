#pragma once
// The bumps of an engine as every verb and page reckons them: with what was told of its bumps, and from the
// same chances, so that no two of them name other shares.
#include <string>
#include <vector>

#include "sim/cranking/heaps.hpp"
#include "sim/cranking/trials.hpp"

namespace shutlane::terminal {

class ReckonedBumps {
 public:
  /// `as_it_is`: the same engine with the plugs in, of which bumps are told.
  ReckonedBumps(const CrankingModel& model, const CrankingModel& as_it_is);

  /// On every core, with progress on standard error. Throws Interrupted on Ctrl-C.
  TrialsAnswer trials(TrialsQuestion question) const;

  size_t told() const { return told_; }              ///< bumps that weigh the cars
  const std::string& note() const { return note_; }  ///< a line for standard error, or empty

 private:
  FastKernel kernel_;
  size_t told_ = 0;
  std::string note_;
  std::vector<CarSample> cars_;  ///< empty: nothing was told
};

/// The question of `bump`, with its defaults.
TrialsQuestion press_question(double from_deg, double press_s);

}  // namespace shutlane::terminal
