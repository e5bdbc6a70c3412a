#pragma once
// The cranking engine in SI units: one degree of freedom,
//   J dw/dt = starter(w, t) + sum (p - p_ambient) dV/dangle - friction(w).
// Left out on purpose, each small at cranking speed: the inertia torque of the pistons (m r^2 w^2 / 2, below
// 1 N m at 250 rpm), pumping past the throttle, the armature's own inertia behind the one-way clutch, heat
// (the polytropic exponent stands for it).
#include <string>
#include <variant>
#include <vector>

#include "sim/cranking/spec.hpp"
#include "sim/mechanism/engine.hpp"

namespace shutlane {

inline constexpr double kPi = 3.14159265358979323846;
inline constexpr double kRadPerDeg = kPi / 180.0;
inline constexpr double kDegPerRad = 180.0 / kPi;
inline constexpr double kPaPerBar = 1e5;

/// A cylinder as the gas knows it: sealed from its latest intake seat closing to its earliest exhaust seat
/// opening.
struct SealedCylinder {
  double firing_tdc_deg = 0;  ///< cycle angle, [0, 720)
  SliderCrank crank;
  double sealed_from_deg = 0;  ///< local angle, [-720, 0): the intake has just shut, 0 is firing TDC
  double sealed_to_deg =
      0;  ///< local angle, [0, 720): the exhaust is about to open; from < to, less than 720 apart

  double volume_m3(double local_deg) const { return crank.volume_cm3(local_deg) * 1e-6; }
  double volume_per_rad_m3(double local_deg) const;  ///< dV/dangle
  /// The crank angle brought near firing TDC: within a cycle that starts in the middle of the open stretch.
  double local_deg(double crank_deg) const;
  bool sealed_at(double local) const { return local > sealed_from_deg && local < sealed_to_deg; }
};

/// Factors on the uncertain values, 1 (or 0 s) = as stated. `press` is for the hand; the rest is for the car.
struct CrankingDraw {
  double starter = 1, friction = 1, leak = 1, inertia = 1;
  double press = 1;
  double engage_s = 0;    ///< added to the engagement delay
  double polytropic = 0;  ///< added to the exponent
  friend bool operator==(const CrankingDraw&, const CrankingDraw&) = default;
};

struct CrankingModel {
  std::vector<SealedCylinder> cylinders;  ///< in number order
  double starter_torque_nm = 0;           ///< stall, at the crank
  double starter_speed_rad_s = 0;         ///< no load, at the crank, at battery strength 1
  double battery_strength = 1;
  double engage_delay_s = 0, release_delay_s = 0;
  double inertia_kgm2 = 0;
  double friction_nm = 0;   ///< moving, towards zero speed
  double friction_nms = 0;  ///< its growth with speed, N m per rad/s
  double breakaway_nm = 0;  ///< holds the crank at rest; >= friction_nm
  double polytropic = 1.3;
  double leak_m3_s = 0;       ///< conductance of the rings of one cylinder, see leak_conductance_m3_s
  double plug_hole_m3_s = 0;  ///< added to it; 0 with the plugs in
  double ambient_pa = 1e5;
  CrankingSpec spreads;  ///< whence the spreads come

  /// A permanent-magnet motor on a stiff battery: T = Ts (s - w/w0), s the battery strength; the one-way
  /// clutch drives and never brakes. Source: straight torque-speed line of a DC motor with constant flux;
  /// with s < 1 both stall torque and no-load speed fall with the voltage.
  double starter_nm(double speed_rad_s) const {
    const double t = starter_torque_nm * (battery_strength - speed_rad_s / starter_speed_rad_s);
    return t > 0 ? t : 0;
  }
  double conductance_m3_s() const { return leak_m3_s + plug_hole_m3_s; }
  CrankingModel with(const CrankingDraw& draw) const;
  /// Spacing of identical compressions when all cylinders are alike and evenly spaced, else 720.
  double period_deg() const;
};

/// Why an engine cannot be bumped.
struct NoBump {
  std::string why;
};

enum class Plugs { in, out };

/// The model of an engine; NoBump when it has no starter that can be bumped.
std::variant<CrankingModel, NoBump> cranking_model(const Engine& engine, Plugs plugs = Plugs::in);
/// The same without asking for a starter: a crank turned by wrench rolls back in a hybrid too.
CrankingModel wrench_model(const Engine& engine, Plugs plugs = Plugs::in);

/// Conductance of one cylinder's leak from the reading of a leak-down tester: air at 7 bar gauge (about 100
/// psi) through a 1 mm orifice (0.04 in; common practice, no source), the reading being the fall of pressure
/// behind it. Flow through the orifice after ISO 6358 (critical ratio 0.528, 0.1992 dm3/(s bar) per mm2,
/// coefficient 0.65); the leak is a narrow gap with laminar, isothermal, compressible flow: mass flow ~ p^2 -
/// p_ambient^2 (plane Poiseuille flow with density ~ p), so that R T m' = C (p^2 - pa^2) / (2 pa). Returns C,
/// m3/s.
double leak_conductance_m3_s(double leak_down_percent, double ambient_pa);

/// Fall of pressure by leakage, Pa/s (negative inflow below ambient), volume held: n p m'/m with R T m' as
/// above.
double leak_pa_s(double pressure_pa, double volume_m3, double conductance_m3_s, double polytropic,
                 double ambient_pa);
/// The same solved over a time at a fixed volume: (p - pa)/(p + pa) decays as exp(-n C t / V).
double leaked_pa(double pressure_pa, double volume_m3, double conductance_m3_s, double polytropic,
                 double ambient_pa, double time_s);

/// Largest gas torque of one cylinder against the crank, N m > 0, compressed from its seat closing without
/// leak.
double peak_compression_nm(const SealedCylinder& cylinder, double polytropic, double ambient_pa);

}  // namespace shutlane
