#include "tests/witness/technician.hpp"

#include <algorithm>
#include <cmath>
#include <random>

namespace shutlane::test {

namespace {

constexpr double kAccuracy_deg = 10;

class Job {
 public:
  Job(const Engine& engine, std::shared_ptr<const LookModel> model, const Habits& habits, const Slips& slips,
      uint64_t seed)
      : engine_(engine),
        habits_(habits),
        slips_(slips),
        random_(seed),
        belief_(Belief::uniform(model)),
        ports_(port_sets(engine, kDefaultEye_mm, habits.margin_deg)) {
    angle_deg_ = chalk_deg_ = uniform(0, 720);
    limit_mm_ = uniform(slips.eye_low_mm, slips.eye_high_mm);
    for (const Cylinder& c : engine.cylinders) {
      ask_.left.push_back(c.number);
      offsets_.push_back({});
      for (const size_t i : c.intake) {
        const ValveTrain& t = engine.trains[i];
        const double phase_deg = uniform(t.phase_first_deg, t.phase_last_deg);
        offsets_.back().push_back({uniform(-t.timing_deg, t.timing_deg) - phase_deg,
                                   uniform(-t.timing_deg, t.timing_deg) - phase_deg});
      }
    }
    if (happens(slips.crumb)) crumb_ = pick(engine.cylinders.size());
    crumb_mm_ = uniform(0.8, 2);
    if (happens(slips.shifted)) {
      const size_t bank = engine.cylinders[pick(engine.cylinders.size())].bank;
      for (size_t k = 0; k < offsets_.size(); ++k)
        if (engine.cylinders[k].bank == bank)
          for (auto& o : offsets_[k]) o = {o.opens_deg + 18, o.closes_deg + 18};
    }
    moves_at_ = happens(slips.moved) ? 1 + static_cast<int>(pick(engine.cylinders.size())) : -1;
    ask_.margin_deg = habits.margin_deg;
    ask_.accuracy_deg = kAccuracy_deg;
    ask_.rule = habits.rule;
  }

  Tally run() {
    tally_.jobs = 1;
    for (int step = 0; step < 400 && !ask_.left.empty(); ++step) {
      const NextStep next = next_step(engine_, ports_, evidence_, ask_,
                                      {believes() ? &belief_ : nullptr, habits_.most_open, fresh_});
      if (next.kind == StepKind::look) {
        look(next.ports[0]);
      } else if (next.kind == StepKind::blast) {
        blast(next.ports[0]);
      } else if (next.kind == StepKind::turn) {
        turn(next.turn_deg);
      } else if (next.kind == StepKind::disagree) {
        disagree();
      }
    }
    tally_.given_up += !ask_.left.empty();
    tally_.unsafe_jobs += tally_.unsafe_ports > 0;
    return tally_;
  }

 private:
  struct Offset {
    double opens_deg = 0, closes_deg = 0;  ///< later than stated
  };

  double uniform(double low, double high) {
    return low < high ? std::uniform_real_distribution<double>(low, high)(random_) : low;
  }
  bool happens(double chance) { return uniform(0, 1) < chance; }
  size_t pick(size_t count) { return static_cast<size_t>(uniform(0, static_cast<double>(count))) % count; }
  size_t index(int number) const {
    size_t k = 0;
    while (engine_.cylinders[k].number != number) ++k;
    return k;
  }

  /// Largest lift of the port's intake valves: the curve as stated, stretched to the true events.
  double lift_mm(size_t k) const {
    const Cylinder& c = engine_.cylinders[k];
    double lift = crumb_ == k ? crumb_mm_ : 0;
    for (size_t v = 0; v < c.intake.size(); ++v) {
      const LiftProfile& p = engine_.trains[c.intake[v]].profile;
      const double opens_deg = p.seat_opens_deg() + offsets_[k][v].opens_deg;
      const double closes_deg = p.seat_closes_deg() + offsets_[k][v].closes_deg;
      double into_deg = std::fmod(angle_deg_ - c.firing_tdc_deg - opens_deg, 720.0);
      if (into_deg < 0) into_deg += 720;
      if (into_deg >= closes_deg - opens_deg) continue;
      const double stated_deg = p.seat_opens_deg() + into_deg / (closes_deg - opens_deg) * p.seat_span_deg();
      lift = std::max(lift, p.lift_mm(stated_deg));
    }
    return lift;
  }

  bool believes() const { return habits_.most_open < 1; }

  bool seen_shut(int number) {
    size_t k = index(number);
    if (engine_.cylinders.size() > 1 && happens(slips_.wrong_port))
      k = k == 0 ? 1 : k + 1 == engine_.cylinders.size() || happens(0.5) ? k - 1 : k + 1;
    const double mm = lift_mm(k);
    if (mm <= 0) return !happens(slips_.false_open);
    // Even chances at the limit, none 30 % off it.
    return happens(std::clamp((1.3 * limit_mm_ - mm) / (0.6 * limit_mm_), slips_.overlooked, 1.0));
  }

  void look(int number) {
    ++tally_.looks;
    const bool shut = seen_shut(number);
    auto& list = shut ? evidence_.looks.shut : evidence_.looks.open;
    if (std::count(list.begin(), list.end(), number) == 0) list.push_back(number);
    fresh_.push_back(number);
    if (believes()) belief_ = belief_.looked(number, shut).belief;
  }

  void blast(int number) {
    if (habits_.chalk && std::fabs(std::remainder(angle_deg_ - chalk_deg_, 360.0)) > 3 && !happens(0.02)) {
      start_over();
      return;
    }
    ++tally_.blasted;
    tally_.unsafe_ports += lift_mm(index(number)) > 0;
    std::erase(ask_.left, number);
    ask_.done.push_back(number);
    // The pause: a port takes ten minutes, and now and then somebody comes by.
    if (static_cast<int>(ask_.done.size()) == moves_at_) angle_deg_ = uniform(0, 720);
    if (believes()) belief_ = belief_.somebody_moved(belief_.model().priors().moved_pause);
    fresh_.clear();
  }

  void turn(double turn_deg) {
    ++tally_.turns;
    evidence_.before = after_turn(ports_, evidence_, turn_deg, kAccuracy_deg);
    evidence_.looks = {};
    fresh_.clear();
    if (believes()) belief_ = belief_.turned({turn_deg, kAccuracy_deg, 0, 0, 0.002});
    const double reach_deg = happens(slips_.wide_turn) ? 3 * kAccuracy_deg : kAccuracy_deg;
    double off_deg = uniform(-reach_deg, reach_deg);
    if (happens(slips_.roll_back)) off_deg = std::max(-reach_deg, off_deg - uniform(0, 8));
    if (happens(slips_.wrong_turn)) off_deg += happens(0.5) ? 180 : -180;
    angle_deg_ += turn_deg + off_deg;
    chalk_deg_ = angle_deg_;
  }

  /// Looks once more into the ports that a single change would mend; if that does not, all over again. A port
  /// that is in a disagreement for the third time is left for another day.
  void disagree() {
    ++tally_.disagreements;
    for (const Mend& mend : mends(ports_, evidence_)) {
      if (mend.cylinder == 0 || stands(ports_, evidence_).total_deg() > 0) continue;
      std::erase(evidence_.looks.shut, mend.cylinder);
      std::erase(evidence_.looks.open, mend.cylinder);
      look(mend.cylinder);
      if (!mend.was_shut && ++blamed_[static_cast<size_t>(mend.cylinder)] >= 3)
        std::erase(ask_.left, mend.cylinder);
    }
    if (stands(ports_, evidence_).empty()) start_over();
  }

  void start_over() {
    evidence_ = {};
    fresh_.clear();
    if (believes()) belief_ = belief_.somebody_moved(1);
    chalk_deg_ = angle_deg_;
  }

  const Engine& engine_;
  const Habits& habits_;
  const Slips& slips_;
  std::mt19937_64 random_;
  Belief belief_;
  std::vector<PortSets> ports_;
  std::vector<std::vector<Offset>> offsets_;
  double angle_deg_ = 0, chalk_deg_ = 0, limit_mm_ = 0.5, crumb_mm_ = 1;
  size_t crumb_ = static_cast<size_t>(-1);
  int moves_at_ = -1;
  std::vector<int> fresh_;
  std::vector<int> blamed_ = std::vector<int>(100, 0);
  Evidence evidence_;
  LooksPlanQuestion ask_;
  Tally tally_;
};

}  // namespace

Tally& Tally::operator+=(const Tally& other) {
  jobs += other.jobs;
  unsafe_ports += other.unsafe_ports;
  unsafe_jobs += other.unsafe_jobs;
  blasted += other.blasted;
  looks += other.looks;
  turns += other.turns;
  disagreements += other.disagreements;
  given_up += other.given_up;
  return *this;
}

Tally one_job(const Engine& engine, std::shared_ptr<const LookModel> model, const Habits& habits,
              const Slips& slips, uint64_t seed) {
  return Job(engine, std::move(model), habits, slips, seed).run();
}

}  // namespace shutlane::test
