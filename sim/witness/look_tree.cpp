#include "sim/witness/look_tree.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <unordered_map>

#include "sim/cycle/runs.hpp"
#include "sim/witness/pieces.hpp"
#include "sim/witness/turn_space.hpp"

namespace shutlane {

namespace {

using Bits = Pieces::Bits;
constexpr double kTie = 1e-12;
constexpr double kTurnInLooks =
    3;  ///< a turn (suck out, take out, turn, look again) is worth this many looks
constexpr size_t kMostPorts = 64;

/// What has been answered at this position, a bit a port.
struct Answers {
  uint64_t shut = 0, open = 0;
  uint64_t looked() const { return shut | open; }
  friend bool operator==(const Answers&, const Answers&) = default;
};
struct AnswersHash {
  size_t operator()(const Answers& a) const {
    uint64_t h = a.shut * 0x9e3779b97f4a7c15ULL ^ (a.open + 0x7f4a7c15ULL) * 0xff51afd7ed558ccdULL;
    return static_cast<size_t>(h ^ (h >> 29));
  }
};

/// Best figures from a state on; cost, looks and stuck are weighed by the chance to come there.
struct Value {
  double stuck = 0, cost = 0, looks = 0;
  int worst = 0;
  bool finishes = false;  ///< some branch ends in enough
  int next = -1;
};

class Search {
 public:
  Search(const std::vector<PortSets>& ports, const Evidence& evidence, const LookQuestion& question)
      : ports_(ports), question_(question), pieces_(ends_of(ports, evidence)) {
    Evidence nothing;
    nothing.looks.mark = evidence.looks.mark;
    const Bits marked = pieces_.bits(stands(ports, nothing));
    const Bits before = pieces_.bits(evidence.before);
    base_ = marked & before;
    trusted_ = question.rule.trust_before ? before : pieces_.bits(ArcSet::all());
    witness_bases_ = {marked & trusted_};
    if (question.rule.spare_looks > 0 && evidence.looks.mark) witness_bases_.push_back(trusted_);
    auto has = [](const std::vector<int>& list, int n) {
      return std::find(list.begin(), list.end(), n) != list.end();
    };
    const size_t count = std::min(ports.size(), kMostPorts);
    for (size_t p = 0; p < count; ++p) {
      const PortSets& port = ports[p];
      shut_.push_back(pieces_.bits(port.if_shut));
      open_.push_back(pieces_.bits(port.if_open));
      nominal_.push_back(pieces_.bits(port.nominal));
      sure_.push_back(pieces_.bits(port.sure));
      const uint64_t bit = uint64_t{1} << p;
      if (has(evidence.looks.shut, port.cylinder)) start.shut |= bit;
      if (has(evidence.looks.open, port.cylinder)) start.open |= bit;
      if (has(question.left, port.cylinder)) left_ |= bit;
      if (has(question.cant_see, port.cylinder)) blind_ |= bit;
    }
    stands_ = all_true(start, base_);
    weight_ = pieces_.weights(stands_, question.chances);
  }

  LookTree answer() {
    LookTree tree;
    tree.exact = pieces_.whole() && ports_.size() <= kMostPorts;
    if (stands_.none()) return tree;
    Value best = solve(start, stands_, stands_);
    tree.states = known_.size();
    if (over_) {
      tree.exact = false;
      greedy_ = true;
      over_ = false;
      known_.clear();
      best = solve(start, stands_, stands_);
    }
    tree.enough = best.finishes && best.next < 0;
    tree.mean_looks = best.looks;
    tree.worst_looks = best.worst;
    tree.stuck = best.stuck;
    if (best.next < 0 && !best.finishes && cut_)
      if (const auto all = choices(start, stands_, stands_, chance(stands_)); !all.empty())
        best.next = static_cast<int>(all.front().port);
    if (best.next >= 0) {
      tree.next = ports_[static_cast<size_t>(best.next)].cylinder;
      tree.bits = bits_of(static_cast<size_t>(best.next), stands_);
    }
    return tree;
  }

  Answers start;

 private:
  static std::vector<ArcSet> ends_of(const std::vector<PortSets>& ports, const Evidence& evidence) {
    std::vector<ArcSet> sets{evidence.before};
    Evidence nothing;
    nothing.looks.mark = evidence.looks.mark;
    sets.push_back(stands(ports, nothing));
    for (const PortSets& p : ports) sets.insert(sets.end(), {p.if_shut, p.if_open, p.nominal, p.sure});
    return sets;
  }

  Bits all_true(const Answers& answers, Bits set) const {
    for (size_t p = 0; p < shut_.size(); ++p) {
      const uint64_t bit = uint64_t{1} << p;
      if (answers.shut & bit) set &= shut_[p];
      if (answers.open & bit) set &= open_[p];
    }
    return set;
  }

  /// The pieces by how many answers exclude them, so that an answer, or two, can be left out at once instead
  /// of meeting all the others anew.
  struct Excluded {
    Bits at_least[3];
    void add(const Bits& out) {
      at_least[2] |= at_least[1] & out;
      at_least[1] |= at_least[0] & out;
      at_least[0] |= out;
    }
    Bits exactly(size_t answers) const {  // 0, 1 or 2
      const Bits least = answers == 0 ? ~Bits{} : at_least[answers - 1];
      return least & ~at_least[answers];
    }
  };
  Bits excluded_by(const Answers& answers, size_t port) const {
    const uint64_t bit = uint64_t{1} << port;
    Bits out;
    if (answers.shut & bit) out |= ~shut_[port];
    if (answers.open & bit) out |= ~open_[port];
    return out;
  }
  Excluded excluded(const Answers& answers) const {
    Excluded e;
    for (size_t p = 0; p < shut_.size(); ++p) {
      if (!(answers.looked() >> p & 1)) continue;
      e.add(excluded_by(answers, p));
    }
    return e;
  }

  bool witness(const Answers& answers, const Excluded& e, size_t port) const {
    const uint64_t own = uint64_t{1} << port;
    const Bits by_own = excluded_by(answers, port);
    const Bits none = e.exactly(0), once = e.exactly(1);
    const Bits without_own = none | (once & by_own);
    for (const Bits& base : witness_bases_)
      if ((base & without_own & ~sure_[port]).any()) return false;
    if (question_.rule.spare_looks == 0) return true;
    const Bits twice_with_own = e.exactly(2) & by_own;
    for (size_t p = 0; p < shut_.size(); ++p) {
      if (!((answers.looked() & ~own) >> p & 1)) continue;
      const Bits by_other = excluded_by(answers, p);
      const Bits without_both = without_own | (once & by_other) | (twice_with_own & by_other);
      if ((witness_bases_[0] & without_both & ~sure_[port]).any()) return false;
    }
    return true;
  }

  /// Turns still to be made when the looking stops here; negative: it may not stop here.
  int turns_if_stopped(const Answers& answers, const Excluded& e, const Bits& set) const {
    if (question_.enough == Enough::blast) {
      for (size_t p = 0; p < shut_.size(); ++p)
        if ((left_ & answers.shut) >> p & 1 && witness(answers, e, p)) return 0;
      return -1;
    }
    const ArcSet where = pieces_.arcs(set);
    std::vector<ArcSet> later;
    for (size_t p = 0; p < shut_.size(); ++p)
      if (left_ >> p & 1 && !witness(answers, e, p)) {
        later.push_back(turns_into(ports_[p].sure, where));
        double longest_deg = 0;
        for (const Arc& arc : later.back().arcs()) longest_deg = std::max(longest_deg, arc.length_deg);
        if (later.back().empty() || longest_deg < 2 * question_.accuracy_deg - kSame_deg) return -1;
      }
    return static_cast<int>(fewest_runs_count(later, 2 * question_.accuracy_deg));
  }

  /// A state's work grows with the ports, and so do the pieces and the depth: of more than a dozen ports
  /// fewer states are looked at, so that an answer takes about a second at most.
  size_t room() const {
    constexpr size_t kTwelve = 60000, kLeast = 500;
    const size_t n = std::max<size_t>(12, shut_.size());
    return std::max(kLeast, kTwelve * 12 * 12 * 12 * 12 / (n * n * n * n));
  }

  double chance(const Bits& set) const {
    double sum = 0;
    for (size_t i = 0; i < weight_.size(); ++i)
      if (set[i]) sum += weight_[i];
    return sum;
  }

  double bits_of(size_t port, const Bits& likely) const {
    const double shut = chance(likely & nominal_[port]), all = chance(likely);
    if (shut <= 0 || shut >= all) return 0;
    const double p = shut / all;
    return -p * std::log2(p) - (1 - p) * std::log2(1 - p);
  }

  bool better(const Value& a, const Value& b) const {
    if (std::fabs(a.stuck - b.stuck) > kTie) return a.stuck < b.stuck;
    if (a.finishes != b.finishes) return a.finishes;
    if (question_.worst_first && a.worst != b.worst) return a.worst < b.worst;
    if (std::fabs(a.cost - b.cost) > kTie) return a.cost < b.cost;
    return a.worst < b.worst;
  }

  struct Choice {
    size_t port;
    double tells, ends;  ///< bits; chance that the answer is enough
    double least_cost;
  };

  std::vector<Choice> choices(const Answers& answers, const Bits& set, const Bits& likely,
                              double here) const {
    std::vector<Choice> all;
    const Excluded e = excluded(answers);
    for (size_t p = 0; p < shut_.size(); ++p) {
      const uint64_t bit = uint64_t{1} << p;
      if ((answers.looked() | blind_) & bit) continue;
      double ends = 0;
      if (question_.enough == Enough::blast) {
        const Answers if_shut{answers.shut | bit, answers.open}, if_open{answers.shut, answers.open | bit};
        Excluded e_shut = e, e_open = e;
        e_shut.add(~shut_[p]);
        e_open.add(~open_[p]);
        if (turns_if_stopped(if_shut, e_shut, set & shut_[p]) >= 0) ends += chance(likely & nominal_[p]);
        if (turns_if_stopped(if_open, e_open, set & open_[p]) >= 0) ends += chance(likely & ~nominal_[p]);
      }
      const double least = question_.enough == Enough::blast ? here + (here - ends) : here;
      all.push_back({p, bits_of(p, likely), ends, least});
    }
    std::stable_sort(all.begin(), all.end(), [](const Choice& a, const Choice& b) {
      if (std::fabs(a.ends - b.ends) > kTie) return a.ends > b.ends;
      return a.tells > b.tells + kTie;
    });
    if (greedy_ && !all.empty()) all.erase(all.begin() + 1, all.end());
    return all;
  }

  /// `set`: where the crank can stand; `likely`: those angles that would have given these very answers with
  /// the events as stated.
  Value solve(const Answers& answers, const Bits& set, const Bits& likely) {
    if (const auto at = known_.find(answers); at != known_.end()) return at->second;
    const bool full = known_.size() >= (greedy_ ? room() : std::min(question_.most_states, room()));
    if (over_ || (full && !greedy_)) {
      over_ = true;
      return {};
    }
    const double here = chance(likely);
    if (full) {  // what the greedy tree has no room for counts as not decided
      cut_ = true;
      return {here, 0, 0, 0, false, -1};
    }
    Value best{here, 0, 0, 0, false, -1};
    if (const int turns = turns_if_stopped(answers, excluded(answers), set); turns >= 0) {
      best = {0, here * turns * kTurnInLooks, 0, 0, true, -1};
      if (turns <= 1) return known_[answers] = best;
    }
    for (const Choice& c : choices(answers, set, likely, here)) {
      if (best.finishes && best.stuck <= kTie && !question_.worst_first && c.least_cost > best.cost + kTie)
        continue;
      Value v{0, here, here, 0, false, static_cast<int>(c.port)};
      const uint64_t bit = uint64_t{1} << c.port;
      const Bits if_shut = set & shut_[c.port], if_open = set & open_[c.port];
      const auto add = [&](const Value& child) {
        v.stuck += child.stuck;
        v.cost += child.cost;
        v.looks += child.looks;
        if (child.finishes) v.worst = std::max(v.worst, child.worst + 1);
        v.finishes = v.finishes || child.finishes;
      };
      if (if_shut.any()) add(solve({answers.shut | bit, answers.open}, if_shut, likely & nominal_[c.port]));
      if (if_open.any()) add(solve({answers.shut, answers.open | bit}, if_open, likely & ~nominal_[c.port]));
      if (over_) return {};
      // A look that can only help against the stated events is not worth its while.
      if (v.finishes && (here <= kTie || v.stuck < here - kTie) && better(v, best)) best = v;
    }
    return known_[answers] = best;
  }

  const std::vector<PortSets>& ports_;
  const LookQuestion& question_;
  Pieces pieces_;
  std::vector<Bits> shut_, open_, nominal_, sure_, witness_bases_;
  Bits base_, trusted_, stands_;
  uint64_t left_ = 0, blind_ = 0;
  std::vector<double> weight_;
  std::unordered_map<Answers, Value, AnswersHash> known_;
  bool over_ = false, greedy_ = false, cut_ = false;
};

}  // namespace

LookTree look_tree(const std::vector<PortSets>& ports, const Evidence& evidence,
                   const LookQuestion& question) {
  return Search(ports, evidence, question).answer();
}

}  // namespace shutlane
