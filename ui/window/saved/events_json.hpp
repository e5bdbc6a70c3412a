#pragma once
// The job's events as JSON: an object with one key, the event's name.
#include <nlohmann/json_fwd.hpp>
#include <optional>

#include "sim/job/event.hpp"

namespace shutlane {

nlohmann::json event_to_json(const JobEvent& event);
std::optional<JobEvent> event_from_json(const nlohmann::json& json);  ///< nullopt: not an event

}  // namespace shutlane
