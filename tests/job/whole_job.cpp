#include "tests/job/whole_job.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <map>
#include <random>

#include "sim/cranking/trials.hpp"
#include "sim/job/causes.hpp"

namespace shutlane::test {
namespace {

class Job {
 public:
  Job(const JobModel& model, const FastKernel* starter, const JobSlips& slips, uint64_t seed)
      : model_(model),
        engine_(model.engine),
        starter_(starter),
        slips_(slips),
        random_(seed),
        state_(start_job(model)) {
    tally_.seed_of_unsafe = seed;
    angle_deg_ = uniform(0, 720);
    limit_mm_ = uniform(slips.eye_low_mm, slips.eye_high_mm);
    for (const Cylinder& c : engine_.cylinders) {
      offsets_.push_back({});
      for (const size_t i : c.intake) {
        const ValveTrain& t = engine_.trains[i];
        const double phase_deg = uniform(t.phase_first_deg, t.phase_last_deg);
        offsets_.back().push_back({uniform(-t.timing_deg, t.timing_deg) - phase_deg,
                                   uniform(-t.timing_deg, t.timing_deg) - phase_deg});
      }
    }
    if (happens(slips.crumb)) crumb_ = pick(engine_.cylinders.size());
    crumb_mm_ = uniform(0.8, 2);
    if (happens(slips.shifted)) {
      const size_t bank = engine_.cylinders[pick(engine_.cylinders.size())].bank;
      for (size_t k = 0; k < offsets_.size(); ++k)
        if (engine_.cylinders[k].bank == bank)
          for (auto& o : offsets_[k]) o = {o.opens_deg + 18, o.closes_deg + 18};
    }
    moves_at_ = happens(slips.moved) ? 1 + static_cast<int>(pick(engine_.cylinders.size())) : -1;
    if (starter_) car_ = car_draw(starter_->model().spreads, uniform(0, 1), uniform(0, 1));
  }

  JobTally run(std::string* log) {
    tally_.jobs = 1;
    bool finished = false, left_out = false;
    if (slips_.by_mark) to_mark(happens(0.5) ? 0 : 360);
    if (slips_.only_bank) tell(OnlyBank{slips_.only_bank});
    for (int step = 0; step < 900 && !finished; ++step) {
      const Advice advice = advise(model_, state_);
      finished = advice.stage == Stage::finished;
      if (finished) break;
      const JobEvent* advised = std::get_if<JobEvent>(&advice.wide.does);
      if (advice.stage == Stage::contradiction) {
        ++tally_.disagreements;
        if (!disagree()) break;
      } else if (advice.stage == Stage::unseen_left) {
        tell(Reachable{std::get<LookedInto>(*advised).cylinder, false});
        left_out = true;
      } else {
        const Press press = chosen(advice);
        const bool on_to_mark = press.and_then && advice.wide.and_then;
        const double from_deg = angle_deg_;
        tell(happen(std::get<JobEvent>(press.does)));
        if (on_to_mark) to_mark(std::ceil(from_deg / 360) * 360);
        if (press.and_then && !on_to_mark) to_mark(std::round(angle_deg_ / 360) * 360);
      }
    }
    for (const JobPort& port : state_.ports) left_out = left_out || (port.in_job && !port.done);
    tally_.given_up = !finished || left_out;
    tally_.unsafe_jobs = tally_.unsafe_ports > 0;
    if (!tally_.unsafe_jobs) tally_.seed_of_unsafe = 0;
    if (log != nullptr && tally_.unsafe_jobs) *log += story_;
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
  size_t beside(size_t k) {
    if (engine_.cylinders.size() < 2) return k;
    return k == 0 ? 1 : k + 1 == engine_.cylinders.size() || happens(0.5) ? k - 1 : k + 1;
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

  Saw look(int number) {
    ++tally_.looks;
    if (happens(slips_.cannot_see)) return Saw::hidden;
    size_t k = index(number);
    if (happens(slips_.wrong_port)) k = beside(k);
    const double mm = lift_mm(k);
    if (mm <= 0) return happens(slips_.false_open) ? Saw::open : Saw::shut;
    // Even chances at the limit, none 30 % off it. The same eye at the same valve sees the same again.
    const auto [at, is_new] = luck_.try_emplace(k, uniform(0, 1));
    if (is_new && happens(slips_.overlooked)) return Saw::shut;
    if (mm < 2 * limit_mm_ && happens(slips_.touching)) return Saw::touching;
    return at->second < std::clamp((1.3 * limit_mm_ - mm) / (0.6 * limit_mm_), 0.0, 1.0) ? Saw::shut
                                                                                         : Saw::open;
  }

  Lobe lobe(int number) {
    ++tally_.lobes;
    if (slips_.lobes_hidden || happens(5 * slips_.cannot_see)) return Lobe::hidden;
    size_t k = index(number);
    if (happens(slips_.wrong_port)) k = beside(k);
    const LiftProfile& p = engine_.trains[engine_.cylinders[k].intake[0]].profile;
    const Offset& o = offsets_[k][0];
    const double nose_deg = std::fabs(std::remainder(angle_deg_ - engine_.cylinders[k].firing_tdc_deg -
                                                         p.peak_deg() - (o.opens_deg + o.closes_deg) / 2,
                                                     720.0)) /
                            2;
    const double misread_deg = uniform(-8, 8);
    return nose_deg + misread_deg > 140  ? Lobe::away
           : nose_deg + misread_deg < 40 ? Lobe::at_valve
                                         : Lobe::unclear;
  }

  void crank_to(double deg) {
    angle_deg_ = deg;
    luck_.clear();
  }

  /// What really happens when this is done, as an honest technician tells it.
  JobEvent happen(JobEvent event) {
    if (auto* e = std::get_if<LookedInto>(&event)) {
      tally_.looks_left_out += !state_.find(e->cylinder)->in_job;
      e->saw = look(e->cylinder);
    }
    if (auto* e = std::get_if<LobeSeen>(&event)) e->points = lobe(e->cylinder);
    if (const auto* e = std::get_if<BlastStarted>(&event)) {
      ++tally_.blasted;
      const bool open = lift_mm(index(e->cylinder)) > 0;
      tally_.unsafe_ports += open;
      if (open) story_ += "  BLASTED OPEN: lift " + std::to_string(lift_mm(index(e->cylinder))) + " mm\n";
    }
    // The pause: a port takes ten minutes, and now and then somebody comes by.
    if (std::holds_alternative<PortDone>(event) && ++done_ == moves_at_) {
      crank_to(uniform(0, 720));
      story_ += "  somebody moves the crank\n";
    }
    if (const auto* e = std::get_if<Turned>(&event)) {
      ++tally_.moves;
      const double half_deg = (e->max_deg - e->min_deg) / 2, aim_deg = e->min_deg + half_deg;
      const double reach_deg = happens(slips_.wide_turn) ? half_deg + 20 : half_deg;
      double off_deg = uniform(-std::min(10.0, reach_deg), std::min(10.0, reach_deg));
      if (reach_deg > half_deg) off_deg = uniform(-reach_deg, reach_deg);
      if (happens(slips_.roll_back)) off_deg = std::max(-reach_deg, off_deg - uniform(0, half_deg));
      if (happens(slips_.wrong_turn)) off_deg += happens(0.5) ? 180 : -180;
      crank_to(angle_deg_ + aim_deg + off_deg);
    }
    if (std::holds_alternative<Bumped>(event)) {
      ++tally_.moves;
      TrialsQuestion question;
      question.from_deg = std::fmod(angle_deg_, 720.0);
      question.trials = 1;
      question.seed = random_();
      crank_to(angle_deg_ + bump_trials(*starter_, question, car_).advance_deg.front());
    }
    return event;
  }

  /// Of the ways to turn: that which stops at the mark where there is one to be seen, else the other.
  Press chosen(const Advice& advice) const {
    if (advice.stage != Stage::turn || advice.others.empty()) return advice.wide;
    const bool wide = advice.wide.and_then.has_value() == slips_.by_mark;
    return wide ? advice.wide : advice.others.front();
  }

  void to_mark(double near_deg) {
    crank_to(near_deg + uniform(-5, 5));
    tell(MarkRead{0, 5});
  }

  void tell(const JobEvent& event) {
    if (!may(model_, state_, event)) return;
    events_.push_back(event);
    state_ = after(model_, std::move(state_), event);
    note(event);
  }

  void note(const JobEvent& event) {
    char line[120];
    const char* names[] = {"look",    "forget", "cause", "blast",  "stop",   "done",    "again",   "reach",
                           "bank",    "mark",   "lobe",  "sucked", "inside", "emptied", "counted", "turned",
                           "too far", "bumped", "moved", "press",  "left",   "no mark"};
    int cylinder = 0, answer = 0;
    if (const auto* e = std::get_if<LookedInto>(&event))
      cylinder = e->cylinder, answer = static_cast<int>(e->saw);
    if (const auto* e = std::get_if<LobeSeen>(&event))
      cylinder = e->cylinder, answer = static_cast<int>(e->points);
    if (const auto* e = std::get_if<BlastStarted>(&event)) cylinder = e->cylinder;
    if (const auto* e = std::get_if<CauseChosen>(&event))
      cylinder = e->cylinder, answer = static_cast<int>(e->what);
    double aim_deg = 0;
    if (const auto* e = std::get_if<Turned>(&event)) aim_deg = (e->min_deg + e->max_deg) / 2;
    std::snprintf(line, sizeof line, "  %-8s %d %d %.0f   [%.1f]\n",
                  event.index() < std::size(names) ? names[event.index()] : "?", cylinder, answer, aim_deg,
                  std::fmod(angle_deg_, 720.0));
    story_ += line;
  }

  /// Takes the likeliest cause that is offered. What has to be mended first (phaser, chain, engine data) ends
  /// the job; a port that is blamed for the third time is left for another day.
  bool disagree() {
    const std::vector<OfferedCause> causes = offered_causes(model_, events_);
    if (causes.empty()) {
      tell(LooksForgotten{});
      return true;
    }
    const auto* chosen = std::get_if<JobEvent>(&causes.front().choose.does);
    const CauseChosen* cause = chosen ? std::get_if<CauseChosen>(chosen) : nullptr;
    if (cause != nullptr && (cause->what == Suspicion::phaser || cause->what == Suspicion::chain ||
                             cause->what == Suspicion::engine_data))
      return false;
    const int blamed = cause != nullptr ? cause->cylinder : 0;
    if (blamed != 0 && ++blamed_[blamed] >= 3) tell(Reachable{blamed, false});
    tell(*chosen);
    return ++disagreed_ < 12;
  }

  const JobModel& model_;
  const Engine& engine_;
  const FastKernel* starter_;
  const JobSlips& slips_;
  std::mt19937_64 random_;
  JobState state_;
  std::vector<JobEvent> events_;
  CrankingDraw car_;
  std::vector<std::vector<Offset>> offsets_;
  double angle_deg_ = 0, limit_mm_ = 0.5, crumb_mm_ = 1;
  size_t crumb_ = static_cast<size_t>(-1);
  int moves_at_ = -1, done_ = 0, disagreed_ = 0;
  std::map<size_t, double> luck_;
  std::map<int, int> blamed_;
  std::string story_;
  JobTally tally_;
};

}  // namespace

JobTally& JobTally::operator+=(const JobTally& other) {
  jobs += other.jobs;
  unsafe_ports += other.unsafe_ports;
  unsafe_jobs += other.unsafe_jobs;
  blasted += other.blasted;
  looks += other.looks;
  looks_left_out += other.looks_left_out;
  lobes += other.lobes;
  moves += other.moves;
  disagreements += other.disagreements;
  given_up += other.given_up;
  if (other.seed_of_unsafe != 0) seed_of_unsafe = other.seed_of_unsafe;
  return *this;
}

JobTally whole_job(const JobModel& model, const FastKernel* starter, const JobSlips& slips, uint64_t seed,
                   std::string* log) {
  return Job(model, starter, slips, seed).run(log);
}

double bound_95(uint64_t failures, uint64_t jobs) {
  const double n = static_cast<double>(jobs);
  double low = 0, high = 1;
  for (int i = 0; i < 60; ++i) {
    const double p = (low + high) / 2;
    double term = std::pow(1 - p, n), at_most = 0;  // binomial, summed up to the failures
    for (uint64_t k = 0; k <= failures; ++k) {
      at_most += term;
      term *= (n - static_cast<double>(k)) / static_cast<double>(k + 1) * p / (1 - p);
    }
    (at_most > 0.05 ? low : high) = p;
  }
  return low;
}

}  // namespace shutlane::test
