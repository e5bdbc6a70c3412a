#pragma once
// Count and seed of random trials, from the environment.
#include <cstdint>
#include <cstdlib>

namespace shutlane::test {

inline uint64_t from_environment(const char* name, uint64_t otherwise) {
  const char* text = std::getenv(name);
  return text != nullptr ? std::strtoull(text, nullptr, 10) : otherwise;
}
inline uint64_t seed() { return from_environment("SHUTLANE_SEED", 20260); }
inline uint64_t trials(uint64_t otherwise) { return from_environment("SHUTLANE_TRIALS", otherwise); }

}  // namespace shutlane::test
