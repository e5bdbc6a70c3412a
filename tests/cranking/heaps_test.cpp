// Heaps made by hand: the places and shares that went in must come out.
#include "sim/cranking/heaps.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

namespace shutlane {
namespace {

std::vector<float> around(std::vector<std::pair<double, int>> places, double reach_deg) {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> off(-reach_deg, reach_deg);
  std::vector<float> all;
  for (const auto& [at_deg, count] : places)
    for (int i = 0; i < count; ++i) all.push_back(static_cast<float>(at_deg + off(random)));
  std::shuffle(all.begin(), all.end(), random);
  return all;
}

TEST(Heaps, AreToldApartWithTheirShares) {
  const std::vector<float> all = around({{134, 700}, {250, 280}, {400, 20}}, 12);
  const std::vector<Heap> heaps = heaps_of(all);
  ASSERT_EQ(heaps.size(), 2u) << "the third is less than a tenth";
  EXPECT_NEAR(heaps[0].share, 0.63, 1e-9) << "nine tenths of seven";
  EXPECT_NEAR(heaps[1].share, 0.252, 1e-9);
  EXPECT_NEAR((heaps[0].from_deg + heaps[0].to_deg) / 2, 134, 2);
  EXPECT_GE(heaps[1].from_deg, 238);
  EXPECT_LE(heaps[1].to_deg, 262);
  for (const Heap& heap : heaps) {  // what is told of it must be what a count finds
    const auto between = std::count_if(all.begin(), all.end(),
                                       [&](float deg) { return deg >= heap.from_deg && deg <= heap.to_deg; });
    EXPECT_NEAR(static_cast<double>(between) / 1000, heap.share, 1e-9);
  }
}

TEST(Heaps, OneIsOne) {
  EXPECT_EQ(heaps_of(around({{-3, 100}}, 20)).size(), 1u);
  EXPECT_EQ(heaps_of(around({{100, 100}, {125, 100}}, 10)).size(), 1u) << "five degrees between are no gap";
  EXPECT_TRUE(heaps_of({}).empty());
}

}  // namespace
}  // namespace shutlane
