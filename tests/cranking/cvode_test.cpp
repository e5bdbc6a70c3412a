// The reference path against an outside solver: SUNDIALS CVODE (Adams, root finding), with the equations
// written down a second time from the slider-crank's closed form (no bore offset). What it cannot see: a
// mistake in the equations that both share as a model; the closed forms of physics_test.cpp are for that.
#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sundials/sundials_context.h>
#include <sunnonlinsol/sunnonlinsol_fixedpoint.h>

#include <cmath>
#include <cstdlib>
#include <random>

#include "sim/cranking/fast.hpp"
#include "sim/cranking/reference.hpp"
#include "tests/cranking/engines.hpp"

namespace shutlane::testing {
namespace {

struct Outside {
  struct Cyl {
    double tdc_rad, from_rad, to_rad;
  };
  double area, r, l, clearance;  // SI
  double J, f0, f1, hold, n, leak, pa, stall, w0;
  std::vector<Cyl> cylinders;
  std::vector<int> sealed;
  int direction = 0;
  bool on = false;

  double local(const Cyl& c, double x) const {
    // nearest to firing TDC, cut opposite the middle of the sealed arc
    const double cycle = 4 * M_PI, mid = (c.from_rad + c.to_rad) / 2;
    return mid + std::remainder(x - c.tdc_rad - mid, cycle);
  }
  double volume(double a) const {
    return clearance +
           area * (r + l - r * std::cos(a) - std::sqrt(l * l - r * r * std::sin(a) * std::sin(a)));
  }
  double slope(double a) const {
    return area * r * std::sin(a) *
           (1 + r * std::cos(a) / std::sqrt(l * l - r * r * std::sin(a) * std::sin(a)));
  }
  double gas(const double* y) const {
    double t = 0;
    for (size_t k = 0; k < cylinders.size(); ++k)
      if (sealed[k]) t += (y[2 + k] - pa) * slope(local(cylinders[k], y[0]));
    return t;
  }
  double starter(double w) const { return on ? std::max(0.0, stall * (1 - w / w0)) : 0.0; }

  static int rhs(double, N_Vector yv, N_Vector dv, void* self) {
    const Outside& o = *static_cast<Outside*>(self);
    const double* y = N_VGetArrayPointer(yv);
    double* d = N_VGetArrayPointer(dv);
    d[0] = y[1];
    d[1] = (o.gas(y) + o.starter(y[1]) - o.direction * (o.f0 + o.f1 * std::abs(y[1]))) / o.J;
    for (size_t k = 0; k < o.cylinders.size(); ++k) {
      d[2 + k] = 0;
      if (!o.sealed[k]) continue;
      const double a = o.local(o.cylinders[k], y[0]), v = o.volume(a), p = y[2 + k];
      d[2 + k] = -o.n * p / v * (o.slope(a) * y[1] + o.leak * (p * p - o.pa * o.pa) / (2 * o.pa * p));
    }
    return 0;
  }
  static int roots(double, N_Vector yv, double* g, void* self) {
    const Outside& o = *static_cast<Outside*>(self);
    const double* y = N_VGetArrayPointer(yv);
    g[0] = y[1];
    for (size_t k = 0; k < o.cylinders.size(); ++k) {
      // sin(x/4) is zero once in two turns and has no jump at the cycle's cut.
      const double x = y[0] - o.cylinders[k].tdc_rad;
      g[1 + 2 * k] = std::sin((x - o.cylinders[k].from_rad) / 4);
      g[2 + 2 * k] = std::sin((x - o.cylinders[k].to_rad) / 4);
    }
    return 0;
  }

  /// Advance in degrees after a drive of drive_s seconds from rest.
  double bump(double from_deg, double drive_s) {
    SUNContext context;
    SUNContext_Create(nullptr, &context);
    const sunindextype size = sunindextype(2 + cylinders.size());
    N_Vector yv = N_VNew_Serial(size, context);
    double* y = N_VGetArrayPointer(yv);
    for (sunindextype i = 0; i < size; ++i) y[i] = pa;
    y[0] = from_deg * M_PI / 180;
    y[1] = 0;
    const double start = y[0];
    sealed.clear();
    for (const Cyl& c : cylinders) sealed.push_back(local(c, y[0]) > c.from_rad && local(c, y[0]) < c.to_rad);
    void* cv = CVodeCreate(CV_ADAMS, context);
    CVodeInit(cv, &Outside::rhs, 0, yv);
    N_Vector tolerance = N_VNew_Serial(size, context);
    for (sunindextype i = 0; i < size; ++i) N_VGetArrayPointer(tolerance)[i] = i < 2 ? 1e-11 : 1e-5;
    CVodeSVtolerances(cv, 1e-11, tolerance);
    CVodeSetUserData(cv, this);
    SUNNonlinearSolver fixed = SUNNonlinSol_FixedPoint(yv, 0, context);
    CVodeSetNonlinearSolver(cv, fixed);
    CVodeRootInit(cv, 1 + 2 * int(cylinders.size()), &Outside::roots);
    CVodeSetMaxNumSteps(cv, 1000000);
    CVodeSetMaxStep(cv, 1e-3);
    CVodeSetNoInactiveRootWarn(cv);
    double t = 0;
    const auto choose = [&] {  // at zero speed: stick, or which way
      y[1] = 0;
      const double torque = gas(y) + starter(0);
      direction = std::abs(torque) > hold ? (torque > 0 ? 1 : -1) : 0;
    };
    const auto run_until = [&](double end) {
      if (direction == 0) choose();
      while (t < end) {
        if (direction == 0) {  // stuck: only the leaks act; small steps of the exact decay
          double apart = 0;
          for (size_t k = 0; k < cylinders.size(); ++k)
            if (sealed[k]) apart += std::abs((y[2 + k] - pa) * slope(local(cylinders[k], y[0])));
          if (!on && apart <= hold) return;
          const double dt = std::min(2e-4, end - t);
          for (size_t k = 0; k < cylinders.size(); ++k) {
            if (!sealed[k]) continue;
            const double v = volume(local(cylinders[k], y[0]));
            const double u = (y[2 + k] - pa) / (y[2 + k] + pa) * std::exp(-n * leak * dt / v);
            y[2 + k] = pa * (1 + u) / (1 - u);
          }
          t += dt;
          choose();
          continue;
        }
        CVodeReInit(cv, t, yv);
        CVodeSetStopTime(cv, end);
        const int flag = CVode(cv, end, yv, &t, CV_NORMAL);
        ASSERT_GE(flag, 0);
        if (flag != CV_ROOT_RETURN) continue;
        std::vector<int> hit(1 + 2 * cylinders.size());
        CVodeGetRootInfo(cv, hit.data());
        for (size_t k = 0; k < cylinders.size(); ++k)
          for (const int end_of : {0, 1}) {
            if (!hit[size_t(1 + 2 * int(k) + end_of)]) continue;
            const bool forward = y[1] > 0;
            sealed[k] = forward == (end_of == 0);
            y[2 + k] = pa;
          }
        if (hit[0]) choose();
      }
    };
    on = true;
    run_until(drive_s);
    on = false;
    run_until(drive_s + 100);
    const double advance = (y[0] - start) * 180 / M_PI;
    N_VDestroy(yv);
    N_VDestroy(tolerance);
    SUNNonlinSolFree(fixed);
    CVodeFree(&cv);
    SUNContext_Free(&context);
    return advance;
  }
};

Outside outside_of(const CrankingModel& m) {
  Outside o;
  const SliderCrank& c = m.cylinders[0].crank;
  o.area = M_PI / 4 * c.bore_mm * c.bore_mm * 1e-6;
  o.r = c.crank_radius_mm * 1e-3;
  o.l = c.rod_mm * 1e-3;
  o.clearance = o.area * 2 * o.r / (c.compression_ratio - 1);
  o.J = m.inertia_kgm2;
  o.f0 = m.friction_nm;
  o.f1 = m.friction_nms;
  o.hold = m.breakaway_nm;
  o.n = m.polytropic;
  o.leak = m.leak_m3_s + m.plug_hole_m3_s;
  o.pa = m.ambient_pa;
  o.stall = m.starter_torque_nm;
  o.w0 = m.starter_speed_rad_s;
  for (const SealedCylinder& s : m.cylinders)
    o.cylinders.push_back(
        {s.firing_tdc_deg * M_PI / 180, s.sealed_from_deg * M_PI / 180, s.sealed_to_deg * M_PI / 180});
  return o;
}

uint64_t seed_or(uint64_t fallback) {
  const char* text = std::getenv("SHUTLANE_SEED");
  return text ? std::strtoull(text, nullptr, 10) : fallback;
}
int trials_or(int fallback) {
  const char* text = std::getenv("SHUTLANE_TRIALS");
  return text ? std::atoi(text) : fallback;
}

/// A random engine, car, start and press.
struct Case {
  CrankingModel model;
  double from_deg, press_s;
};
Case random_case(std::mt19937_64& rng) {
  const auto u = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(rng);
  };
  static const Shape shapes[] = {inline_six(),
                                 inline_four(),
                                 even(3),
                                 even(5),
                                 even(8),
                                 even(2),
                                 {{1, 4, 2, 5, 3, 6}, {90, 150, 90, 150, 90, 150}}};
  Shape s = shapes[std::uniform_int_distribution<int>(0, 6)(rng)];
  s.bore_mm = u(70, 100);
  s.stroke_mm = u(70, 100);
  s.rod_mm = s.stroke_mm * u(1.45, 1.8);
  s.compression = u(8, 16);
  s.intake_closes = u(25, 65);
  s.exhaust_opens = u(35, 65);
  EngineSpec spec = spec_of(s);
  spec.cranking.friction_bar = u(0.5, 2);
  spec.cranking.leak_down_percent = u(2, 35);
  spec.cranking.polytropic = u(1.22, 1.38);
  spec.cranking.starter_speed_rpm = u(180, 320);
  return {model_of(spec), u(0, 720), u(0.05, 0.6)};
}

TEST(Reference, AgreesWithCvodeOverRandomEngines) {
  const uint64_t seed = seed_or(20240611);
  const int trials = trials_or(60);
  std::mt19937_64 rng(seed);
  int compared = 0, edges = 0;
  for (int i = 0; i < trials; ++i) {
    const Case c = random_case(rng);
    if (on_knife_edge(c.model, c.from_deg, c.press_s)) {
      ++edges;  // a nudge of friction by 0.2 % moves the rest by more than a degree: no answer means anything
      continue;
    }
    const double drive = c.press_s + c.model.release_delay_s - c.model.engage_delay_s;
    const double ours = bump(c.model, c.from_deg, c.press_s).advance_deg;
    EXPECT_NEAR(ours, outside_of(c.model).bump(c.from_deg, drive), 0.05)
        << "seed " << seed << " case " << i << " from " << c.from_deg << " press " << c.press_s << " n "
        << c.model.cylinders.size();
    ++compared;
  }
  EXPECT_GT(compared, trials / 2);
}

TEST(Fast, AgreesWithTheReferenceWithinItsStatedError) {
  // Stated: away from the knife-edge 95 % of the rests within 1.0 degree (one bin), half within 0.1; the
  // seldom larger ones are slow turns near the friction band, which the nudge rule does not all catch.
  const uint64_t seed = seed_or(77);
  const int trials = trials_or(300);
  std::mt19937_64 rng(seed);
  std::vector<double> errors;
  for (int i = 0; i < trials; ++i) {
    const Case c = random_case(rng);
    if (on_knife_edge(c.model, c.from_deg, c.press_s)) continue;
    const float drive = float(c.press_s + c.model.release_delay_s - c.model.engage_delay_s);
    FastTrial t;
    t.start_deg = c.from_deg;
    t.drives_s = &drive;
    t.presses = 1;
    std::vector<float> advance;
    FastKernel(c.model).run({t}, advance);
    errors.push_back(std::abs(double(advance[0]) - bump(c.model, c.from_deg, c.press_s).advance_deg));
  }
  std::sort(errors.begin(), errors.end());
  ASSERT_GT(errors.size(), size_t(trials) / 2);
  EXPECT_LT(errors[errors.size() / 2], 0.1) << "seed " << seed;
  EXPECT_LT(errors[errors.size() * 95 / 100], 1.0) << "seed " << seed;
}

}  // namespace
}  // namespace shutlane::testing
