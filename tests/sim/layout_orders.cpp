// Firing orders that a crank can and cannot fire. Source: lists of orders in a German technical lexicon (rows
// marked M are from memory); every verdict recomputed by enumeration. The trap: an order does not fix the
// crank, and a mirrored crank breaks an order.
#include "tests/sim/cranks.hpp"

#include <gtest/gtest.h>

namespace shutlane::test {
namespace {

TEST(Layout, OrdersInline) {
  EXPECT_TRUE(fits(row({0, 240, 120}), {1, 3, 2}));
  EXPECT_FALSE(fits(row({0, 240, 120}), {1, 2, 3}));
  EXPECT_TRUE(fits(row({0, 120, 240}), {1, 2, 3}));
  for (const auto& order : {std::vector{1, 3, 4, 2}, {1, 2, 4, 3}}) EXPECT_TRUE(fits(row(kI4), order));
  EXPECT_FALSE(fits(row(kI4), {1, 4, 2, 3}));
  EXPECT_TRUE(fits(row(kCross), {1, 3, 2, 4}, {90, 180, 270, 180}));
  EXPECT_FALSE(fits(row(kCross), {1, 3, 4, 2}));
  EXPECT_TRUE(fits(row({0, 216, 144, 72, 288}), {1, 2, 4, 5, 3}));
  EXPECT_TRUE(fits(row({0, 180, 270, 90, 90, 270, 180, 0}), {1, 6, 2, 5, 8, 3, 7, 4}));  // M
  const Crank one_hand = row(kI6), other_hand = row({0, 120, 240, 240, 120, 0});
  for (const auto& order : {std::vector{1, 5, 3, 6, 2, 4}, {1, 2, 4, 6, 5, 3}}) {
    EXPECT_TRUE(fits(one_hand, order));
    EXPECT_FALSE(fits(other_hand, order));
  }
  for (const auto& order : {std::vector{1, 4, 2, 6, 3, 5}, {1, 4, 5, 6, 3, 2}}) {
    EXPECT_TRUE(fits(other_hand, order));
    EXPECT_FALSE(fits(one_hand, order));
  }
}

TEST(Layout, OrdersV8) {
  const Crank cross = vee_crank(kCross, 90, 0), flat = vee_crank(kI4, 90, 0);
  for (const auto& order : {std::vector{1, 5, 4, 8, 6, 3, 7, 2},
                            {1, 3, 7, 2, 6, 5, 4, 8},     // M
                            {1, 5, 4, 2, 6, 3, 7, 8}}) {  // M
    EXPECT_TRUE(fits(cross, order));
    EXPECT_FALSE(fits(flat, order));
  }
  for (const auto& order : {std::vector{1, 6, 3, 5, 4, 7, 2, 8}, {1, 8, 3, 6, 4, 5, 2, 7}}) {
    bool some_flat = false;  // which of the two hands the lexicon means it does not say
    for (const double angle : {90.0, -90.0}) {
      some_flat = some_flat || fits(vee_crank(kI4, angle, 0), order);
      EXPECT_FALSE(fits(vee_crank(kCross, angle, 0), order));
    }
    EXPECT_TRUE(some_flat);
  }
  for (const auto& order : {std::vector{1, 8, 4, 3, 6, 5, 7, 2}, {1, 8, 7, 2, 6, 5, 4, 3}}) {  // second: M
    EXPECT_TRUE(fits(odd_even(kCross, -90), order));
    EXPECT_FALSE(fits(odd_even(kI4, -90), order));
  }
}

TEST(Layout, OrdersV6V4BoxersV10V12) {
  const std::vector<double> other_hand{0, 120, 240};
  for (const auto& [angle, delta] : {std::pair{60.0, -60.0}, {90.0, -30.0}}) {
    for (const auto& order :
         {std::vector{1, 2, 5, 6, 4, 3}, {1, 4, 5, 6, 2, 3}, {1, 4, 3, 6, 2, 5}})  // last: M
      EXPECT_TRUE(fits(vee_crank(kV6, angle, delta), order)) << angle;
    EXPECT_TRUE(fits(vee_crank(other_hand, angle, delta), {1, 4, 2, 5, 3, 6}));
    EXPECT_FALSE(fits(vee_crank(kV6, angle, delta), {1, 4, 2, 5, 3, 6}));
  }
  EXPECT_TRUE(fits(vee_crank({0, 0}, 60, 60 - 180), {1, 3, 2, 4}));
  EXPECT_FALSE(fits(vee_crank({0, 180}, 60, 60 - 180), {1, 3, 2, 4}));
  bool some = false;
  for (const double second : {0.0, 180.0}) {  // opposed pins; the left bank's second pin either way
    const Crank boxer = vee_crank({0, second}, 180, 180);
    some = some || fits(boxer, {1, 4, 3, 2});
    EXPECT_FALSE(fits(boxer, {1, 3, 2, 4}));
    EXPECT_FALSE(fits(boxer, {1, 4, 2, 3}));
  }
  EXPECT_TRUE(some);
  EXPECT_TRUE(fits(vee_crank(other_hand, 180, 180), {1, 6, 2, 4, 3, 5}));
  for (const auto& order : {std::vector{1, 7, 5, 11, 3, 9, 6, 12, 2, 8, 4, 10},
                            {1, 12, 5, 8, 3, 10, 6, 7, 2, 11, 4, 9}})  // both M
    EXPECT_TRUE(fits(vee_crank(kI6, 60, 0), order));
  const std::vector<int> ten{1, 6, 5, 10, 2, 7, 3, 8, 4, 9};  // M
  std::vector<double> pins(5);                                // the left bank's pins that the order asks for
  for (size_t i = 0; i < 10; ++i)
    if (ten[i] <= 5) pins[static_cast<size_t>(ten[i] - 1)] = mod(-72.0 * static_cast<double>(i), 360);
  EXPECT_TRUE(fits(vee_crank(pins, 72, 0), ten));
  EXPECT_TRUE(fits(vee_crank(pins, 90, 18), ten));
  EXPECT_FALSE(fits(vee_crank(pins, 90, -18), ten));
}

}  // namespace
}  // namespace shutlane::test
