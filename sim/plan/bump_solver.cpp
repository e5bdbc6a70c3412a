#include "sim/plan/bump_solver.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace shutlane {
namespace {
constexpr double kWanted = 1e-9;     // residual at which a fixed point is taken
constexpr int kMostSweeps = 100000;  // a chain that hardly ever leaves is given up as "never"
}  // namespace

BumpSolver::BumpSolver(const RestLaw& law, const SureBins& bins, std::vector<int> allowed,
                       std::function<double(PortSet)> stop)
    : law_(&law), bins_(bins), allowed_(std::move(allowed)), stop_(std::move(stop)) {
  if (allowed_.empty())
    for (int h = 0; h < law.presses(); ++h) allowed_.push_back(h);
}

BumpSolver::Turned BumpSolver::canonical(PortSet left) const {
  Turned best{left, 0};
  if (bins_.period >= kBins) return best;
  const PortSet all = PortSet((uint64_t(1) << bins_.ports) - 1);
  PortSet set = left;
  for (int r = 1; r < bins_.ports; ++r) {
    set = ((set << 1) | (set >> (bins_.ports - 1))) & all;
    if (set < best.set) best = {set, r * bins_.period};
  }
  return best;
}

double BumpSolver::bumps(int bin, PortSet left) {
  left &= ~bins_.sure[size_t(bin)];
  if (left == 0) return 0;
  const Turned t = canonical(left);
  return solved(t.set).value[size_t((bin + t.bins) % kBins)];
}

int BumpSolver::best_press(int bin, PortSet left) {
  left &= ~bins_.sure[size_t(bin)];
  if (left == 0) return -1;
  const Turned t = canonical(left);
  return solved(t.set).press[size_t((bin + t.bins) % kBins)];
}

double BumpSolver::bumps_with(const RestLaw& law, int bin, PortSet left, int press) {
  if (left == 0) return 0;
  double sum = 1;
  law.rests(bin, press, [&](int rest, double chance) { sum += chance * bumps(rest, left); });
  return sum;
}

double BumpSolver::bumps_with(int bin, PortSet left, int press) {
  return bumps_with(*law_, bin, left, press);
}

const BumpSolver::Solved& BumpSolver::solved(PortSet left) {
  const auto found = solved_.find(left);
  if (found != solved_.end()) return found->second;
  // Smaller sets first, so that solve() never calls itself while its scratch is in use.
  for (int b = 0; b < kBins; ++b) {
    const PortSet less = left & ~bins_.sure[size_t(b)];
    if (less != left && less != 0) solved(canonical(less).set);
  }
  return solved_.emplace(left, solve(left)).first->second;
}

/// ends[u]: from there some policy ends with certainty. The largest set of bins that can be left with a
/// positive chance by presses that never go outside it.
void BumpSolver::prove_ends(const std::vector<int>& open, std::vector<char>& ends) const {
  const size_t presses = allowed_.size();
  ends.assign(open.size(), 1);
  for (bool shrunk = true; shrunk;) {
    std::vector<char> reach(open.size(), 0);
    for (bool grown = true; grown;) {
      grown = false;
      for (size_t u = 0; u < open.size(); ++u) {
        if (reach[u] || !ends[u]) continue;
        for (size_t a = 0; a < presses && !reach[u]; ++a) {
          const size_t cell = u * presses + a;
          if (!std::isfinite(exit_[cell])) continue;
          double inside = 0;
          bool stays = true, forward = false;
          for (size_t i = inside_begin_[cell]; i < inside_begin_[cell + 1]; ++i) {
            inside += double(inside_[i].chance);
            stays = stays && ends[inside_[i].at];
            forward = forward || reach[inside_[i].at];
          }
          if (stays && (forward || inside < 1 - 1e-6)) {
            reach[u] = 1;
            grown = true;
          }
        }
      }
    }
    shrunk = reach != ends;
    ends = reach;
  }
}

BumpSolver::Solved BumpSolver::solve(PortSet left) {
  Solved s;
  s.value.assign(kBins, 0);
  s.press.assign(kBins, -1);
  std::vector<int> open;  // bins where none of the ports left is shut
  std::vector<int> place(kBins, -1);
  for (int b = 0; b < kBins; ++b) {
    const PortSet less = left & ~bins_.sure[size_t(b)];
    if (less == left) {
      place[size_t(b)] = int(open.size());
      open.push_back(b);
    } else if (less != 0) {
      const Turned t = canonical(less);
      const Solved& smaller = solved_.at(t.set);
      s.value[size_t(b)] = smaller.value[size_t((b + t.bins) % kBins)];
      s.error = std::max(s.error, smaller.error);
    }
  }
  const double stop_cost = stop_ ? stop_(left) : kNever;

  const size_t presses = allowed_.size();
  exit_.assign(open.size() * presses, 1.0);
  inside_.clear();
  inside_begin_.assign(1, 0);
  std::vector<char> kept(open.size() * presses, 1);
  std::vector<double> v(open.size());
  bool plain = true;  // every open bin has a press that may leave at once
  for (size_t u = 0; u < open.size(); ++u) {
    double guess = stop_cost;
    for (size_t a = 0; a < presses; ++a) {
      double exit = 1, stays = 0;
      law_->rests(open[u], allowed_[a], [&](int rest, double chance) {
        const int at = place[size_t(rest)];
        if (at < 0) {
          exit += chance * s.value[size_t(rest)];
        } else {
          inside_.push_back({uint16_t(at), float(chance)});
          stays += chance;
        }
      });
      inside_begin_.push_back(inside_.size());
      exit_[u * presses + a] = exit;
      if (!std::isfinite(exit))
        kept[u * presses + a] = 0;
      else if (stays < 1 - 1e-6)
        guess = std::min(guess, exit / (1 - stays));
    }
    v[u] = guess;
    plain = plain && std::isfinite(guess);
  }
  if (!plain) {
    std::vector<char> ends;
    prove_ends(open, ends);
    for (size_t u = 0; u < open.size(); ++u) {
      if (!std::isfinite(stop_cost) && !ends[u])
        v[u] = kNever;
      else if (!std::isfinite(v[u]))
        v[u] = 1;
      for (size_t a = 0; a < presses; ++a)  // a press that may lead where nothing ends is no press
        for (size_t i = inside_begin_[u * presses + a]; i < inside_begin_[u * presses + a + 1]; ++i)
          if (!std::isfinite(stop_cost) && !ends[inside_[i].at]) kept[u * presses + a] = 0;
    }
  }

  const auto with_press = [&](size_t cell, const std::vector<double>& w) {
    double sum = exit_[cell];
    for (size_t i = inside_begin_[cell]; i < inside_begin_[cell + 1]; ++i)
      sum += double(inside_[i].chance) * w[inside_[i].at];
    return sum;
  };
  std::vector<int> choice(open.size(), -1);
  const auto best_of = [&](size_t u, const std::vector<double>& w) {
    double best = stop_cost;
    choice[u] = -1;
    for (size_t a = 0; a < presses; ++a) {
      if (!kept[u * presses + a]) continue;
      const double q = with_press(u * presses + a, w);
      if (q < best) {
        best = q;
        choice[u] = allowed_[a];
      }
    }
    return best;
  };

  double residual = kNever;
  std::vector<double> next(open.size());
  for (int sweep = 0; sweep < kMostSweeps; ++sweep) {
    // A few sweeps in place move the values fast; the last one, not in place, measures the residual.
    for (int i = 0; i < 3; ++i)
      for (size_t u = 0; u < open.size(); ++u)
        if (std::isfinite(v[u])) v[u] = best_of(u, v);
    residual = 0;
    for (size_t u = 0; u < open.size(); ++u) {
      if (!std::isfinite(v[u])) continue;
      next[u] = best_of(u, v);
      residual = std::max(residual, std::abs(next[u] - v[u]));
    }
    if (residual <= kWanted) break;
    if (residual < 0.5) {
      // With V/(1+d) <= V* <= V/(1-d), a press whose optimistic value exceeds the pessimistic best is never
      // best.
      for (size_t u = 0; u < open.size(); ++u) {
        if (!std::isfinite(v[u])) continue;
        for (size_t a = 0; a < presses; ++a) {
          char& keep = kept[u * presses + a];
          if (keep && with_press(u * presses + a, v) / (1 + residual) > v[u] / (1 - residual)) keep = 0;
        }
      }
    }
    for (size_t u = 0; u < open.size(); ++u)
      if (std::isfinite(v[u])) v[u] = next[u];
  }
  if (residual >= 0.5) {  // not proved: say never rather than a wrong number
    for (double& x : v) x = kNever;
    residual = 0;
  }
  s.error = (1 + s.error) * (1 + residual) / (1 - residual) - 1;
  error_ = std::max(error_, s.error);
  for (size_t u = 0; u < open.size(); ++u) {
    s.value[size_t(open[u])] = v[u];
    s.press[size_t(open[u])] = int8_t(std::isfinite(v[u]) ? choice[u] : -1);
  }
  return s;
}

}  // namespace shutlane
