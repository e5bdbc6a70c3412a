#pragma once
// What the benchmarks share: bundled engines by name, and a result hash to print beside the time.
#include <benchmark/benchmark.h>

#include <cmath>
#include <cstdint>
#include <cstdio>
#include <stdexcept>
#include <string>

#include "engines/catalog.hpp"
#include "sim/plan/wrench.hpp"

namespace shutlane::bench {

inline Engine bundled(std::string_view name) {
  for (const BundledFile& file : bundled_files())
    if (file.name == name) return std::get<Engine>(read_engine(file.text));
  throw std::runtime_error("no bundled engine " + std::string(name));
}

/// Everything left, default accuracy.
inline WrenchQuestion whole_job(const std::vector<Windows>& windows, double from_deg = 35) {
  WrenchQuestion q;
  q.from_deg = from_deg;
  for (const Windows& w : windows) q.left.push_back(w.cylinder);
  return q;
}

/// 64-bit FNV-1a over angles rounded to 1e-6 degrees: a changed answer shows beside a changed time.
class ResultHash {
 public:
  void add(double deg) {
    auto steps = static_cast<std::uint64_t>(std::llround(deg * 1e6));
    for (int i = 0; i < 8; ++i, steps >>= 8) sum_ = (sum_ ^ (steps & 0xFF)) * 0x100000001b3;
  }
  void add(const std::vector<Windows>& windows) {
    for (const Windows& w : windows)
      for (const ArcSet* set : {&w.shut, &w.within_tolerance, &w.sure})
        for (const Arc& arc : set->arcs()) add(arc.from_deg), add(arc.length_deg);
  }
  void add(const WrenchPlan& plan) {
    for (const Position& p : plan.positions) {
      add(p.at_deg), add(p.turn_min_deg), add(p.turn_max_deg);
      for (const int k : p.blast) add(k);
    }
  }
  std::string label() const {
    char text[40];
    std::snprintf(text, sizeof text, "hash %016llx", static_cast<unsigned long long>(sum_));
    return text;
  }

 private:
  std::uint64_t sum_ = 0xcbf29ce484222325;
};

}  // namespace shutlane::bench
