// The bounded search for a smallest cover: while its budget lasts the smallest one, found here by trying
// every set of rows; without budget still a cover, and never called proven.
#include "sim/cycle/cover.hpp"

#include <gtest/gtest.h>

#include <bit>

#include "tests/sim/dice.hpp"

namespace shutlane::test {
namespace {

using Mask = std::bitset<40>;

struct Family {
  std::vector<Mask> masks;
  Mask wanted;
};

Family random_family(Dice& dice, int rows) {
  Family f;
  for (int r = 0; r < rows; ++r) {
    Mask mask;
    for (size_t c = 0; c < mask.size(); ++c) mask[c] = dice.between(0, 1) < 0.3;
    f.masks.push_back(mask);
  }
  for (const Mask& mask : f.masks) f.wanted |= mask;
  return f;
}

bool covers(const Family& f, const std::vector<size_t>& rows) {
  Mask together;
  for (const size_t r : rows) together |= f.masks[r];
  return (f.wanted & ~together).none();
}

size_t smallest_by_trying(const Family& f) {
  size_t best = f.masks.size();
  for (unsigned set = 0; set < 1u << f.masks.size(); ++set) {
    const auto size = static_cast<size_t>(std::popcount(set));
    if (size >= best) continue;
    std::vector<size_t> rows;
    for (size_t r = 0; r < f.masks.size(); ++r)
      if (set >> r & 1) rows.push_back(r);
    if (covers(f, rows)) best = size;
  }
  return best;
}

TEST(CoverBudget, WithWorkToSpareTheSmallest) {
  Dice dice(3);
  for (int n = 0; n < 60; ++n) {
    const Family f = random_family(dice, 12);
    CoverBudget budget;
    const auto cover = smallest_cover(f.masks, f.wanted, f.masks.size(), budget);
    ASSERT_TRUE(cover);
    EXPECT_TRUE(budget.proven);
    EXPECT_TRUE(covers(f, *cover));
    EXPECT_EQ(cover->size(), smallest_by_trying(f));
    CoverBudget again;
    EXPECT_FALSE(smallest_cover(f.masks, f.wanted, cover->size() - 1, again));
    EXPECT_TRUE(again.proven) << "that there is none smaller is proven too";
  }
}

TEST(CoverBudget, WithoutWorkACoverThatIsNotCalledProven) {
  Dice dice(4);
  int larger = 0;
  for (int n = 0; n < 60; ++n) {
    const Family f = random_family(dice, 14);
    for (const long branches : {1L, 2L, 5L, 20L}) {
      CoverBudget budget{branches};
      const auto cover = smallest_cover(f.masks, f.wanted, f.masks.size(), budget);
      ASSERT_TRUE(cover);
      EXPECT_TRUE(covers(f, *cover));
      const size_t smallest = smallest_by_trying(f);
      if (budget.proven) {
        EXPECT_EQ(cover->size(), smallest);
      }
      larger += cover->size() > smallest;
    }
  }
  EXPECT_GT(larger, 0) << "a search cut short that is never worse proves nothing here";
}

}  // namespace
}  // namespace shutlane::test
