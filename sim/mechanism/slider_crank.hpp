#pragma once
// The exact slider-crank with a bore axis that may pass beside the crank axis.
// Source: J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, ch. 2; offset form: closed-form
// linkage geometry.

namespace shutlane {

struct SliderCrank {
  double bore_mm = 0;
  double crank_radius_mm = 0;  ///< half the stroke of the engine file
  double rod_mm = 0;
  double offset_mm = 0;  ///< bore axis beside the crank axis, positive to the side on which the pin goes down
  double compression_ratio = 0;

  /// Crank angle of true top dead centre, from "pin on the bore's side of the crank axis, in line with the
  /// bore".
  double top_dead_centre_deg() const;
  double travel_mm() const;  ///< the piston's whole travel (more than twice the radius with an offset)
  double swept_cm3() const;  ///< bore area times travel
  double clearance_cm3() const;

  struct Motion {
    double below_top_mm = 0;         ///< piston below its true top
    double velocity_mm_per_rad = 0;  ///< positive downwards
    double acceleration_mm_per_rad2 = 0;
  };
  Motion at_pin(double pin_deg) const;  ///< pin angle in the direction of rotation from the bore direction
  Motion at_local(double local_deg) const;  ///< local cycle angle, 0 = firing TDC = true top
  double volume_cm3(double local_deg) const;
};

}  // namespace shutlane
