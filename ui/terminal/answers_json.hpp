#pragma once
// The machine-readable answers: keys, their order and their meaning are a public interface and change only
// with it.
#include <string>
#include <vector>

#include "sim/witness/locate.hpp"
#include "sim/plan/wrench.hpp"
#include "ui/terminal/json_text.hpp"

namespace shutlane::terminal {

/// `word` is the engine as it was given on the command line.
Json windows_json(const std::string& word, const Engine& engine, const std::vector<Windows>& windows,
                  double margin_deg);
Json at_json(const std::string& word, const Engine& engine, const std::vector<Windows>& windows,
             double at_deg);
Json plan_json(const std::string& word, const WrenchPlan& plan, const WrenchQuestion& question,
               double margin_deg);
Json locate_json(const std::string& word, const Location& location);
Json position_json(const Position& position);
Json arcs_json(const ArcSet& set);

/// power | exhaust | intake | compression. Strokes are half open; an angle within 1e-6 of the next dead
/// centre belongs to the stroke that begins there.
const char* stroke_name(double local_deg);
const char* state_name(ShutState state);  ///< surely shut | not surely shut | open

}  // namespace shutlane::terminal
