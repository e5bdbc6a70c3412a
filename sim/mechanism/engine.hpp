#pragma once
// The engine: what a file states (EngineSpec) and what follows from it (Engine).
#include <array>
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "sim/cranking/spec.hpp"
#include "sim/mechanism/lift_profile.hpp"
#include "sim/mechanism/slider_crank.hpp"

namespace shutlane {

enum class Rotation { clockwise, anticlockwise };  ///< seen from the pulley end
enum class ValveKind { intake, exhaust };

struct CylinderSpec {
  double bore_mm = 0;
  double stroke_mm = 0;  ///< twice the crank radius
  double rod_mm = 0;
  double bore_offset_mm = 0;  ///< positive to the side to which positive tilt leans
  double compression_ratio = 0;
  friend bool operator==(const CylinderSpec&, const CylinderSpec&) = default;
};

struct BankSpec {
  std::string name;
  double tilt_deg = 0;         ///< bore axis from vertical, positive leans right seen from the pulley end
  std::vector<int> cylinders;  ///< from the pulley end
  std::optional<double> bore_offset_mm;  ///< this bank's own; otherwise CylinderSpec's
  friend bool operator==(const BankSpec&, const BankSpec&) = default;
};

struct LayoutSpec {
  std::vector<int> firing_order;             ///< every cylinder once, numbers 1..99
  std::vector<double> firing_intervals_deg;  ///< empty: even
  Rotation rotation = Rotation::clockwise;
  std::vector<BankSpec> banks;
  std::map<int, double> crank_pins_deg;  ///< empty: derived
  friend bool operator==(const LayoutSpec&, const LayoutSpec&) = default;
};

/// One [[valves]] entry. With a table the events, at_lift, peak_lift and clearance are not used.
struct ValveSpec {
  ValveKind kind = ValveKind::intake;
  int per_cylinder = 2;
  double opens_deg = 0;   ///< intake: before gas-exchange TDC; exhaust: before BDC
  double closes_deg = 0;  ///< intake: after the following BDC; exhaust: after gas-exchange TDC
  std::optional<double> at_lift_mm = 0.0;  ///< nullopt: the source does not say
  double peak_lift_mm = 0;
  std::optional<LiftLaw> lift_law;  ///< nullopt: unknown
  double clearance_mm = 0;
  std::array<double, 2> phase_range_deg{0, 0};  ///< crank degrees earlier than stated, first <= 0 <= second
  std::vector<std::string> banks;               ///< empty: all
  std::vector<LiftRow> lift_table;
  double peak_at_deg = 0;  ///< of the table, after gas-exchange TDC
  friend bool operator==(const ValveSpec&, const ValveSpec&) = default;
};

struct ToleranceSpec {
  double timing_deg = 5;           ///< 0..30
  std::optional<double> seat_deg;  ///< nullopt: 0 where stated at the seat or by a table, else 10
  friend bool operator==(const ToleranceSpec&, const ToleranceSpec&) = default;
};

struct EngineSpec {
  std::string name, source, needs;
  CylinderSpec cylinder;
  LayoutSpec layout;
  std::vector<ValveSpec> valves;
  ToleranceSpec tolerance;
  CrankingSpec cranking;
  friend bool operator==(const EngineSpec&, const EngineSpec&) = default;
};

/// What a wrong value is called, and how to mend it. `key` is a path such as "valves[1].at_lift_mm".
struct Mistake {
  std::string key, wrong, expected;
};

inline constexpr double kUnknownAtLift_mm = 1.0;  ///< stands for at_lift_mm = "unknown"
inline constexpr double kAssumedSeat_deg =
    10.0;  ///< default of seat_deg where the seat events are reckoned from a lift

/// One [[valves]] entry made ready: its lift over the local angle and how far its events may lie off.
struct ValveTrain {
  ValveKind kind = ValveKind::intake;
  int per_cylinder = 1;
  LiftProfile profile;
  double phase_first_deg = 0, phase_last_deg = 0;  ///< first <= 0 <= last, crank degrees EARLIER than stated
  double timing_deg = 0;                           ///< each seat event, either way
  double seat_deg = 0;                             ///< each seat event, outwards only

  double opens_earliest_deg() const {
    return profile.seat_opens_deg() - phase_last_deg - timing_deg - seat_deg;
  }
  double opens_latest_deg() const { return profile.seat_opens_deg() - phase_first_deg + timing_deg; }
  double closes_earliest_deg() const { return profile.seat_closes_deg() - phase_last_deg - timing_deg; }
  double closes_latest_deg() const {
    return profile.seat_closes_deg() - phase_first_deg + timing_deg + seat_deg;
  }
};

struct Cylinder {
  int number = 0;
  size_t bank = 0;
  size_t from_pulley = 0;  ///< place in its bank, 0 = at the pulley end
  double firing_tdc_deg = 0;
  double crank_pin_deg = 0;  ///< crank pin, in the direction of rotation from cylinder 1's pin, [0, 360)
  double tilt_deg = 0;
  SliderCrank crank;
  std::vector<size_t> intake, exhaust;  ///< indices into Engine::trains, file order

  double local_deg(double crank_deg) const;  ///< [0, 720)
};

struct Engine {
  EngineSpec spec;
  std::vector<Cylinder> cylinders;  ///< in number order
  std::vector<size_t> firing;       ///< indices into cylinders, in firing order
  std::vector<ValveTrain> trains;   ///< one for each spec.valves entry

  const Cylinder* find(int number) const;  ///< nullptr when the engine has no such cylinder
};

/// Everything that is wrong with the spec as a whole (ranges of single numbers included); empty when it can
/// be built.
std::vector<Mistake> mistakes_in(const EngineSpec& spec);

/// The engine of a spec without mistakes, or the mistakes.
std::variant<Engine, std::vector<Mistake>> build_engine(EngineSpec spec);

/// Legal but unlikely numbers, worth a second look.
std::vector<Mistake> doubts_about(const Engine& engine);

/// Lift of every valve of one kind at a cycle angle, events as stated, phaser at 0: one number a valve, file
/// order.
std::vector<double> lifts_mm(const Engine& engine, const Cylinder& cylinder, ValveKind kind,
                             double crank_deg);

}  // namespace shutlane
