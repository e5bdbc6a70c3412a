#include "sim/mechanism/text.hpp"

#include <cmath>
#include <cstdint>

namespace shutlane {

std::string short_number(double x) {
  if (std::isnan(x)) return "not a number";
  if (std::isinf(x)) return x > 0 ? "infinite" : "minus infinite";
  if (std::fabs(x) >= 1e15) return x > 0 ? "over 1e15" : "under -1e15";
  const auto thousandths = static_cast<std::int64_t>(std::llround(std::fabs(x) * 1000));
  std::string text = (x < 0 && thousandths > 0 ? "-" : "") + std::to_string(thousandths / 1000);
  if (const auto rest = thousandths % 1000; rest != 0) {
    std::string digits = std::to_string(1000 + rest).substr(1);
    digits.erase(digits.find_last_not_of('0') + 1);
    text += "." + digits;
  }
  return text;
}

}  // namespace shutlane
