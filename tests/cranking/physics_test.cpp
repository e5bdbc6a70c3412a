// The physics of a bump against closed forms. What these cannot see: the events (seat crossings, sticking),
// which cvode_test.cpp covers.
#include <cmath>

#include "sim/cranking/random.hpp"
#include "sim/cranking/reference.hpp"
#include "tests/cranking/engines.hpp"

namespace shutlane::testing {
namespace {

/// One cylinder of check values 6.2: bore 80, stroke 80, rod 130 mm, rc 10, exponent 1.3, 1 bar at BDC, no
/// losses.
CrankingModel lossless(int n = 1) {
  Shape s = even(n);
  s.bore_mm = 80;
  s.stroke_mm = 80;
  s.rod_mm = 130;
  s.compression = 10;
  CrankingModel m = model_of(spec_of(s));
  for (SealedCylinder& c : m.cylinders) {
    c.sealed_from_deg = -180;
    c.sealed_to_deg = 180;
  }
  m.friction_nm = m.friction_nms = m.breakaway_nm = m.leak_m3_s = 0;
  return m;
}

TEST(Compression, ReachesTheCompressionRatioToTheExponent) {
  // p/p0 = rc^n (check values 6.1, recomputed from first principles).
  const struct {
    double rc, n, ratio;
  } rows[] = {{8, 1.2, 12.13}, {10, 1.3, 19.95}, {12, 1.35, 28.63}, {14, 1.25, 27.08}, {18, 1.4, 57.20}};
  for (const auto& r : rows) {
    CrankingModel m = lossless();
    m.cylinders[0].crank.compression_ratio = r.rc;
    m.polytropic = r.n;
    ReferenceCrank crank(m, -180 + 1e-9);
    crank.turn_by_wrench(-1e-7, 1.0);
    const double reached = crank.state().pressure_pa[0] / m.ambient_pa;
    EXPECT_NEAR(reached, std::pow(r.rc, r.n), 1e-6 * reached);
    EXPECT_NEAR(reached, r.ratio, 0.006);
  }
}

TEST(Compression, TorqueAtAnglesOfThePrintedTable) {
  // Check values 6.2: angle before TDC, pressure in bar, torque in N m.
  const double rows[][3] = {{120, 1.27833, -4.0728},  {90, 1.85791, -17.2493},   {60, 3.54357, -51.3593},
                            {30, 9.44945, -107.8506}, {20, 13.47357, -110.7171}, {10, 17.85382, -76.6996}};
  for (const auto& r : rows) {
    ReferenceCrank crank(lossless(), -180 + 1e-9);
    crank.turn_by_wrench(-r[0], 1.0);
    EXPECT_NEAR(crank.state().pressure_pa[0] / 1e5, r[1], 6e-6);
    EXPECT_NEAR(crank.gas_nm(), r[2], 6e-5);
  }
  EXPECT_NEAR(peak_compression_nm(lossless().cylinders[0], 1.3, 1e5), 112.7145, 0.01);
}

TEST(Compression, WorkFromBottomToTopIsTheClosedForm) {
  // -108.01677 J (check values 6.2: closed form and quadrature). The crank is thrown at the compression with
  // just the energy that leaves 0.5 rad/s at the top.
  CrankingModel m = lossless();
  const double work_j = 108.01677;
  CrankState s;
  s.angle_deg = -180 + 1e-9;
  s.pressure_pa = {m.ambient_pa};
  s.speed_rad_s = std::sqrt(2 * work_j / m.inertia_kgm2 + 0.25);
  double top_speed = 0, previous_deg = -180, previous_speed = 0;
  ReferenceOptions options;
  options.watch = [&](const CrankState& now) {
    if (previous_deg < 0 && now.angle_deg >= 0)
      top_speed = previous_speed +
                  (now.speed_rad_s - previous_speed) * -previous_deg / (now.angle_deg - previous_deg);
    previous_deg = now.angle_deg;
    previous_speed = now.speed_rad_s;
  };
  ReferenceCrank thrown(m, -180, options);
  thrown.put(s);
  thrown.run(0.5, false);
  EXPECT_NEAR(top_speed, 0.5, 0.01);  // 0.01 rad/s there is 1e-5 of the work
}

/// Work stored in the gas of a lossless crank that shut every cylinder at ambient pressure, J (closed form).
double gas_energy_j(const CrankingModel& m, const CrankState& s) {
  double sum = 0;
  const double n = m.polytropic, pa = m.ambient_pa;
  for (size_t k = 0; k < m.cylinders.size(); ++k) {
    const SealedCylinder& c = m.cylinders[k];
    const double v = c.volume_m3(c.local_deg(s.angle_deg));
    sum += s.pressure_pa[k] * v / (n - 1) + pa * v;
  }
  return sum;
}

TEST(Energy, IsKeptOverTenSwingsInsideTheSealedArcs) {
  CrankingModel m = lossless(2);  // one cylinder up, one down: a swing that never reaches a seat event
  m.cylinders[0].firing_tdc_deg = 0;
  m.cylinders[1].firing_tdc_deg = 180;
  for (SealedCylinder& c : m.cylinders) c.sealed_from_deg = -200, c.sealed_to_deg = 200;
  CrankState s;
  s.angle_deg = 60;
  s.pressure_pa = {2.5e5, 2.5e5};
  s.speed_rad_s = 3;
  const double start_j = gas_energy_j(m, s) + 0.5 * m.inertia_kgm2 * 9;
  int turns = 0;
  double worst = 0, last = 3, low = 1e9, high = -1e9;
  ReferenceOptions options;
  options.watch = [&](const CrankState& now) {
    low = std::min(low, now.angle_deg);
    high = std::max(high, now.angle_deg);
    const double j = gas_energy_j(m, now) + 0.5 * m.inertia_kgm2 * now.speed_rad_s * now.speed_rad_s;
    worst = std::max(worst, std::abs(j - start_j));
    if (now.speed_rad_s * last < 0) ++turns;
    if (now.speed_rad_s != 0) last = now.speed_rad_s;
  };
  ReferenceCrank crank(m, 60, options);
  crank.put(s);
  while (turns < 20 && crank.state().time_s < 60) crank.run(0.5, false);
  EXPECT_GE(turns, 20);  // ten swings there and back
  EXPECT_GT(high - low, 10);
  EXPECT_LT(worst, 1e-6 * start_j);
}

TEST(Energy, SmallSwingsHaveTheAnalyticPeriod) {
  // J d2x/dt2 = -stiffness x about the balance point; stiffness by central difference of the gas torque at
  // fixed amounts of gas, from volumes alone.
  CrankingModel m = lossless(2);
  m.cylinders[1].firing_tdc_deg = 180;
  for (SealedCylinder& c : m.cylinders) c.sealed_from_deg = -200, c.sealed_to_deg = 200;
  const double p0 = 3e5;
  const auto torque = [&](double deg) {
    double t = 0;
    for (const SealedCylinder& c : m.cylinders) {
      const double p =
          p0 * std::pow(c.volume_m3(c.local_deg(90)) / c.volume_m3(c.local_deg(deg)), m.polytropic);
      t += (p - m.ambient_pa) * c.volume_per_rad_m3(c.local_deg(deg));
    }
    return t;
  };
  ASSERT_NEAR(torque(90), 0, 1e-9);
  const double stiffness = -(torque(90.01) - torque(89.99)) / (0.02 * kRadPerDeg);
  ASSERT_GT(stiffness, 0);
  const double period = 2 * kPi * std::sqrt(m.inertia_kgm2 / stiffness);
  CrankState s;
  s.angle_deg = 90;
  s.pressure_pa = {p0, p0};
  s.speed_rad_s = 1e-3;
  double last_speed = 1e-3, last_time = 0;
  std::vector<double> reversals;
  ReferenceOptions options;
  options.watch = [&](const CrankState& now) {
    if (now.speed_rad_s == 0 || (now.speed_rad_s > 0) != (last_speed > 0)) {
      if (last_speed != 0 && (reversals.empty() || now.time_s - reversals.back() > period / 8))
        reversals.push_back(now.time_s);
    }
    last_speed = now.speed_rad_s;
    last_time = now.time_s;
  };
  ReferenceCrank crank(m, 90, options);
  crank.put(s);
  while (reversals.size() < 9 && last_time < 20 * period) crank.run(period, false);
  ASSERT_GE(reversals.size(), 9u);
  EXPECT_NEAR((reversals[8] - reversals[0]) / 4, period, 1e-4 * period);
}

TEST(Balance, LiesHalfAFiringIntervalAfterAFiringTdc) {
  // Check values 6.5: sealed 45/45, polytropic 1.3, each cylinder from 1 bar at its intake closing. I3 120,
  // I4 90, I5 72, I6 60, V8 45, V12 30; at n <= 2 no gas torque in the middle.
  for (const int n : {3, 4, 5, 6, 8, 12}) {
    CrankingModel m = lossless(n);
    for (SealedCylinder& c : m.cylinders) c.sealed_from_deg = -135, c.sealed_to_deg = 135;
    const auto torque = [&](double deg) {
      CrankState s;
      s.angle_deg = deg;
      for (const SealedCylinder& c : m.cylinders)
        s.pressure_pa.push_back(m.ambient_pa *
                                std::pow(c.volume_m3(-135) / c.volume_m3(c.local_deg(deg)), m.polytropic));
      m.breakaway_nm = 1e9;  // keeps put() from choosing a direction
      ReferenceCrank crank(m, deg);
      crank.put(s);
      return crank.gas_nm();
    };
    const double half = 360.0 / n;
    EXPECT_NEAR(torque(half), 0, 1e-6) << n;
    EXPECT_GT(torque(half - 5), n == 3 ? -1e-9 : 0.1) << n;  // I3 has next to no torque near its balance
    EXPECT_LT(torque(half + 5), n == 3 ? 1e-9 : -0.1) << n;
  }
  // The friction band of 8 N m about it, IVC 60 and EVO 45: I4 82.5..97.4, I6 56.9..63.0 (same source).
  const struct {
    int n;
    double low, high;
  } bands[] = {{4, 82.5, 97.4}, {6, 56.9, 63.0}, {3, 92.2, 147.8}};
  for (const auto& band : bands) {
    CrankingModel m = lossless(band.n);
    for (SealedCylinder& c : m.cylinders) c.sealed_from_deg = -120, c.sealed_to_deg = 135;
    const auto torque = [&](double deg) {
      double t = 0;
      for (const SealedCylinder& c : m.cylinders) {
        const double local = c.local_deg(deg);
        if (!c.sealed_at(local)) continue;
        t += m.ambient_pa * (std::pow(c.volume_m3(-120) / c.volume_m3(local), m.polytropic) - 1) *
             c.volume_per_rad_m3(local);
      }
      return t;
    };
    EXPECT_NEAR(std::abs(torque(band.low)), 8, 0.6) << band.n;
    EXPECT_NEAR(std::abs(torque(band.high)), 8, 0.6) << band.n;
  }
}

TEST(Starter, SpinsUpAsTheWorkedExampleSays) {
  // Check values 6.4: stall 122.4 N m and 250 rpm at the crank, J 0.25, friction 40 N m: steady 168.3007 rpm,
  // time constant 0.05347210 s, 95 % in 0.1601881 s. No gas: the cylinder is never sealed.
  CrankingModel m = lossless();
  m.cylinders[0].sealed_from_deg = -1;
  m.cylinders[0].sealed_to_deg = -0.5;
  m.starter_torque_nm = 122.4;
  m.starter_speed_rad_s = 250 * 2 * kPi / 60;
  m.inertia_kgm2 = 0.25;
  m.friction_nm = m.breakaway_nm = 40;
  for (const double t : {0.02, 0.05347210, 0.1601881}) {
    ReferenceCrank crank(m, 10);
    crank.run(t, true);
    EXPECT_NEAR(crank.state().speed_rad_s * 60 / (2 * kPi), 168.3007 * (1 - std::exp(-t / 0.05347210)), 1e-3);
  }
  m.battery_strength = 0.5;  // half the voltage: half the stall torque, half the no-load speed
  EXPECT_NEAR(m.starter_nm(0), 61.2, 1e-9);
  EXPECT_EQ(m.starter_nm(m.starter_speed_rad_s * 0.6), 0);  // the clutch never brakes
}

TEST(Friction, HasTheMeanEffectivePressureOfTheBook) {
  // Barnes-Moss via Heywood: 1.002 bar at 200 rpm makes 15.947 N m in a 2.0 litre engine (check values 6.3).
  Shape s = inline_four();
  s.bore_mm = 86;
  s.stroke_mm = 86.07;  // 1.99987 litres
  EngineSpec spec = spec_of(s);
  spec.cranking.friction_bar = 1.002;
  spec.cranking.friction_bar_per_krpm = 0;
  EXPECT_NEAR(model_of(spec).friction_nm, 15.947, 0.01);
}

TEST(Leak, DecaysInClosedFormAndFlowsBothWays) {
  const double c = leak_conductance_m3_s(10, 1e5), v = 50e-6, n = 1.3, pa = 1e5;
  for (const double p0 : {8e5, 2e5, 0.4e5}) {
    // Against many small explicit steps of the rate itself.
    double p = p0;
    const int steps = 200000;
    for (int i = 0; i < steps; ++i) p -= leak_pa_s(p, v, c, n, pa) * 0.5 / steps;
    EXPECT_NEAR(leaked_pa(p0, v, c, n, pa, 0.5), p, 1e-4 * std::abs(p0 - pa));
    EXPECT_GT((p0 - pa) * (p0 - p), 0);
  }
  EXPECT_EQ(leak_conductance_m3_s(0, 1e5), 0);
  // By hand for 10 %: 8 and 7.3 bar about the orifice, 0.47201 dm3/s of free air, 2 q / (7.3^2 - 1).
  EXPECT_NEAR(c, 1.80536e-5, 1e-10);
  EXPECT_GT(leak_conductance_m3_s(40, 1e5), 3 * c);
}

TEST(Random, NormalsInvertTheErrorFunction) {
  for (double u = 1e-6; u < 1; u += 0.00137)
    EXPECT_NEAR(0.5 * std::erfc(-normal_from(u) / std::sqrt(2.0)), u, 2e-9);
}

TEST(NoStarter, IsRefusedWithTheReason) {
  EngineSpec spec = spec_of(inline_four());
  spec.cranking.starter = StarterKind::none;
  const auto answer = cranking_model(engine_of(spec));
  ASSERT_TRUE(std::holds_alternative<NoBump>(answer));
  EXPECT_NE(std::get<NoBump>(answer).why.find("wrench"), std::string::npos);
  EXPECT_GT(wrench_accuracy_deg(wrench_model(engine_of(spec)), 30), 0);  // rolls back all the same
}

TEST(Wrench, RollsBackOnlyWithThePlugsIn) {
  const CrankingModel in = model_of(spec_of(inline_six())), out = model_of(spec_of(inline_six()), Plugs::out);
  EXPECT_LT(rest_after_wrench_deg(in, 100) - 100, -20);    // 20 degrees before a firing TDC
  EXPECT_NEAR(rest_after_wrench_deg(in, 60) - 60, 0, 60);  // at the balance point: less
  EXPECT_NEAR(rest_after_wrench_deg(out, 100) - 100, 0, 0.5);
  EXPECT_LT(wrench_accuracy_deg(out, 20), 0.5);
}

}  // namespace
}  // namespace shutlane::testing
