#pragma once
// What the numbers are at an angle, in the words of the trade and the chosen measures.
#include <string>
#include <vector>

#include "sim/shut/windows.hpp"
#include "ui/window/document.hpp"
#include "ui/window/study/timeline.hpp"

namespace shutlane {

/// "7.0 mm" or "0.276 in".
std::string length_in(double mm, Measures measures);
/// "35°", "12.5°": to a tenth, no trailing zero.
std::string angle_in(double deg);

enum class Stroke4 { power, exhaust, intake, compression };
Stroke4 stroke_at(double local_deg);

struct Reading {
  std::string name, value;
};
/// Port, stroke, intake, exhaust, piston of one cylinder at a cycle angle.
std::vector<Reading> readings(const Engine& engine, const Windows& windows, double crank_deg,
                              Measures measures);

/// "surely shut for another 73°", "not surely shut", "open".
std::string port_in_words(const Windows& windows, double crank_deg);
/// How long both valves are off their seats, as stated.
std::string overlap_in_words(const Engine& engine, const Cylinder& cylinder);
/// The number that a term of the trade has on this engine, in words; empty where it has none.
std::string on_this_engine(const Engine& engine, const Cylinder& cylinder, const std::string& term,
                           Measures measures);
/// What happens in the cylinder there and what it means for the port: one or two sentences.
std::string happening(const Engine& engine, const Windows& windows, double crank_deg);
/// "intake of 3 leaves its seat", "intake of 3 leaves its seat and 1 more".
std::string in_words(const std::vector<CrankEvent>& events);
/// What happens at an angle, or what was passed last, and what comes next: "12° back: ... In 18°: ...".
std::string events_round(const std::vector<CrankEvent>& events, double crank_deg);

}  // namespace shutlane
