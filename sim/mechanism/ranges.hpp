#pragma once
// The range allowed for every number of an engine, in one place: checked here, documented in
// engines/README.md.

namespace shutlane {

struct NumberRange {
  double low = 0, high = 0;
  bool holds(double x) const { return x >= low && x <= high; }  ///< false for NaN
};

namespace ranges {
inline constexpr NumberRange bore_mm{5, 1000};
inline constexpr NumberRange stroke_mm{5, 3000};
inline constexpr NumberRange rod_mm{5, 6000};
inline constexpr NumberRange bore_offset_mm{-500, 500};
inline constexpr NumberRange compression_ratio{2, 40};
inline constexpr NumberRange cylinder_number{1, 99};
inline constexpr NumberRange firing_interval_deg{0, 720};
inline constexpr NumberRange tilt_deg{-360, 360};
inline constexpr NumberRange crank_pin_deg{-720, 720};
inline constexpr NumberRange per_cylinder{1, 8};
inline constexpr NumberRange event_deg{-180, 250};  ///< opens before, closes after its dead centre
inline constexpr NumberRange at_lift_mm{0, 100};
inline constexpr NumberRange peak_lift_mm{0.05, 100};
inline constexpr NumberRange clearance_mm{0, 10};
inline constexpr NumberRange phase_deg{-120, 120};
inline constexpr NumberRange table_angle_deg{-720, 720};
inline constexpr NumberRange peak_at_deg{-360, 360};
inline constexpr NumberRange timing_deg{0, 30};
inline constexpr NumberRange seat_deg{0, 90};
}  // namespace ranges

inline constexpr double kIntervalSum_deg = 0.01;  ///< firing intervals sum to 720 within this
inline constexpr double kCrankPinAgrees_deg =
    0.5;                                       ///< stated crank pins agree with the firing order within this
inline constexpr double kPhaseSpan_deg = 120;  ///< ends of a phase range at most this far apart
inline constexpr size_t kTableRows = 5;        ///< a lift table has at least this many

}  // namespace shutlane
