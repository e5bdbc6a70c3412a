#pragma once
// Counter-based random numbers: a number is a pure function of (seed, stream, index, dimension), so that any
// split of the work over threads gives the same numbers.
#include <cmath>
#include <cstdint>

namespace shutlane {

/// SplitMix64's finaliser (Steele, Lea and Flood, OOPSLA 2014).
inline uint64_t mixed(uint64_t x) {
  x += 0x9e3779b97f4a7c15u;
  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9u;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebu;
  return x ^ (x >> 31);
}

inline double unit_from(uint64_t bits) { return (double(bits >> 11) + 0.5) * 0x1p-53; }  // inside (0, 1)

inline double uniform(uint64_t seed, uint64_t stream, uint64_t index, uint64_t dimension) {
  return unit_from(mixed(mixed(mixed(mixed(seed) ^ stream) ^ index) ^ dimension));
}

/// Inverse of the normal distribution, relative error below 1.2e-9. Rational approximations after P. J.
/// Acklam, 2003 (coefficients from memory; the test checks them against std::erfc).
inline double normal_from(double u) {
  static constexpr double a[] = {-3.969683028665376e+01, 2.209460984245205e+02,  -2.759285104469687e+02,
                                 1.383577518672690e+02,  -3.066479806614716e+01, 2.506628277459239e+00};
  static constexpr double b[] = {-5.447609879822406e+01, 1.615858368580409e+02, -1.556989798598866e+02,
                                 6.680131188771972e+01, -1.328068155288572e+01};
  static constexpr double c[] = {-7.784894002430293e-03, -3.223964580411365e-01, -2.400758277161838e+00,
                                 -2.549732539343734e+00, 4.374664141464968e+00,  2.938163982698783e+00};
  static constexpr double d[] = {7.784695709041462e-03, 3.224671290700398e-01, 2.445134137142996e+00,
                                 3.754408661907416e+00};
  const auto tail = [&](double q) {
    return (((((c[0] * q + c[1]) * q + c[2]) * q + c[3]) * q + c[4]) * q + c[5]) /
           ((((d[0] * q + d[1]) * q + d[2]) * q + d[3]) * q + 1);
  };
  constexpr double low = 0.02425;
  if (u < low) return tail(std::sqrt(-2 * std::log(u)));
  if (u > 1 - low) return -tail(std::sqrt(-2 * std::log(1 - u)));
  const double q = u - 0.5, r = q * q;
  return (((((a[0] * r + a[1]) * r + a[2]) * r + a[3]) * r + a[4]) * r + a[5]) * q /
         (((((b[0] * r + b[1]) * r + b[2]) * r + b[3]) * r + b[4]) * r + 1);
}

}  // namespace shutlane
