#include "ui/window/study/bump_texts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace shutlane::texts {

namespace {
constexpr double kSaid_deg = 1;  // a smaller roll-back is not worth a word

std::string whole(double deg) { return fmt::format("{:.0f}\u00b0", std::round(std::abs(deg))); }
}  // namespace

std::string bump_button() { return "Bump"; }
std::string tip_bump_button() {
  return "Shows what a short press of the starter does to the crank, and where it may come to rest. B.";
}
std::string heading_bump(const std::string& from, FanStart start) {
  switch (start) {
    case FanStart::needle:
      return fmt::format("Bump from the needle, {}", from);
    case FanStart::jobs_crank:
      return fmt::format("Bump from {}, as reckoned", from);
    case FanStart::example:
      break;
  }
  return fmt::format("Bump from {}, as an example", from);
}
std::string heading_replay(const std::string& time) { return fmt::format("Replay at {}", time); }
std::string knob_press() { return "Press"; }
std::string tip_press() {
  return "How long the starter's circuit is closed. The starter takes hold a moment later and lets go a "
         "moment after "
         "the end. Page keys.";
}
std::string seconds(double s) { return fmt::format("{:.2f} s", s); }
std::string plugs_in() { return "Plugs in"; }
std::string plugs_out() { return "Plugs out"; }
std::string tip_plugs() {
  return "With the spark plugs out nothing is compressed: the crank coasts until friction stops it, and may "
         "rest "
         "anywhere.";
}
std::string play() { return "Play"; }
std::string pause() { return "Pause"; }
std::string tip_play() { return "Turns the what-if needle as the bump turns the crank, slowed down. Space."; }
std::string pace(int slower) { return slower == 1 ? "True speed" : fmt::format("1/{} speed", slower); }
std::string tip_pace() { return "How much slower than the crank the replay goes."; }
std::string back_to_start() { return "To the start"; }
std::string tip_back_to_start() { return "Puts the needle back to where the bump began."; }
std::string on_from_here() { return "Bump again"; }
std::string tip_on_from_here() { return "The next bump starts where the needle stands now."; }
std::string stop_reckoning() { return "Stop"; }
std::string tip_stop_reckoning() { return "Stops reckoning; the last fan stays, greyed."; }
std::string reckon_again() { return "Again"; }
std::string tip_reckon_again() {
  return "Reckons as many bumps with other numbers drawn: the fan should hardly change.";
}
std::string reckoning(int percent) { return fmt::format("reckoning, {} %", percent); }
std::string bumps_reckoned(int trials) {
  return trials < 1000 ? fmt::format("{} bumps reckoned", trials)
                       : fmt::format("{},{:03} bumps reckoned", trials / 1000, trials % 1000);
}
std::string reckoning_stopped() { return "stopped; the fan is an older one"; }
std::string not_reckoned_yet() { return "nothing reckoned"; }
std::string curves_label() { return "Course of the bump"; }
std::string tip_curves() {
  return "Drag to see the crank at that instant; with the keyboard here, left and right go a hundredth of a "
         "second.";
}
std::string bump_keys_line() {
  return "\u2190 \u2192 start 1\u00b0 \u00b7 with shift 10\u00b0 \u00b7 page keys press \u00b7 space replay "
         "\u00b7 B back to "
         "the valves";
}
std::string no_bump(const std::string& why) { return fmt::format("No bump: {}.", why); }
std::string course_comes() { return "The course of the bump is being reckoned."; }

std::string on_or_back(double deg) {
  if (std::round(std::abs(deg)) == 0) return "where it started";
  return whole(deg) + (deg > 0 ? " on" : " back");
}

std::string fan_sentence(double likeliest_deg, double p25_deg, double p75_deg) {
  const bool plain = std::round(p25_deg) >= 0 && likeliest_deg > 0;  // all of it lies ahead: said once
  return fmt::format("Rests {}, most likely; half of them between {} and {}.", on_or_back(likeliest_deg),
                     plain ? whole(p25_deg) : on_or_back(p25_deg),
                     plain ? whole(p75_deg) : on_or_back(p75_deg));
}

int of_hundred(double share) { return std::min(99, static_cast<int>(100 * share + 1e-9)); }
std::string shares_heading() { return "Surely shut after so many of 100 bumps, as reckoned:"; }

std::string ports_after_bump(const std::vector<std::pair<int, double>>& shares) {
  std::string all;
  for (const auto& [cylinder, share] : shares) {
    all += all.empty() ? fmt::format("port {} after {} of 100", cylinder, of_hundred(share))
                       : fmt::format(", {} after {}", cylinder, of_hundred(share));
  }
  if (all.empty()) return "No port would be surely shut after more than half of them.";
  return fmt::format("Would be surely shut: {}. Reckoned, not seen: look into the port.", all);
}

std::string as_stated(double press_s, double advance_deg, double rests_s, double rolled_back_deg) {
  const std::string back =
      rolled_back_deg >= kSaid_deg ? fmt::format(", having rolled back {}", whole(rolled_back_deg)) : "";
  return fmt::format("Replayed, {} with the car just as stated: rests {} after {:.1f} s{}.", seconds(press_s),
                     on_or_back(advance_deg), rests_s, back);
}

std::string too_short(double press_s) {
  return fmt::format("{} is too short: the starter lets go before it takes hold.", seconds(press_s));
}

const std::vector<Term>& bump_terms() {
  static const std::vector<Term> all{
      {"bump",
       "A short press of the starter that moves the crank on. Nobody can stop it at an angle: where it rests "
       "is a matter "
       "of chance."},
      {"press",
       "The time for which the starter's circuit is closed. The starter takes hold a moment after its begin "
       "and lets go "
       "a moment after its end."},
      {"compression",
       "A rising piston squeezes the air of a cylinder whose valves are shut. It brakes the crank before "
       "firing TDC and "
       "drives it on, or back, from there."},
      {"roll-back",
       "The crank stops in a compression, and the squeezed air turns it backwards. With plugs in, a crank "
       "let go by a "
       "wrench rolls back too."},
      {"rest angle",
       "Where the crank stands still: friction holds what the air in the cylinders still pushes. Often about "
       "half a "
       "firing interval after a firing TDC."},
      {"fan",
       "Where many bumps come to rest that begin alike: press, starter, friction and leaks differ a little "
       "each time. "
       "The higher, the more of them."},
      {"firing interval",
       "The crank degrees from one firing TDC to the next. Evenly fired: 720 divided by the number of "
       "cylinders. Rests "
       "gather once in each."},
      {"surely shut", meaning_of("surely shut")},
  };
  return all;
}

}  // namespace shutlane::texts
