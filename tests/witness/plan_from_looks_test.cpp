// Plans from looks against a sweep: the turn must be right from every angle of the consistent set. The sweep
// finds the set itself from valve lifts under sampled tolerances' worst cases, by stepping, without arcs.
#include "sim/plan/plan_from_looks.hpp"

#include <algorithm>
#include <random>

#include "tests/witness/engines.hpp"
#include "tests/witness/trials.hpp"

namespace shutlane {
namespace {

constexpr double kStep_deg = 0.5;

/// Is the port shut whatever the tolerances, at this angle? From the seat events, without arcs.
bool tolerant_shut(const Engine& engine, const Cylinder& c, double crank_deg) {
  for (const size_t i : c.intake) {
    const ValveTrain& t = engine.trains[i];
    const double from_deg = t.profile.seat_opens_deg() - t.phase_last_deg - t.timing_deg - t.seat_deg;
    const double to_deg = t.profile.seat_closes_deg() - t.phase_first_deg + t.timing_deg + t.seat_deg;
    double into_deg = std::fmod(crank_deg - c.firing_tdc_deg - from_deg, 720);
    if (into_deg < 0) into_deg += 720;
    if (into_deg > 1e-6 && into_deg < to_deg - from_deg - 1e-6) return false;
  }
  return true;
}

bool shut_around(const Engine& engine, const Cylinder& c, double crank_deg, double around_deg) {
  for (double d = -around_deg; d <= around_deg + 1e-9; d += kStep_deg)
    if (!tolerant_shut(engine, c, crank_deg + d)) return false;
  return true;
}

/// Could the port be called shut at this angle: is there a timing at which no valve is above the eye's limit?
bool may_look_shut(const Engine& engine, const Cylinder& c, double crank_deg, double eye_mm) {
  for (const size_t i : c.intake) {
    const ValveTrain& t = engine.trains[i];
    bool below = false;
    for (const double moved_deg : {t.phase_first_deg - t.timing_deg, t.phase_last_deg + t.timing_deg})
      for (double part = 0; part <= 1; part += 0.05)
        below = below || t.profile.lift_mm(c.local_deg(crank_deg) + moved_deg * part) <= eye_mm;
    if (!below) return false;
  }
  return true;
}

std::vector<double> angles_of(const ArcSet& set) {
  std::vector<double> angles;
  for (const Arc& a : set.arcs()) {
    for (double d = 0; d < a.length_deg; d += 3.1) angles.push_back(a.from_deg + d);
    angles.push_back(a.to_deg());
  }
  return angles;
}

TEST(PlanFromLooks, EveryTurnIsRightFromEveryAngle) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(testing::Message() << "seed " << test::seed());
  auto uniform = [&](double a, double b) { return std::uniform_real_distribution<double>(a, b)(random); };
  size_t plans = 0, several_arcs = 0;
  for (const test::Named& named : test::engines()) {
    const Engine engine = test::engine_of(named.shape);
    SCOPED_TRACE(named.name);
    for (uint64_t trial = 0; trial < test::trials(25); ++trial) {
      const double true_deg = uniform(0, 720);
      Looks looks;
      LooksPlanQuestion question;
      question.accuracy_deg = uniform(0, 20);
      question.margin_deg = uniform(0, 15);
      for (const Cylinder& c : engine.cylinders) {
        question.left.push_back(c.number);
        if (uniform(0, 1) < 0.5) continue;
        const double lift_mm = lifts_mm(engine, c, ValveKind::intake, true_deg)[0];
        (lift_mm <= 0.25 ? looks.shut : looks.open).push_back(c.number);
      }
      // A valve seen open though nominally shut within tolerance cannot happen here: lift > 0.25 mm is open.
      if (uniform(0, 1) < 0.3) looks.mark = MarkRead{true_deg + uniform(-5, 5), 5};
      const LooksPlan plan = plan_from_looks(engine, looks, question);
      if (plan.contradiction()) continue;  // the look at 0.25 mm may lie within tolerance of the seat
      plans += plan.unplaced.empty();
      several_arcs += plan.unplaced.empty() && plan.stands.arcs().size() > 1;
      EXPECT_TRUE(plan.ready() || plan.look_next || !plan.unplaced.empty());
      // Witnessed here: sure wherever the other looks let the crank stand, own look left out.
      for (const int number : plan.blast_now)
        for (double at_deg = 0.13; at_deg < 720; at_deg += 1) {
          bool possible = true;
          for (const Cylinder& c : engine.cylinders) {
            if (c.number == number) continue;
            const auto in = [&](const std::vector<int>& l) {
              return std::count(l.begin(), l.end(), c.number) > 0;
            };
            if (in(looks.shut) && !may_look_shut(engine, c, at_deg, looks.eye_mm)) possible = false;
            if (in(looks.open) && tolerant_shut(engine, c, at_deg)) possible = false;
          }
          if (looks.mark && std::fabs(std::remainder(at_deg - looks.mark->at_deg, 360)) > 5) possible = false;
          if (possible) {
            ASSERT_TRUE(shut_around(engine, *engine.find(number), at_deg, question.margin_deg - kStep_deg))
                << "port " << number << " at " << at_deg;
          }
        }
      // Later positions: any turn in the printed range for the first, the aim within its accuracy for all.
      std::vector<int> served = plan.blast_now;
      for (size_t i = 1; i < plan.turns.positions.size(); ++i) {
        const Position& p = plan.turns.positions[i];
        served.insert(served.end(), p.blast.begin(), p.blast.end());
        for (const double start_deg : angles_of(plan.stands))
          for (const int number : p.blast)
            for (const double off_deg : {-question.accuracy_deg, 0.0, question.accuracy_deg}) {
              const double around_deg = std::max(0.0, question.margin_deg - kStep_deg);
              ASSERT_TRUE(
                  shut_around(engine, *engine.find(number), start_deg + p.at_deg + off_deg, around_deg))
                  << "port " << number << " from " << start_deg;
              if (i > 1) continue;
              for (const double turn_deg : {p.turn_min_deg, p.turn_max_deg})
                ASSERT_TRUE(shut_around(engine, *engine.find(number), start_deg + turn_deg, around_deg))
                    << "port " << number << " from " << start_deg << " by " << turn_deg;
            }
      }
      if (!plan.turns.positions.empty()) {
        EXPECT_EQ(plan.turns.positions[0].blast, plan.blast_now);
      }
      if (plan.unplaced.empty()) {
        std::sort(served.begin(), served.end());
        EXPECT_EQ(served, question.left);
      }
    }
  }
  if (test::trials(25) >= 25) {  // the sweep must have had something to sweep
    EXPECT_GT(plans, 50u);
    EXPECT_GT(several_arcs, 3u);
  }
  RecordProperty("plans", static_cast<int>(plans));
}

TEST(PlanFromLooks, OfOneArcNeedsAsManyTurnsAsTheWrenchPlan) {
  std::mt19937_64 random(test::seed());
  for (const test::Named& named : test::engines()) {
    const Engine engine = test::engine_of(named.shape);
    SCOPED_TRACE(named.name);
    for (uint64_t trial = 0; trial < test::trials(40); ++trial) {
      const double from_deg = std::uniform_real_distribution<double>(0, 720)(random);
      const double plus_minus_deg = std::uniform_real_distribution<double>(1, 20)(random);
      Evidence evidence;
      evidence.before = ArcSet({{from_deg - plus_minus_deg, 2 * plus_minus_deg}});
      LooksPlanQuestion question;
      for (const Cylinder& c : engine.cylinders) question.left.push_back(c.number);
      const LooksPlan plan = plan_from_looks(engine, evidence, question);
      const WrenchPlan wrench =
          plan_wrench(shut_windows(engine), {from_deg, plus_minus_deg, 10, question.left, {}});
      EXPECT_EQ(plan.unplaced.empty(), wrench.possible());
      if (!wrench.possible()) continue;
      EXPECT_EQ(plan.turns.turns(), wrench.turns());
      EXPECT_EQ(plan.blast_now, wrench.positions[0].blast);
    }
  }
}

TEST(PlanFromLooks, SaysThatOneFullTurnNeedsNoAngle) {
  const Engine engine = test::engine_of({{1, 5, 3, 6, 2, 4}});
  LooksPlanQuestion question;
  question.left = {1, 2, 3, 4, 5, 6};
  const LooksPlan plan = plan_from_looks(engine, Looks{}, question);
  EXPECT_TRUE(plan.one_full_turn);
  EXPECT_TRUE(plan.ready());
  EXPECT_FALSE(plan.look_next);
  EXPECT_TRUE(plan.blast_now.empty());
  EXPECT_EQ(plan.unplaced, question.left);
  ASSERT_EQ(plan.turns.turns(), 1u);
  EXPECT_DOUBLE_EQ(plan.turns.positions[1].turn_deg, 360);
}

TEST(PlanFromLooks, AsksForALookWhereNoTurnIsAlwaysRight) {
  const Engine engine = test::engine_of({{1, 3, 4, 2}, {}, 60, 110, 10});  // open for 350 degrees and more
  LooksPlanQuestion question;
  question.left = {1, 2, 3, 4};
  const LooksPlan plan = plan_from_looks(engine, Looks{}, question);
  EXPECT_FALSE(plan.one_full_turn);
  EXPECT_FALSE(plan.ready());
  EXPECT_TRUE(plan.turns.positions.empty());
}

TEST(PlanFromLooks, APortOnItsOwnLookAloneIsNotBlasted) {
  const Engine engine = test::engine_of({{1, 5, 3, 6, 2, 4}});
  LooksPlanQuestion question;
  question.left = {1, 2, 3, 4, 5, 6};
  Looks looks;
  looks.shut = {1};
  const LooksPlan plan = plan_from_looks(engine, looks, question);
  EXPECT_TRUE(plan.blast_now.empty());
  EXPECT_TRUE(plan.look_to_blast);
  looks.open = {6};
  EXPECT_EQ(plan_from_looks(engine, looks, question).blast_now, std::vector<int>{1});
  EXPECT_EQ(plan_from_looks(engine, looks, question).seen, std::vector<int>{1});
}

TEST(Evidence, AgreesWithLocate) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(testing::Message() << "seed " << test::seed());
  size_t contradictions = 0;
  for (const test::Named& named : test::engines()) {
    const Engine engine = test::engine_of(named.shape);
    SCOPED_TRACE(named.name);
    const auto ports = port_sets(engine, 0.7, 0);
    for (uint64_t trial = 0; trial < test::trials(40); ++trial) {
      Evidence evidence;
      evidence.looks.eye_mm = 0.7;
      for (const Cylinder& c : engine.cylinders) {
        const uint64_t kind = random() % 5;
        if (kind == 0) evidence.looks.shut.push_back(c.number);
        if (kind == 1 && random() % 2) evidence.looks.open.push_back(c.number);
      }
      if (random() % 4 == 0) evidence.looks.mark = MarkRead{static_cast<double>(random() % 360), 7};
      const Location found = locate(engine, evidence.looks);
      EXPECT_EQ(stands(ports, evidence), found.consistent);
      EXPECT_EQ(all_witnessed(ports, evidence), found.witnessed);
      contradictions += found.contradiction.has_value();
      EXPECT_EQ(stands(ports, evidence).empty(), found.contradiction.has_value());
    }
  }
  if (test::trials(40) >= 40) {
    EXPECT_GT(contradictions, 0u);
  }
}

TEST(Mends, NameTheLookThatIsWrong) {
  const Engine engine = test::engine_of({{1, 5, 3, 6, 2, 4}});
  const auto ports = port_sets(engine);
  Evidence evidence;
  evidence.looks.shut = {1, 2, 4, 5};
  evidence.looks.open = {3, 6};  // true at 60 degrees
  EXPECT_TRUE(mends(ports, evidence).empty());
  evidence.looks.shut = {1, 2, 5};
  evidence.looks.open = {3, 4, 6};  // and now 4 is said to be open
  const auto found = mends(ports, evidence);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].cylinder, 4);
  EXPECT_FALSE(found[0].was_shut);
  EXPECT_TRUE(found[0].by_leaving_out);
  EXPECT_TRUE(found[0].by_other_answer);
}

}  // namespace
}  // namespace shutlane
