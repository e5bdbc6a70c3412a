#pragma once
// Seeded randomness: SHUTLANE_SEED picks the seed, SHUTLANE_TRIALS multiplies nothing but replaces the count.
// Every failing trial names its own seed; `SHUTLANE_SEED=that SHUTLANE_TRIALS=1` runs it alone.
#include <cstdint>
#include <cstdlib>
#include <random>
#include <string>
#include <vector>

namespace shutlane::test {

inline std::uint64_t first_seed() {
  const char* given = std::getenv("SHUTLANE_SEED");
  return given ? std::strtoull(given, nullptr, 10) : 20240229;
}

inline int trials(int usual) {
  const char* given = std::getenv("SHUTLANE_TRIALS");
  return given ? std::atoi(given) : usual;
}

/// Random numbers made from the engine's bits by hand, so that a seed means the same on every library.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : seed_(seed), bits_(seed) {}

  double unit() { return static_cast<double>(bits_() >> 11) * 0x1p-53; }  ///< [0, 1)
  double between(double low, double high) { return low + (high - low) * unit(); }
  int whole(int low, int high) {  ///< both ends included
    return low + static_cast<int>(bits_() % static_cast<std::uint64_t>(high - low + 1));
  }
  bool chance(double p) { return unit() < p; }
  /// A multiple of `step` in [low, high].
  double stepped(double low, double high, double step) {
    return low + step * whole(0, static_cast<int>((high - low) / step + 1e-9));
  }
  template <class T>
  void shuffle(std::vector<T>& items) {
    for (size_t i = items.size(); i > 1; --i) std::swap(items[i - 1], items[bits_() % i]);
  }
  template <class T>
  T pick(const std::vector<T>& items) {
    return items[bits_() % items.size()];
  }
  std::string name() const { return "seed " + std::to_string(seed_); }

 private:
  std::uint64_t seed_;
  std::mt19937_64 bits_;
};

/// Runs `body(dice)` for a row of seeds until one fails; the message names the seed.
template <class Body>
void for_trials(int usual, Body body);

}  // namespace shutlane::test

#include <gtest/gtest.h>

template <class Body>
void shutlane::test::for_trials(int usual, Body body) {
  for (int i = 0; i < trials(usual) && !::testing::Test::HasFailure(); ++i) {
    Dice dice(first_seed() + static_cast<std::uint64_t>(i));
    SCOPED_TRACE(dice.name() + " (SHUTLANE_SEED=that SHUTLANE_TRIALS=1 runs it alone)");
    body(dice);
  }
}
