// The belief against a particle simulation: many engines, each with its own angle, timing and faults, asked
// the same questions; those that answer otherwise drop out. It shares with the code under test the chances of
// a look by lift and the priors, not the grid, the tables or the blur. What it can't see: differences below
// its own noise (tolerances below).
#include "sim/witness/belief.hpp"

#include <cmath>
#include <random>

#include "sim/shut/windows.hpp"
#include "tests/witness/engines.hpp"
#include "tests/witness/trials.hpp"

namespace shutlane {
namespace {

struct Particle {
  double angle_deg = 0, later_deg = 0;  ///< timing of all valves of the engine's ports alike, as in the model
  Cause cause;
};

class Particles {
 public:
  Particles(const Engine& engine, const Eye& eye, const CausePriors& priors, size_t count, uint64_t seed)
      : engine_(engine), eye_(eye), priors_(priors), random_(seed) {
    const std::vector<Cause> causes = causes_of(engine, priors);
    for (size_t i = 0; i < count; ++i) {
      double draw = uniform(0, 1);
      Particle p{uniform(0, 720), 0, causes[0]};
      for (const Cause& c : causes) {
        if (draw < c.prior) {
          p.cause = c;
          break;
        }
        draw -= c.prior;
      }
      particles_.push_back(p);
    }
  }

  double look(int cylinder, bool shut) {
    return keep([&](Particle& p) {
      leak(p);
      const Cylinder* c = engine_.find(cylinder);
      if (happens(eye_.wrong_port)) {
        size_t other = static_cast<size_t>(uniform(0, static_cast<double>(engine_.cylinders.size() - 1)));
        if (&engine_.cylinders[other] >= c) ++other;
        c = &engine_.cylinders[other];
      }
      return happens(chance_called_shut(eye_, lift_mm(p, *c))) == shut;
    });
  }

  void turn(double turn_deg, double accuracy_deg, double roll_back_deg, double roll_back_chance) {
    for (Particle& p : particles_) {
      // A triangle is the sum of two even draws; one in fifty goes anywhere within three times as far.
      double off_deg = accuracy_deg / 2 * (uniform(-1, 1) + uniform(-1, 1));
      if (happens(0.02)) off_deg = uniform(-3 * accuracy_deg, 3 * accuracy_deg);
      if (happens(roll_back_chance)) off_deg -= uniform(0, roll_back_deg);
      p.angle_deg = std::fmod(p.angle_deg + turn_deg + off_deg + 720, 720);
    }
  }

  void move(double chance) {
    for (Particle& p : particles_)
      if (happens(chance)) p.angle_deg = uniform(0, 720);
  }

  double chance(const std::function<bool(const Particle&)>& of) const {
    double sum = 0;
    for (const Particle& p : particles_) sum += of(p) ? 1 : 0;
    return sum / static_cast<double>(particles_.size());
  }
  size_t size() const { return particles_.size(); }
  double lift_mm(const Particle& p, const Cylinder& c) {
    const ValveTrain& t = engine_.trains[c.intake[0]];
    const double shift_deg =
        (p.cause.kind == CauseKind::phaser || p.cause.kind == CauseKind::chain) && p.cause.bank == c.bank
            ? p.cause.earlier_deg
            : 0;
    const double earlier_deg = uniform(t.phase_first_deg - t.timing_deg, t.phase_last_deg + t.timing_deg);
    const double lift = t.profile.lift_mm(c.local_deg(p.angle_deg + shift_deg + earlier_deg));
    return p.cause.kind == CauseKind::crumb && p.cause.cylinder == c.number ? std::max(lift, priors_.crumb_mm)
                                                                            : lift;
  }

 private:
  double uniform(double a, double b) { return std::uniform_real_distribution<double>(a, b)(random_); }
  bool happens(double chance) { return uniform(0, 1) < chance; }
  void leak(Particle& p) {
    if (!happens(priors_.moved_each)) return;
    p.cause = causes_of(engine_, priors_)[1];
    p.angle_deg = uniform(0, 720);
  }
  template <typename Keeps>
  double keep(Keeps keeps) {
    std::vector<Particle> kept;
    for (Particle p : particles_)
      if (keeps(p)) kept.push_back(p);
    const double share = static_cast<double>(kept.size()) / static_cast<double>(particles_.size());
    particles_ = std::move(kept);
    return share;
  }

  const Engine& engine_;
  Eye eye_;
  CausePriors priors_;
  std::mt19937_64 random_;
  std::vector<Particle> particles_;
};

TEST(Belief, AgreesWithParticles) {
  // Faults are made common, so that the particles have something to say about them.
  const Eye eye{0.5, 0.02, 0.02, 0.05};
  const CausePriors priors{0.1, 0.02, 0.1, 0.1, 0.03, 20, 25, 1.0};
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(testing::Message() << "seed " << test::seed());
  auto uniform = [&](double a, double b) { return std::uniform_real_distribution<double>(a, b)(random); };
  for (const size_t which : {3u, 4u, 6u, 9u}) {
    const Engine engine = test::engine_of(test::engines()[which].shape);
    SCOPED_TRACE(test::engines()[which].name);
    const auto model = std::make_shared<const LookModel>(engine, eye, priors);
    for (uint64_t trial = 0; trial < test::trials(1); ++trial) {
      Belief belief = Belief::uniform(model);
      Particles particles(engine, eye, priors, 200000, random());
      const auto compare = [&] {
        const double noise = 4.5 * std::sqrt(0.25 / static_cast<double>(particles.size())) + 2e-3;
        for (double from_deg = 0; from_deg < 720; from_deg += 90) {
          const double inside = particles.chance(
              [&](const Particle& p) { return p.angle_deg >= from_deg && p.angle_deg < from_deg + 90; });
          ASSERT_NEAR(belief.chance_in(ArcSet({{from_deg, 90}})), inside, noise) << "from " << from_deg;
        }
        const std::vector<double> causes = belief.cause_chances();
        for (size_t c = 0; c < causes.size(); ++c) {
          const Cause& cause = model->causes()[c];
          const double share = particles.chance([&](const Particle& p) {
            return p.cause.kind == cause.kind && p.cause.bank == cause.bank &&
                   p.cause.cylinder == cause.cylinder && p.cause.earlier_deg == cause.earlier_deg;
          });
          ASSERT_NEAR(causes[c], share, noise) << "cause " << c;
        }
        for (const Cylinder& c : engine.cylinders) {
          const double shut =
              particles.chance([&](const Particle& p) { return particles.lift_mm(p, c) == 0; });
          ASSERT_NEAR(belief.chance_shut(c.number), shut, noise) << "port " << c.number;
          ASSERT_NEAR(belief.chance_shut(c.number), 1 - belief.chance_open(c.number), 1e-9);
        }
      };
      for (int step = 0; step < 7 && particles.size() > 4000; ++step) {
        const double kind = uniform(0, 1);
        if (kind < 0.7) {
          const auto& c = engine.cylinders[static_cast<size_t>(uniform(0, double(engine.cylinders.size())))];
          const bool shut = uniform(0, 1) < belief.chance_seen_shut(c.number);
          const Belief::Seen seen = belief.looked(c.number, shut);
          const double noise = 4.5 * std::sqrt(0.25 / static_cast<double>(particles.size())) + 2e-3;
          ASSERT_NEAR(seen.chance, particles.look(c.number, shut), noise);
          belief = seen.belief;
        } else if (kind < 0.9) {
          const double turn_deg = uniform(0, 720), accuracy_deg = uniform(1, 20);
          belief = belief.turned({turn_deg, accuracy_deg, 60, 0.4});
          particles.turn(turn_deg, accuracy_deg, 60, 0.4);
        } else {
          belief = belief.somebody_moved(0.2);
          particles.move(0.2);
        }
        compare();
        if (HasFatalFailure()) return;
      }
    }
  }
}

std::shared_ptr<const LookModel> six() {
  static const auto model = std::make_shared<const LookModel>(test::engine_of({{1, 5, 3, 6, 2, 4}}));
  return model;
}

TEST(Belief, ASurpriseRaisesTheDoubtAndLeavesItWhole) {
  Belief belief = Belief::over(six(), ArcSet({{55, 10}}));  // 3 and 6 open
  EXPECT_NEAR(belief.chance_in(ArcSet({{54, 12}})), 0.99, 0.01);
  const double before = belief.doubt();
  const Belief::Seen expected = belief.looked(3, false), odd = belief.looked(3, true);
  EXPECT_FALSE(expected.surprise());
  EXPECT_TRUE(odd.surprise());
  EXPECT_LT(expected.belief.doubt(), before * 1.5);
  EXPECT_GT(odd.belief.doubt(), 5 * before);
  for (int i = 0; i < 60; ++i) {  // nonsense without end
    belief = belief.looked(1 + i % 6, i % 2 == 0).belief;
    double sum = 0;
    for (const double a : belief.angles()) {
      ASSERT_GE(a, 0);
      sum += a;
    }
    ASSERT_NEAR(sum, 1, 1e-9);
  }
}

TEST(Belief, AMarkLeavesTwoCandidates) {
  const Belief belief = Belief::uniform(six()).marked(40, 5).belief;
  const double one = belief.chance_in(ArcSet({{30, 20}})), other = belief.chance_in(ArcSet({{390, 20}}));
  EXPECT_NEAR(one, other, 1e-9);
  EXPECT_GT(one + other, 0.7);  // a uniform moved crank and misreads keep the rest
  const Belief looked = belief.looked(6, false).belief.looked(1, true).belief;  // 6 open: 40, not 400
  EXPECT_GT(looked.chance_in(ArcSet({{30, 20}})), 0.85);
}

TEST(Belief, ALobeSeenAtTheFillerIsAnArc) {
  const Engine engine = test::engine_of({{1, 5, 3, 6, 2, 4}});
  // Nose at its valve: peak lift, half way between 348 and 588 local.
  EXPECT_TRUE(lobe_seen_at(engine, 1, ValveKind::intake, 0, 10).contains(468));
  // A quarter turn of the cam later is half a turn of the crank later.
  EXPECT_TRUE(lobe_seen_at(engine, 1, ValveKind::intake, 90, 10).contains(648));
  EXPECT_NEAR(lobe_seen_at(engine, 1, ValveKind::intake, 90, 10).total_deg(), 2 * (2 * 10 + 3), 1e-9);
  const Belief belief =
      Belief::uniform(six()).placed(lobe_seen_at(engine, 1, ValveKind::intake, 0, 10)).belief;
  EXPECT_GT(belief.chance_open(1), 0.7);
}

TEST(Belief, ABumpFollowsItsRestChances) {
  std::vector<double> rest(kBeliefBins, 0.0);
  rest[120] = 1;  // 60
  rest[840] = 3;  // 420
  const Belief belief =
      Belief::over(six(), ArcSet({{100, 5}})).bumped([&](double) { return std::span(rest); });
  EXPECT_NEAR(belief.chance_in(ArcSet({{59, 2}})), 0.25, 1e-9);
  EXPECT_NEAR(belief.chance_in(ArcSet({{419, 2}})), 0.75, 1e-9);
  const Belief lost = belief.bumped([](double) { return std::span<const double>(); });
  EXPECT_NEAR(lost.chance_in(ArcSet({{100, 72}})), 0.1, 1e-9);
}

TEST(Belief, LikelyHoldsItsShare) {
  const Belief belief = Belief::over(six(), ArcSet({{100, 50}}));
  const ArcSet set = belief.likely(0.9);
  EXPECT_GE(belief.chance_in(set), 0.9 - 1e-9);
  EXPECT_LT(set.total_deg(), 52);
}

}  // namespace
}  // namespace shutlane
