#include "tests/job/whole_job.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <map>
#include <random>

#include "sim/cranking/trials.hpp"

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
    if (happens(slips.wrong_mark)) mark_off_deg_ = uniform(0, 360);
    if (starter_) car_ = car_draw(starter_->model().spreads, uniform(0, 1), uniform(0, 1));
  }

  JobTally run(std::string* log) {
    tally_.jobs = 1;
    bool finished = false, left_out = false;
    if (slips_.only_bank) tell({OnlyBank{slips_.only_bank}});
    for (int step = 0; step < 900 && !finished; ++step) {
      const Advice advice = advise(model_, state_);
      finished = advice.stage == Stage::finished;
      if (finished) break;
      ++tally_.presses;
      if (advice.stage == Stage::disagreement) {
        ++tally_.disagreements;
        if (!disagree(advice)) break;
      } else {
        answer(advice, &left_out);
      }
    }
    for (const JobPort& port : state_.ports) left_out = left_out || (port.in_job && !port.done);
    tally_.given_up = !finished || left_out;
    tally_.looks_into_open = static_cast<uint64_t>(state_.cost.looks_into_open_ports_after_blasting);
    return closed(log);
  }

  JobTally run_by_habit() {
    tally_.jobs = 1;
    std::vector<int> left = model_.walk;
    for (int pass = 0; pass < 12 && !left.empty(); ++pass) {
      for (const int port : std::vector<int>(left)) {
        Saw saw = look(port);
        if (saw == Saw::hidden) saw = look(port);
        ++tally_.presses;
        if (saw != Saw::shut) continue;
        blast_where_looked();
        std::erase(left, port);
        pause();
      }
      if (!left.empty()) turn({300, 420});
    }
    tally_.given_up = !left.empty();
    return closed(nullptr);
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
    at_port_ = k;
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

  /// Both go through the one port whose bung is out.
  void blast_where_looked() {
    ++tally_.blasted;
    const double mm = lift_mm(at_port_);
    if (mm <= 0) return;
    ++tally_.unsafe_ports;
    ++tally_.by_lift[mm <= 0.1 ? 0 : mm <= kHarm_mm ? 1 : mm <= 1 ? 2 : 3];
    tally_.harmed_jobs = tally_.harmed_jobs || mm > kHarm_mm;
    story_ += "  BLASTED OPEN: lift " + std::to_string(mm) + " mm\n";
  }

  /// A port takes ten minutes, and now and then somebody comes by.
  void pause() {
    if (++done_ != moves_at_) return;
    crank_to(uniform(0, 720));
    story_ += "  somebody moves the crank\n";
  }

  void turn(const Turned& told) {
    ++tally_.moves;
    const double half_deg = (told.max_deg - told.min_deg) / 2, aim_deg = told.min_deg + half_deg;
    const double reach_deg = happens(slips_.wide_turn) ? half_deg + 20 : half_deg;
    double off_deg = uniform(-std::min(10.0, reach_deg), std::min(10.0, reach_deg));
    if (reach_deg > half_deg) off_deg = uniform(-reach_deg, reach_deg);
    if (happens(slips_.roll_back)) off_deg = std::max(-reach_deg, off_deg - uniform(0, half_deg));
    if (happens(slips_.wrong_turn)) off_deg += happens(0.5) ? 180 : -180;
    crank_to(angle_deg_ + aim_deg + off_deg);
  }

  void bump() {
    ++tally_.moves;
    TrialsQuestion question;
    question.from_deg = std::fmod(angle_deg_, 720.0);
    question.trials = 1;
    question.seed = random_();
    crank_to(angle_deg_ + bump_trials(*starter_, question, car_).advance_deg.front());
  }

  /// Stops where the mark stands in line; what it is told as says how far it rolled.
  double turn_to_mark(bool a_full_turn) {
    double at_deg = 360 * std::floor(angle_deg_ / 360 + (a_full_turn ? 1.5 : 1));
    if (a_full_turn && happens(slips_.wrong_turn)) at_deg += happens(0.5) ? 360 : -360;
    const double rolled_deg = 360.0 / static_cast<double>(engine_.cylinders.size());
    const bool rolls = happens(slips_.rolls_off);
    crank_to(at_deg + mark_off_deg_ + (rolls ? uniform(-rolled_deg, rolled_deg) : uniform(-5, 5)));
    return rolls ? rolled_deg : 5;
  }

  static bool begins_with(const Press& press, const JobEvent& event) {
    return !press.tells.empty() && press.tells.front() == event;
  }
  template <class Event>
  static const Event* told_in(const Press& press) {
    for (const JobEvent& event : press.tells)
      if (const auto* found = std::get_if<Event>(&event)) return found;
    return nullptr;
  }

  /// The button that says what really happens when the advice is followed.
  void answer(const Advice& advice, bool* left_out) {
    const std::vector<Press> presses = advice.told();
    const auto press_first = [&](auto which) {
      for (const Press& press : presses)
        if (which(press)) {
          tell(press.tells);
          return true;
        }
      return false;
    };
    switch (advice.stage) {
      case Stage::look:
      case Stage::look_again:
      case Stage::unseen: {
        const Saw saw = look(advice.port);
        tally_.looks_left_out += !state_.find(advice.port)->in_job;
        if (press_first([&](const Press& p) { return begins_with(p, LookedInto{advice.port, saw}); })) return;
        tell({Reachable{advice.port, false}});  // it can't be seen even with the lamp cleaned
        *left_out = true;
        return;
      }
      case Stage::lobe: {
        const LobeSeen seen{advice.port, lobe(advice.port)};
        press_first([&](const Press& p) { return begins_with(p, seen); });
        return;
      }
      case Stage::chalk:
        return chalk(advice);
      case Stage::mark:
        return mark(advice, presses);
      case Stage::turn: {
        turn(std::get<Turned>(advice.wide.tells.front()));
        return tell(advice.wide.tells);
      }
      case Stage::bump:
        bump();
        return tell(advice.wide.tells);
      case Stage::blasting:
        tell(advice.wide.tells);
        return pause();
      default:  // the first button is what is advised
        return tell(presses.front().tells);
    }
  }

  void chalk(const Advice& advice) {
    const bool drawing = !advice.wide.tells.empty();
    if (slips_.no_chalk) return tell({NoChalk{}});
    if (drawing) {
      chalk_deg_ = angle_deg_;
      return tell({ChalkSeen{true}});
    }
    const bool moved = std::fabs(angle_deg_ - chalk_deg_) > 2;
    tell({ChalkSeen{!moved || happens(slips_.chalk_unlooked)}});
  }

  void mark(const Advice& advice, const std::vector<Press>& presses) {
    const bool again = advice.move && !advice.move->anywhere;
    if (!slips_.by_mark) {
      for (const Press& press : presses)
        if (told_in<NoMark>(press)) return tell(press.tells);
      return give_up();
    }
    tally_.moves += again || told_in<Turned>(advice.wide) != nullptr;
    const double within_deg = turn_to_mark(again);
    for (const Press& press : presses)
      if (const auto* read = told_in<MarkRead>(press); read && read->plus_minus_deg >= within_deg)
        return tell(press.tells);
    for (const Press& press : presses)
      if (told_in<NoMark>(press)) return tell(press.tells);
    tell({CrankMoved{}});
  }

  void give_up() {
    for (const JobPort& port : state_.ports)
      if (port.left()) return tell({Reachable{port.cylinder, false}});
  }

  void tell(const std::vector<JobEvent>& events) {
    for (const JobEvent& event : events) {
      if (!may(model_, state_, event)) {
        story_ += "  REFUSED\n";
        return;
      }
      if (std::holds_alternative<BlastStarted>(event)) blast_where_looked();
      state_ = after(model_, std::move(state_), event);
      note(event);
    }
  }

  JobTally closed(std::string* log) {
    tally_.unsafe_jobs = tally_.unsafe_ports > 0;
    if (!tally_.unsafe_jobs) tally_.seed_of_unsafe = 0;
    if (log != nullptr && tally_.unsafe_jobs) *log += story_;
    return tally_;
  }

  void note(const JobEvent& event) {
    char line[120];
    const char* names[] = {"look",    "forget",   "cause",  "blast",  "stop",    "done",
                           "again",   "reach",    "bank",   "mark",   "no mark", "lobe",
                           "chalk",   "no chalk", "sucked", "inside", "emptied", "counted",
                           "missing", "turned",   "bumped", "press",  "moved",   "left"};
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
  bool disagree(const Advice& advice) {
    if (advice.causes.empty()) {
      tell({LooksForgotten{}});
      return true;
    }
    const auto& cause = std::get<CauseChosen>(advice.causes.front().choose.tells.front());
    if (cause.what == Suspicion::phaser || cause.what == Suspicion::chain ||
        cause.what == Suspicion::engine_data)
      return false;
    if (cause.cylinder != 0 && ++blamed_[cause.cylinder] >= 3) tell({Reachable{cause.cylinder, false}});
    tell({cause});
    return ++disagreed_ < 12;
  }

  const JobModel& model_;
  const Engine& engine_;
  const FastKernel* starter_;
  const JobSlips& slips_;
  std::mt19937_64 random_;
  JobState state_;
  CrankingDraw car_;
  std::vector<std::vector<Offset>> offsets_;
  double angle_deg_ = 0, limit_mm_ = 0.5, crumb_mm_ = 1;
  double mark_off_deg_ = 0, chalk_deg_ = 0;
  size_t crumb_ = static_cast<size_t>(-1), at_port_ = 0;
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
  presses += other.presses;
  looks_into_open += other.looks_into_open;
  harmed_jobs += other.harmed_jobs;
  for (size_t i = 0; i < by_lift.size(); ++i) by_lift[i] += other.by_lift[i];
  if (other.seed_of_unsafe != 0) seed_of_unsafe = other.seed_of_unsafe;
  return *this;
}

JobTally whole_job(const JobModel& model, const FastKernel* starter, const JobSlips& slips, uint64_t seed,
                   std::string* log) {
  return Job(model, starter, slips, seed).run(log);
}

JobTally by_habit(const JobModel& model, const JobSlips& slips, uint64_t seed) {
  return Job(model, nullptr, slips, seed).run_by_habit();
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
