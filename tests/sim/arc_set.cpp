// The arc algebra against a bitmap on a 0.25 degree grid, by properties (rapidcheck).
#include "sim/cycle/arc_set.hpp"

#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "tests/sim/bitmap.hpp"
#include "tests/sim/dice.hpp"

namespace shutlane {

std::ostream& operator<<(std::ostream& out, const Arc& arc) {
  return out << "{" << arc.from_deg << ", " << arc.length_deg << "}";
}

namespace test {
namespace {

// rapidcheck takes its seed and count from RC_PARAMS; ours stand in for it unless it is given.
[[maybe_unused]] const int kSeeded = setenv(
    "RC_PARAMS",
    ("seed=" + std::to_string(first_seed()) + " max_success=" + std::to_string(trials(300))).c_str(), 0);

double on_grid(int steps) { return steps * kGrid_deg; }

/// Up to five arcs on the grid, begun anywhere in three turns, many of them touching or overlapping.
std::vector<Arc> some_arcs() {
  const auto froms = *rc::gen::container<std::vector<int>>(rc::gen::inRange(-2880, 5760));
  std::vector<Arc> arcs;
  for (size_t i = 0; i < froms.size() && i < 5; ++i) {
    const int longest = *rc::gen::element(4, 400, 1600, 2881);
    arcs.push_back({on_grid(froms[i]), on_grid(*rc::gen::inRange(1, longest))});
  }
  if (arcs.size() > 1 && *rc::gen::arbitrary<bool>()) arcs[1].from_deg = arcs[0].to_deg();  // touching ends
  return arcs;
}

/// The longest run of cells that no arc holds, round the circle.
double longest_gap_deg(const std::vector<Arc>& arcs) {
  const int cells = static_cast<int>(kCycle_deg / kGrid_deg);
  std::vector<bool> held(static_cast<size_t>(cells), false);
  for (const Arc& arc : arcs)
    for (int k = 0; k < std::min(cells, static_cast<int>(std::lround(arc.length_deg / kGrid_deg))); ++k) {
      const int cell = (static_cast<int>(std::lround(arc.from_deg / kGrid_deg)) + k) % cells;
      held[static_cast<size_t>(cell < 0 ? cell + cells : cell)] = true;
    }
  int longest = 0, run = 0;
  for (int k = 0; k < 2 * cells; ++k) {
    run = held[static_cast<size_t>(k % cells)] ? 0 : run + 1;
    longest = std::max(longest, run);
  }
  return std::min(longest, cells) * kGrid_deg;
}

void expect_canonical(const ArcSet& set) {
  const auto& arcs = set.arcs();
  for (size_t i = 0; i < arcs.size(); ++i) {
    RC_ASSERT(arcs[i].from_deg >= 0);
    RC_ASSERT(arcs[i].from_deg < kCycle_deg);
    RC_ASSERT(arcs[i].length_deg >= kSame_deg);
    RC_ASSERT(arcs[i].length_deg <= kCycle_deg);
    if (arcs[i].length_deg == kCycle_deg) RC_ASSERT(arcs.size() == 1U && arcs[i].from_deg == 0.0);
    const double next_deg = i + 1 < arcs.size() ? arcs[i + 1].from_deg : arcs[0].from_deg + kCycle_deg;
    if (arcs.size() > 1) RC_ASSERT(next_deg > arcs[i].to_deg() + kSame_deg);
  }
}

RC_GTEST_PROP(ArcAlgebra, TheHullLeavesOutTheLongestGap, ()) {
  const std::vector<Arc> arcs = some_arcs();
  const ArcSet set(arcs);
  const Arc hull = set.hull();
  if (set.empty()) RC_ASSERT(hull.length_deg == 0);
  if (!set.empty()) {
    RC_ASSERT(ArcSet({hull}).covers(set));
    RC_ASSERT(std::abs(hull.length_deg - (kCycle_deg - longest_gap_deg(arcs))) < 1e-6);
  }
}

RC_GTEST_PROP(ArcAlgebra, HoldsWhatWasPutIn, ()) {
  const auto arcs = some_arcs();
  const ArcSet set(arcs);
  expect_canonical(set);
  RC_ASSERT(bits_of(set) == bits_of(arcs));
}

RC_GTEST_PROP(ArcAlgebra, UnionIntersectionComplementDifference, ()) {
  const ArcSet a(some_arcs()), b(some_arcs());
  for (const ArcSet& set : {a.united(b), a.intersected(b), a.complement(), a.minus(b)}) expect_canonical(set);
  RC_ASSERT(bits_of(a.united(b)) == regular(bits_of(a) | bits_of(b)));
  RC_ASSERT(bits_of(a.intersected(b)) == regular(bits_of(a) & bits_of(b)));
  RC_ASSERT(bits_of(a.complement()) == regular(~bits_of(a)));
  RC_ASSERT(bits_of(a.minus(b)) == regular(bits_of(a) & ~bits_of(b)));
  RC_ASSERT(a.united(b) == b.united(a));
  RC_ASSERT(a.intersected(b) == b.intersected(a));
}

RC_GTEST_PROP(ArcAlgebra, ShrinkIsComplementGrow, ()) {
  const ArcSet a(some_arcs());
  const int by = *rc::gen::inRange(0, 500);
  expect_canonical(a.grown(on_grid(by)));
  expect_canonical(a.shrunk(on_grid(by)));
  RC_ASSERT(bits_of(a.grown(on_grid(by))) == regular(spread(bits_of(a), by)));
  RC_ASSERT(bits_of(a.shrunk(on_grid(by))) == regular(~spread(bits_of(a.complement()), by)));
}

RC_GTEST_PROP(ArcAlgebra, ShiftTurnsForward, ()) {
  const ArcSet a(some_arcs());
  const int by = *rc::gen::inRange(-6000, 6000);
  expect_canonical(a.shifted(on_grid(by)));
  RC_ASSERT(bits_of(a.shifted(on_grid(by))) == rotated(bits_of(a), 2 * by));
  RC_ASSERT(a.shifted(on_grid(by)).shifted(-on_grid(by)) == a);
}

RC_GTEST_PROP(ArcAlgebra, ContainsAndCoversAndArcAt, ()) {
  const ArcSet a(some_arcs());
  const Bits bits = bits_of(a);
  const int at =
      *rc::gen::inRange(0, 2 * kGridPoints);  // every other one lies between two points of the grid
  const bool inside = bits[static_cast<size_t>(at)];
  const double at_deg = at * kGrid_deg / 2;
  RC_ASSERT(a.contains(at_deg) == inside);
  RC_ASSERT(a.contains(at_deg - 720) == inside);
  RC_ASSERT(a.contains(at_deg + 1440) == inside);
  const Arc home = a.arc_at(at_deg);
  RC_ASSERT((home.length_deg > 0) == inside);
  if (inside) RC_ASSERT(forward_deg(home.from_deg, at_deg) <= home.length_deg || home.length_deg == 720);

  const Arc probe{on_grid(*rc::gen::inRange(0, 2880)), on_grid(*rc::gen::inRange(0, 2881))};
  Bits wanted;
  set_arc(wanted, probe);
  RC_ASSERT(a.covers(probe) == (wanted & ~bits).none());
  const ArcSet b(some_arcs());
  RC_ASSERT(a.covers(b) == (bits_of(b) & ~bits).none());
}

RC_GTEST_PROP(ArcAlgebra, TotalIsTheSumOfTheStretches, ()) {
  const ArcSet a(some_arcs());
  const Bits bits = bits_of(a);
  int stretches = 0;
  for (size_t i = 1; i < bits.size(); i += 2) stretches += bits[i];
  RC_ASSERT(a.total_deg() == on_grid(stretches));
  RC_ASSERT(a.full() == (stretches == kGridPoints));
  RC_ASSERT(a.empty() == (stretches == 0));
}

}  // namespace
}  // namespace test
}  // namespace shutlane
