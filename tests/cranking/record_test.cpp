// A bump written down: against the reference path's own end, against Newton's law along the samples, and
// against the closed forms of check values 6.1. What these cannot see: a mistake that the samples share with
// the equations of motion; cvode_test.cpp is for that.
#include <algorithm>
#include <cmath>

#include "sim/cranking/record.hpp"
#include "sim/cranking/rest_fan.hpp"
#include "sim/cranking/trials.hpp"
#include "tests/cranking/engines.hpp"

namespace shutlane::testing {
namespace {

struct BumpCase {
  Shape shape;
  double from_deg, press_s;
  Plugs plugs = Plugs::in;
};

std::vector<BumpCase> cases() {
  return {{inline_six(), 35, 0.3},  {inline_six(), 35, 0.05},
          {inline_six(), 410, 1.0}, {inline_four(), 100, 0.2},
          {even(3), 0, 0.12},       {even(1), 200, 0.4},
          {even(12), 7, 0.25},      {inline_six(), 60, 0.3, Plugs::out}};
}

TEST(Record, EndsWhereTheReferencePathRests) {
  for (const BumpCase& c : cases()) {
    const CrankingModel m = model_of(spec_of(c.shape), c.plugs);
    const BumpRecord r = record_bump(m, c.from_deg, c.press_s);
    const BumpResult b = bump(m, c.from_deg, c.press_s);
    // Other step lengths round otherwise: no more than the reference path's own tolerance lets them.
    EXPECT_NEAR(r.advance_deg(), b.advance_deg, 1e-4) << c.from_deg << " " << c.press_s;
    EXPECT_NEAR(r.rests_s, b.time_s, 3e-3);  // bump() names the step before the stop
    double furthest_deg = 0, fastest = 0;
    for (const BumpSample& s : r.samples) {
      furthest_deg = std::max(furthest_deg, s.turned_deg);
      fastest = std::max(fastest, s.speed_rad_s);
    }
    EXPECT_NEAR(furthest_deg, b.furthest_deg, 1e-3);
    EXPECT_NEAR(fastest, b.peak_speed_rad_s, 0.02);
    EXPECT_GE(r.rolled_back_deg, furthest_deg - r.advance_deg() - 1e-9);
  }
}

TEST(Record, GoesFromThePressToTheRestInSmallSteps) {
  for (const BumpCase& c : cases()) {
    const CrankingModel m = model_of(spec_of(c.shape), c.plugs);
    const BumpRecord r = record_bump(m, c.from_deg, c.press_s);
    EXPECT_EQ(r.samples.front().time_s, 0);
    EXPECT_EQ(r.samples.front().turned_deg, 0);
    EXPECT_EQ(r.samples.back().speed_rad_s, 0);
    EXPECT_NEAR(r.drive_to_s, c.press_s + m.release_delay_s, 1e-12);
    EXPECT_NEAR(r.ends_s(), std::max(r.rests_s, r.drive_to_s) + 0.15, 1e-9);
    for (size_t i = 1; i < r.samples.size(); ++i) {
      const BumpSample &a = r.samples[i - 1], &b = r.samples[i];
      ASSERT_GE(b.time_s, a.time_s);
      ASSERT_LE(b.time_s - a.time_s, 0.01 + 1e-9);
      ASSERT_LE(std::abs(b.turned_deg - a.turned_deg), 2.0);
      if (a.speed_rad_s == 0 && b.speed_rad_s == 0) {
        ASSERT_NEAR(a.turned_deg, b.turned_deg, 1e-9);
      }
    }
  }
}

/// Before the press every cylinder is at ambient, whatever stroke it is on; and a compression that is not got
/// over pushes the crank back, but for the plugs.
TEST(Record, StartsLeakedDownAndRollsBackOffACompression) {
  const CrankingModel in = model_of(spec_of(inline_six())), out = model_of(spec_of(inline_six()), Plugs::out);
  double most_deg = 0, most_out_deg = 0;
  for (double from_deg = 1; from_deg < 720; from_deg += 37) {
    const BumpRecord r = record_bump(in, from_deg, 0.1);
    for (const double p : r.samples.front().pressure_pa)
      EXPECT_NEAR(p, r.samples.front().pressure_pa.front(), 1) << "ambient in all, from " << from_deg;
    EXPECT_NEAR(r.samples.front().pressure_pa.front(), 1e5, 5e3);
    most_deg = std::max(most_deg, r.rolled_back_deg);
    most_out_deg = std::max(most_out_deg, record_bump(out, from_deg, 0.1).rolled_back_deg);
  }
  EXPECT_GT(most_deg, 15);
  EXPECT_LT(most_out_deg, 1);
}

TEST(Record, SpeedsFollowFromTheTorques) {
  // J (w2 - w1) is the trapezoid of the torques between any two samples; and over the whole bump what the
  // starter gives is what friction takes and the gas has taken.
  for (const BumpCase& c : cases()) {
    const CrankingModel m = model_of(spec_of(c.shape), c.plugs);
    const BumpRecord r = record_bump(m, c.from_deg, c.press_s);
    double starter_j = 0, lost_j = 0, worst = 0;
    for (size_t i = 1; i < r.samples.size(); ++i) {
      const BumpSample &a = r.samples[i - 1], &b = r.samples[i];
      const double dt = b.time_s - a.time_s, rad = (b.turned_deg - a.turned_deg) * kRadPerDeg;
      const double sum_a = a.gas_nm + a.starter_nm + a.friction_nm,
                   sum_b = b.gas_nm + b.starter_nm + b.friction_nm;
      worst = std::max(worst,
                       std::abs(m.inertia_kgm2 * (b.speed_rad_s - a.speed_rad_s) - dt * (sum_a + sum_b) / 2));
      starter_j += rad * (a.starter_nm + b.starter_nm) / 2;
      lost_j += rad * (a.gas_nm + b.gas_nm + a.friction_nm + b.friction_nm) / 2;
      ASSERT_LE((a.speed_rad_s + b.speed_rad_s) * (a.friction_nm + b.friction_nm), 1e-9) << "friction drives";
      if (a.speed_rad_s == 0 && b.speed_rad_s == 0 && dt > 0) {
        ASSERT_LE(std::abs(a.friction_nm), m.breakaway_nm + 1e-6) << "more than what holds a crank at rest";
      }
    }
    EXPECT_LT(worst, 2e-4) << "N m s; a tenth of a percent of a tenth of a turn a second";
    EXPECT_NEAR(starter_j + lost_j, 0, 2e-3 * std::max(1.0, starter_j));
    EXPECT_GT(starter_j, 0.5);
  }
}

TEST(Record, PressuresStayBetweenLeakAndCompression) {
  // Compressed from its seat closing at ambient pressure a cylinder reaches no more than (V closing / V
  // top)^n (check values 6.1: p/p0 = rc^n), less what leaks; expansion pulls it no further below ambient than
  // that of the sealed arc. Without any leak the passage over TDC reaches the closed form.
  int whole_compressions = 0;
  for (const BumpCase& c : cases()) {
    CrankingModel m = model_of(spec_of(c.shape), c.plugs);
    for (const bool leaks : {true, false}) {
      if (!leaks) m.leak_m3_s = m.plug_hole_m3_s = 0;
      const BumpRecord r = record_bump(m, c.from_deg, c.press_s);
      double top = 0;
      for (size_t k = 0; k < m.cylinders.size(); ++k) {
        const SealedCylinder& cyl = m.cylinders[k];
        const double at_top =
            m.ambient_pa * std::pow(cyl.volume_m3(cyl.sealed_from_deg) / cyl.volume_m3(0), m.polytropic);
        const double at_bottom =
            m.ambient_pa * std::pow(cyl.volume_m3(0) / cyl.volume_m3(cyl.sealed_to_deg), m.polytropic);
        bool passed_whole_compression = false;
        double before = cyl.local_deg(c.from_deg);
        const bool starts_sealed = cyl.sealed_at(before);
        double most = 0;
        for (const BumpSample& s : r.samples) {
          ASSERT_LE(s.pressure_pa[k], at_top * (1 + 1e-6));
          ASSERT_GE(s.pressure_pa[k], at_bottom * (1 - 1e-6));
          const double local = cyl.local_deg(c.from_deg + s.turned_deg);
          if (before < 0 && local >= 0 && local < 90 && !starts_sealed) passed_whole_compression = true;
          before = local;
          most = std::max(most, s.pressure_pa[k]);
        }
        // Samples stand a degree apart: the peak may lie half a degree off the top.
        if (passed_whole_compression && !leaks) {
          ++whole_compressions;
          EXPECT_NEAR(most / at_top, 1, 1e-3);
        }
        top = std::max(top, most / m.ambient_pa);
      }
      if (c.plugs == Plugs::in && c.press_s >= 0.3 && c.shape.order.size() > 1) {
        EXPECT_GT(top, leaks ? 8 : 12);
      }
      if (c.plugs == Plugs::out && leaks) {
        EXPECT_LT(top, 2) << "nothing is compressed with the plugs out";
      }
    }
  }
  EXPECT_GT(whole_compressions, 5);
}

TEST(Record, APressTooShortMovesNothing) {
  CrankingModel m = model_of(spec_of(inline_six()));
  m.engage_delay_s = 0.3;
  const BumpRecord r = record_bump(m, 35, 0.2);
  EXPECT_EQ(r.advance_deg(), 0);
  EXPECT_EQ(r.drive_from_s, r.drive_to_s);
  EXPECT_GE(r.ends_s(), 0.3);
  EXPECT_EQ(sample_at(r, 0.1).speed_rad_s, 0);
}

TEST(Record, IsReadBetweenItsSamples) {
  const BumpRecord r = record_bump(model_of(spec_of(inline_six())), 35, 0.3);
  EXPECT_EQ(sample_at(r, -1).turned_deg, 0);
  EXPECT_EQ(sample_at(r, 1e9).turned_deg, r.advance_deg());
  const size_t i = r.samples.size() / 3;
  const BumpSample &a = r.samples[i], &b = r.samples[i + 1];
  ASSERT_LT(a.time_s, b.time_s);
  const BumpSample half = sample_at(r, (a.time_s + b.time_s) / 2);
  EXPECT_NEAR(half.turned_deg, (a.turned_deg + b.turned_deg) / 2, 1e-12);
  EXPECT_NEAR(half.pressure_pa[2], (a.pressure_pa[2] + b.pressure_pa[2]) / 2, 1e-6);
}

TEST(RestFan, CountsHalvesAndTheLikeliestTenDegrees) {
  // By hand: 8 rests; quartiles are the 2nd, 4th and 6th.
  const RestFan f = rest_fan(700, {60.5f, 61.5f, 62.5f, 62.6f, -5.5f, 180.5f, 181.5f, 20.5f});
  EXPECT_EQ(f.trials, 8);
  EXPECT_NEAR(f.p25_deg, 20.5, 1e-5);
  EXPECT_NEAR(f.p50_deg, 61.5, 1e-5);
  EXPECT_NEAR(f.p75_deg, 62.6, 1e-5);
  EXPECT_NEAR(f.likeliest_deg, (60.5 + 62.6) / 2, 1e-5);
  EXPECT_NEAR(f.likeliest_share, 0.5, 1e-12);
  EXPECT_NEAR(f.weights[42], 0.25, 1e-12);  // 700 + 62.5 and 62.6
  EXPECT_NEAR(f.weights[694], 0.125, 1e-12);
  EXPECT_NEAR(f.weights[0], 0.125, 1e-12);  // 720.5
}

TEST(Trials, CanBeAskedForInParts) {
  const FastKernel kernel(model_of(spec_of(inline_six())));
  TrialsQuestion q;
  q.from_deg = 35;
  q.trials = 3000;
  const std::vector<float> whole = bump_trials(kernel, q).advance_deg;
  std::vector<float> parts;
  for (const int n : {700, 1300, 1000}) {
    q.first_trial = static_cast<int>(parts.size());
    q.trials = n;
    const std::vector<float> part = bump_trials(kernel, q).advance_deg;
    parts.insert(parts.end(), part.begin(), part.end());
  }
  EXPECT_EQ(parts, whole);
}

TEST(Record, IsGivenUpWhenNobodyWantsItAnyMore) {
  int asked = 0;
  RecordOptions options;
  options.give_up = [&] { return ++asked > 50; };
  record_bump(model_of(spec_of(inline_six())), 35, 5, options);
  EXPECT_LT(asked, 60);
}

}  // namespace
}  // namespace shutlane::testing
