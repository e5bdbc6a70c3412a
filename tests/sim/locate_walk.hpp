#pragma once
// A brute-force walk over the cycle: cut at all angles where anything can change, port_oracle asked at the
// middle of each piece. It cannot see pieces shorter than 1e-5 degrees: no cells are made then, and the trial
// is skipped.
#include <algorithm>
#include <cmath>
#include <map>

#include "sim/witness/locate.hpp"
#include "tests/sim/port_oracle.hpp"

namespace shutlane::test {

struct Piece {
  double middle_deg, length_deg;
};

/// The cycle in pieces on which no answer changes; empty when one is too short to judge.
inline std::vector<Piece> pieces(std::vector<double> ends) {
  ends.push_back(0);
  ends.push_back(720);
  std::sort(ends.begin(), ends.end());
  std::vector<Piece> all;
  for (size_t i = 0; i + 1 < ends.size(); ++i) {
    const double length = ends[i + 1] - ends[i];
    if (length < 1e-8) continue;  // one and the same end, rounded
    if (length < 1e-5) return {};
    all.push_back({ends[i] + length / 2, length});
  }
  return all;
}

struct PortFacts {
  std::vector<bool> nominally_shut, within_tolerance, above_eye, always_open;  // one for each piece
};

class Walk {
 public:
  Walk(const Engine& engine, const Looks& looks) : looks_(looks) {
    std::vector<double> ends;
    std::vector<PortOracle> ports;
    for (const Cylinder& c : engine.cylinders) {
      numbers.push_back(c.number);
      ports.emplace_back(engine, c.number);
      const auto more = ports.back().breakpoints_deg(looks.eye_mm);
      ends.insert(ends.end(), more.begin(), more.end());
    }
    if (looks.mark)
      for (const double turn : {0.0, 360.0})
        for (const double side : {-1.0, 1.0})
          ends.push_back(wrap_deg(looks.mark->at_deg + turn + side * looks.mark->plus_minus_deg));
    cells = pieces(std::move(ends));
    for (size_t k = 0; k < numbers.size(); ++k) {
      PortFacts& f = facts[numbers[k]];
      for (const Piece& p : cells) {
        const double least = ports[k].least_lift_mm(p.middle_deg);
        f.nominally_shut.push_back(ports[k].shut(p.middle_deg));
        f.within_tolerance.push_back(!ports[k].may_be_lifted(p.middle_deg));
        f.above_eye.push_back(least > looks.eye_mm);
        f.always_open.push_back(least > 0);
      }
    }
  }

  std::vector<bool> everywhere() const { return std::vector<bool>(cells.size(), true); }

  std::vector<bool> allowed(const Looks& looks, int but_for = 0) const {
    std::vector<bool> here = everywhere();
    for (size_t i = 0; i < cells.size(); ++i) {
      for (const int k : looks.shut)
        if (k != but_for && facts.at(k).above_eye[i]) here[i] = false;
      for (const int k : looks.open)
        if (k != but_for && facts.at(k).within_tolerance[i]) here[i] = false;
      if (looks.mark && std::abs(std::remainder(cells[i].middle_deg - looks.mark->at_deg, 360)) >
                            looks.mark->plus_minus_deg)
        here[i] = false;
    }
    return here;
  }

  double length(const std::vector<bool>& set) const {
    double sum = 0;
    for (size_t i = 0; i < cells.size(); ++i) sum += set[i] ? cells[i].length_deg : 0;
    return sum;
  }

  static bool all(const std::vector<bool>& of, const std::vector<bool>& where) {
    for (size_t i = 0; i < of.size(); ++i)
      if (where[i] && !of[i]) return false;
    return true;
  }

  /// Expected length of `here` after looking into port k, each angle equally likely, answered nominally.
  double after_look(int k, const std::vector<bool>& here) const {
    const PortFacts& f = facts.at(k);
    double answered_shut = 0, answered_open = 0, left_by_shut = 0, left_by_open = 0;
    for (size_t i = 0; i < cells.size(); ++i) {
      if (!here[i]) continue;
      (f.nominally_shut[i] ? answered_shut : answered_open) += cells[i].length_deg;
      if (!f.above_eye[i]) left_by_shut += cells[i].length_deg;
      if (!f.within_tolerance[i]) left_by_open += cells[i].length_deg;
    }
    return (answered_shut * left_by_shut + answered_open * left_by_open) / (answered_shut + answered_open);
  }

  std::vector<int> numbers;
  std::vector<Piece> cells;
  std::map<int, PortFacts> facts;

 private:
  Looks looks_;
};

}  // namespace shutlane::test
