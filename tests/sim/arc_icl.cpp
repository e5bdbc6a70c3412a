// The arc algebra off the grid against Boost.ICL's interval sets (Boost 1.74), cut open at 0.
// ICL knows no circle and no 1e-6, so arcs are cut by hand and the lengths compared; a hair between two arcs
// (closer than 1e-6) would differ, but random doubles do not come that close.
#include <boost/icl/interval_set.hpp>

#include "sim/cycle/arc_set.hpp"
#include "tests/sim/dice.hpp"

namespace shutlane::test {
namespace {

using Line = boost::icl::interval_set<double>;
using Piece = boost::icl::interval<double>;

void add(Line& line, double from_deg, double length_deg) {
  const double from = wrap_deg(from_deg), to = from + length_deg;
  line += Piece::right_open(from, std::min(to, 720.0));
  if (to > 720) line += Piece::right_open(0, to - 720);
}

Line line_of(const ArcSet& set) {
  Line line;
  for (const Arc& a : set.arcs()) add(line, a.from_deg, a.length_deg);
  return line;
}

double length_of(const Line& line) {
  double sum = 0;
  for (const auto& piece : line) sum += piece.upper() - piece.lower();
  return sum;
}

/// Nothing of either set outside the other, to rounding.
void expect_same(const Line& expected, const ArcSet& got) {
  const Line found = line_of(got);
  EXPECT_NEAR(length_of(expected - found), 0, 1e-9);
  EXPECT_NEAR(length_of(found - expected), 0, 1e-9);
  EXPECT_NEAR(got.total_deg(), length_of(expected), 1e-9);
}

TEST(ArcIcl, RandomSetsAgree) {
  for_trials(2000, [](Dice& dice) {
    std::vector<Arc> arcs[2];
    Line lines[2];
    for (int side = 0; side < 2; ++side)
      for (int i = dice.whole(0, 6); i > 0; --i) {
        const Arc arc{dice.between(-720, 1440), dice.between(0.01, 300)};
        arcs[side].push_back(arc);
        add(lines[side], arc.from_deg, arc.length_deg);
      }
    const ArcSet a(arcs[0]), b(arcs[1]);
    Line whole;
    add(whole, 0, 720);
    expect_same(lines[0], a);
    expect_same(lines[0] + lines[1], a.united(b));
    expect_same(lines[0] & lines[1], a.intersected(b));
    expect_same(whole - lines[0], a.complement());
    expect_same(lines[0] - lines[1], a.minus(b));
    for (int i = 0; i < 20; ++i) {
      const double at_deg = dice.between(0, 720);
      EXPECT_EQ(a.contains(at_deg), boost::icl::contains(lines[0], at_deg)) << at_deg;
    }
  });
}

}  // namespace
}  // namespace shutlane::test
