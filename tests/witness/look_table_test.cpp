// The looking tree of every bundled engine for a fresh start, as a table for the documentation:
//   SHUTLANE_TABLE=FILE build/release/witness_tests --gtest_filter=LookTable.*
// Without the variable the table is made, checked and thrown away.
#include <cstdio>
#include <fstream>
#include <sstream>

#include "sim/plan/wrench.hpp"
#include "sim/witness/look_tree.hpp"
#include "tests/witness/bundled.hpp"

namespace shutlane {
namespace {

std::string decimals(double x) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2f", x);
  return text;
}

TEST(LookTable, EveryBundledEngine) {
  std::ostringstream table;
  table << "| engine | cylinders | one full turn always | mean looks | worst | least worst | not by looks "
           "alone | exact |\n"
           "|---|---|---|---|---|---|---|---|\n";
  for (const std::string& name : test::bundled_names()) {
    const Engine engine = test::bundled(name);
    const auto ports = port_sets(engine);
    LookQuestion question;
    for (const Cylinder& c : engine.cylinders) question.left.push_back(c.number);
    const LookTree mean = look_tree(ports, {}, question);
    question.worst_first = true;
    const LookTree worst = look_tree(ports, {}, question);
    SCOPED_TRACE(name);
    EXPECT_LE(mean.stuck, 1 + 1e-9);
    if (mean.exact && worst.exact) {
      EXPECT_LE(mean.mean_looks, worst.mean_looks + 1e-9);
      EXPECT_LE(worst.worst_looks, mean.worst_looks);
      EXPECT_NEAR(worst.stuck, mean.stuck, 1e-9);
    }
    if (mean.next) {
      EXPECT_GE(mean.worst_looks, 2);  // its own look and another
      EXPECT_LE(static_cast<size_t>(mean.worst_looks), engine.cylinders.size());
    }
    const bool always = one_full_turn_always(shut_windows(engine), kDefaultAccuracy_deg);
    table << "| " << name << " | " << engine.cylinders.size() << " | " << (always ? "yes" : "no") << " | "
          << (mean.next ? decimals(mean.mean_looks) : "-") << " | "
          << (mean.next ? std::to_string(mean.worst_looks) : "-") << " | "
          << (mean.next ? std::to_string(worst.worst_looks) : "-") << " | " << decimals(100 * mean.stuck)
          << " % | " << (mean.exact && worst.exact ? "yes" : "no") << " |\n";
  }
  if (const char* path = std::getenv("SHUTLANE_TABLE")) std::ofstream(path) << table.str();
}

}  // namespace
}  // namespace shutlane
