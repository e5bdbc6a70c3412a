#pragma once
// A list of pieces shared out over threads. The pieces must not depend on each other; then the answer does
// not depend on the number of threads.
#include <algorithm>
#include <atomic>
#include <thread>
#include <vector>

namespace shutlane {

/// Calls piece(i) for 0 <= i < pieces, from several threads at once; a piece that returns false stops the
/// rest. False when stopped.
template <typename Piece>
bool split_work(int pieces, int threads, const Piece& piece) {
  std::atomic<int> next{0};
  std::atomic<bool> go_on{true};
  const auto work = [&] {
    for (int i = next++; i < pieces && go_on; i = next++)
      if (!piece(i)) go_on = false;
  };
  std::vector<std::thread> others;
  for (int t = 1; t < std::min(threads, pieces); ++t) others.emplace_back(work);
  work();
  for (std::thread& t : others) t.join();
  return go_on;
}

}  // namespace shutlane
