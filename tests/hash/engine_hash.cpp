// Prints one line for each bundled engine: its name, a hash over its windows and wrench plans, all angles
// rounded to 1e-6 degrees, and a hash over a seeded run of bumps, bit by bit ("no starter" without one). The
// same on every compiler and build kind: no contraction, no reordering, one libm; and on every number of
// threads.
#include <bit>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <string>

#include "engines/catalog.hpp"
#include "sim/cranking/trials.hpp"
#include "sim/plan/wrench.hpp"

namespace shutlane {
namespace {

/// 64-bit FNV-1a (Fowler, Noll, Vo; offset basis and prime as published).
class Hash {
 public:
  void add(std::uint64_t value) {
    for (int i = 0; i < 8; ++i) {
      sum_ ^= value >> (8 * i) & 0xFF;
      sum_ *= 0x100000001b3;
    }
  }
  void angle(double deg) {  // 719.9999999 and 0 are one angle
    const std::int64_t steps = std::llround(deg * 1e6);
    add(static_cast<std::uint64_t>(steps == 720000000 ? 0 : steps));
  }
  void length(double deg) { add(static_cast<std::uint64_t>(std::llround(deg * 1e6))); }
  void arcs(const ArcSet& set) {
    add(set.arcs().size());
    for (const Arc& arc : set.arcs()) {
      angle(arc.from_deg);
      length(arc.length_deg);
    }
  }
  void list(const std::vector<int>& numbers) {
    add(numbers.size());
    for (const int n : numbers) add(static_cast<std::uint64_t>(n));
  }
  std::uint64_t sum() const { return sum_; }

 private:
  std::uint64_t sum_ = 0xcbf29ce484222325;
};

void add_plan(Hash& hash, const WrenchPlan& plan) {
  hash.list(plan.no_plan);
  hash.add(plan.positions.size());
  for (const Position& p : plan.positions) {
    hash.angle(p.at_deg);
    for (const double turn : {p.turn_deg, p.turn_min_deg, p.turn_max_deg}) hash.length(turn);
    for (const auto* numbers : {&p.blast, &p.not_shut, &p.suck_out_before}) hash.list(*numbers);
  }
}

std::uint64_t hash_of(const Engine& engine) {
  Hash hash;
  for (const double margin_deg : {0.0, 10.0}) {
    const auto windows = shut_windows(engine, margin_deg);
    WrenchQuestion question;
    for (const Windows& w : windows) {
      hash.add(static_cast<std::uint64_t>(w.cylinder));
      for (const ArcSet* set : {&w.shut, &w.within_tolerance, &w.sure}) hash.arcs(*set);
      question.left.push_back(w.cylinder);
    }
    // Not on whole degrees: a start on the very end of a window would hang on the last bit.
    for (int i = 0; i < 96; ++i)
      for (const double plus_minus_deg : {0.0, 15.0}) {
        question.from_deg = 7.5 * i + 0.123;
        question.plus_minus_deg = plus_minus_deg;
        add_plan(hash, plan_wrench(windows, question));
      }
  }
  return hash.sum();
}

std::uint64_t hash_of_bumps(const CrankingModel& model, int threads) {
  // More than two blocks of work, so that threads have something to share.
  TrialsQuestion question{.from_deg = 35.25, .press_s = 0.3, .trials = 2500, .seed = 7, .threads = threads};
  const TrialsAnswer answer = bump_trials(FastKernel(model), question);
  Hash hash;
  for (const float advance : answer.advance_deg) hash.add(std::bit_cast<std::uint32_t>(advance));
  for (const int count : answer.rest_histogram) hash.add(static_cast<std::uint64_t>(count));
  return hash.sum();
}

}  // namespace
}  // namespace shutlane

int main() {
  for (const shutlane::BundledFile& file : shutlane::bundled_files()) {
    const std::string name(file.name);
    const auto read = shutlane::read_engine(file.text);
    if (const auto* mistakes = std::get_if<std::vector<shutlane::FileMistake>>(&read)) {
      std::fputs(shutlane::describe(name, *mistakes).c_str(), stderr);
      return 1;
    }
    const auto& engine = std::get<shutlane::Engine>(read);
    std::printf("%-28s %016llx ", name.c_str(), static_cast<unsigned long long>(shutlane::hash_of(engine)));
    const auto model = shutlane::cranking_model(engine);
    if (std::holds_alternative<shutlane::NoBump>(model)) {
      std::puts("no starter");
      continue;
    }
    const std::uint64_t bumps = shutlane::hash_of_bumps(std::get<shutlane::CrankingModel>(model), 1);
    if (bumps != shutlane::hash_of_bumps(std::get<shutlane::CrankingModel>(model), 3)) {
      std::fprintf(stderr, "%s: the bumps depend on the number of threads\n", name.c_str());
      return 1;
    }
    std::printf("%016llx\n", static_cast<unsigned long long>(bumps));
  }
  return 0;
}
