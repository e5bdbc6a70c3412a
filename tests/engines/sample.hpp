#pragma once
// A small valid engine file with a known line for everything, and ways to spoil it.
#include <gtest/gtest.h>

#include <string>
#include <variant>
#include <vector>

#include "engines/reader.hpp"

namespace shutlane::test {

inline const std::string kSample =
    "format = 1\n"                                   // 1
    "name = \"Sample\"\n"                            // 2
    "source = \"invented\"\n"                        // 3
    "[cylinder]\n"                                   // 4
    "bore_mm = 80\n"                                 // 5
    "stroke_mm = 90.0\n"                             // 6
    "rod_mm = 140.0\n"                               // 7
    "compression_ratio = 10.5\n"                     // 8
    "[layout]\n"                                     // 9
    "firing_order = [1, 3, 4, 2]\n"                  // 10
    "firing_intervals_deg = [180, 180, 180, 180]\n"  // 11
    "rotation = \"clockwise\"\n"                     // 12
    "[[layout.bank]]\n"                              // 13
    "name = \"row\"\n"                               // 14
    "tilt_deg = 0\n"                                 // 15
    "cylinders = [1, 2, 3, 4]\n"                     // 16
    "[layout.crank_pins_deg]\n"                      // 17
    "1 = 0\n"                                        // 18
    "2 = 180\n"                                      // 19
    "3 = 180\n"                                      // 20
    "4 = 0\n"                                        // 21
    "[[valves]]\n"                                   // 22
    "kind = \"intake\"\n"                            // 23
    "per_cylinder = 2\n"                             // 24
    "opens_btdc_deg = 12\n"                          // 25
    "closes_abdc_deg = 48\n"                         // 26
    "at_lift_mm = 0\n"                               // 27
    "peak_lift_mm = 9\n"                             // 28
    "lift_law = \"polynomial-345\"\n"                // 29
    "clearance_mm = 0.1\n"                           // 30
    "phase_range_deg = [-5, 20]\n"                   // 31
    "banks = [\"row\"]\n"                            // 32
    "[[valves]]\n"                                   // 33
    "kind = \"exhaust\"\n"                           // 34
    "per_cylinder = 2\n"                             // 35
    "lift_law = \"table\"\n"                         // 36
    "peak_at_deg = -110\n"                           // 37
    "lift_table = [\n"                               // 38
    "  [-120, 0],\n"                                 // 39
    "  [-60, 5],\n"                                  // 40
    "  [0, 9],\n"                                    // 41
    "  [60, 5],\n"                                   // 42
    "  [120, 0],\n"                                  // 43
    "]\n"                                            // 44
    "[tolerance]\n"                                  // 45
    "timing_deg = 3\n"                               // 46
    "seat_deg = 0\n";                                // 47

/// The sample with its line `number` replaced ("" takes the line out but keeps the count of the others).
inline std::string with_line(int number, const std::string& text, std::string file = kSample) {
  size_t start = 0;
  for (int i = 1; i < number; ++i) start = file.find('\n', start) + 1;
  file.replace(start, file.find('\n', start) - start, text);
  return file;
}

inline std::vector<FileMistake> mistakes_of(const std::string& text) {
  auto read = read_engine(text);
  if (auto* found = std::get_if<std::vector<FileMistake>>(&read)) return *found;
  return {};
}

/// What the program would print, file name "f".
inline std::string lines_of(const std::string& text) { return describe("f", mistakes_of(text)); }

}  // namespace shutlane::test
