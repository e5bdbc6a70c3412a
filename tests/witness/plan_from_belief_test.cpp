// The turn of a belief against a sweep over turns and angles with valve windows taken one angle at a time.
#include "sim/witness/plan_from_belief.hpp"

#include <cmath>
#include <random>

#include "tests/witness/engines.hpp"
#include "tests/witness/trials.hpp"

namespace shutlane {
namespace {

TEST(PlanFromBelief, NoTurnServesMore) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(testing::Message() << "seed " << test::seed());
  auto uniform = [&](double a, double b) { return std::uniform_real_distribution<double>(a, b)(random); };
  for (const size_t which : {0u, 3u, 4u, 6u, 9u}) {
    const Engine engine = test::engine_of(test::engines()[which].shape);
    SCOPED_TRACE(test::engines()[which].name);
    const auto model = std::make_shared<const LookModel>(engine);
    for (uint64_t trial = 0; trial < test::trials(3); ++trial) {
      const Belief belief = Belief::over(model, ArcSet({{uniform(0, 720), uniform(5, 90)}}));
      LooksPlanQuestion question;
      for (const Cylinder& c : engine.cylinders)
        if (uniform(0, 1) < 0.7) question.left.push_back(c.number);
      const BeliefPlan plan = plan_from_belief(engine, belief, {}, question);
      if (question.left.empty()) continue;
      const std::vector<double> angles = belief.angles();
      // Surely shut: from the latest closing (and margin) to the next earliest opening.
      const auto served = [&](double turn_deg) {
        double sum = 0;
        for (const int number : question.left) {
          const Cylinder& c = *engine.find(number);
          const ValveTrain& t = engine.trains[c.intake[0]];
          const auto sure = [&](double crank_deg, double more_deg) {
            const double from_deg = t.closes_latest_deg() + 10 + more_deg;
            const double to_deg = t.opens_earliest_deg() + 720 - 10 - more_deg;
            double into_deg = std::fmod(crank_deg - c.firing_tdc_deg - from_deg + 1440, 720);
            if (into_deg > 720 - 1e-6) into_deg -= 720;
            return into_deg <= to_deg - from_deg + 1e-6;
          };
          for (size_t bin = 0; bin < kBeliefBins; ++bin) {
            const double at_deg = static_cast<double>(bin) * kBeliefStep_deg;
            if (sure(at_deg, 0) || sure(at_deg + turn_deg, question.accuracy_deg)) sum += angles[bin];
          }
        }
        return sum;
      };
      EXPECT_NEAR(plan.served_ports, served(plan.turn_deg), 1e-6);
      for (double turn_deg = 0; turn_deg < 720; turn_deg += 4.5)
        ASSERT_LE(served(turn_deg), plan.served_ports + 0.01 + 1e-6) << "turn " << turn_deg;
      double of_ports = 0;
      for (const PortChances& p : plan.ports) of_ports += p.served;
      EXPECT_NEAR(of_ports, plan.served_ports, 1e-9);
    }
  }
}

TEST(PlanFromBelief, AFullTurnIsTheUsualAnswer) {
  const Engine engine = test::engine_of({{1, 5, 3, 6, 2, 4}});
  const auto model = std::make_shared<const LookModel>(engine);
  LooksPlanQuestion question;
  question.left = {1, 2, 3, 4, 5, 6};
  const BeliefPlan plan = plan_from_belief(engine, Belief::uniform(model), {}, question);
  EXPECT_DOUBLE_EQ(plan.turn_deg, 360);
  EXPECT_TRUE(plan.hand_turn);
  EXPECT_NEAR(plan.served_ports, 6, 1e-9);  // the one-turn rule, seen from the belief
}

}  // namespace
}  // namespace shutlane
