#pragma once
// A job as it was told, event by event, and the advice that follows: what `next` prints and the window shows.
#include <nlohmann/json.hpp>
#include <optional>
#include <span>
#include <string>
#include <variant>

#include "sim/job/advice.hpp"

namespace shutlane {

/// How the crank is turned, as it is asked for: wrench, bar, wheel, starter or both (a starter, and a
/// wrench).
struct Turning {
  TurnBy by = TurnBy::wrench;
  bool wrench_too = false;
  friend bool operator==(const Turning&, const Turning&) = default;
};
std::optional<Turning> turning_of_word(std::string_view word);
std::string turning_word(const Turning& turning);

/// The rules of a job on that engine, turned so.
JobRules usual_rules(const Engine& engine, const Turning& turning);

struct Telling {
  JobState state;
  int presses = 0;  ///< answers told: the events of one button count once
};

/// Why a word could not be told: its place among the words, and the reason.
struct Refusal {
  size_t index = 0;
  std::string why;
};
std::variant<Telling, Refusal> tell_all(const JobModel& model, std::span<const JobEvent> events);

/// The document of `next` (its keys are a public interface). `press_s`: the advised press of a bump.
nlohmann::ordered_json next_document(const std::string& engine, const JobModel& model, const Telling& told,
                                     const Advice& advice, std::optional<double> press_s = {});

/// look, mark, blast ...
std::string step_name(Stage stage);

}  // namespace shutlane
