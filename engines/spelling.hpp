#pragma once
// How far apart two words are, for "did you mean".
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace shutlane {

/// Letters to change, add, drop or swap with a neighbour (optimal string alignment distance). Only the first
/// 100 bytes of each word count.
size_t edit_distance(std::string_view a, std::string_view b);

/// The candidate with the smallest distance, the first of several; "" when there is none.
std::string_view closest(std::string_view word, const std::vector<std::string_view>& candidates);

}  // namespace shutlane
