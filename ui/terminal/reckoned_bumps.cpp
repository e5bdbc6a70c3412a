#include "ui/terminal/reckoned_bumps.hpp"

#include <algorithm>
#include <thread>

#include "sim/cycle/angle.hpp"
#include "ui/terminal/interrupt.hpp"
#include "ui/terminal/progress.hpp"
#include "ui/terminal/shown_rest_table.hpp"
#include "ui/terminal/told_bumps.hpp"

namespace shutlane::terminal {

ReckonedBumps::ReckonedBumps(const CrankingModel& model, const CrankingModel& as_it_is) : kernel_(model) {
  const ToldBumps told = told_bumps(as_it_is);
  told_ = told.bumps.size();
  note_ = told.note;
  // What was told weighs the cars; the table it is weighed by is that of plugs in.
  if (told_ > 0) cars_ = cars_after(*shown_rest_table(as_it_is), told.bumps);
}

TrialsAnswer ReckonedBumps::trials(TrialsQuestion question) const {
  question.threads = static_cast<int>(std::max(1u, std::thread::hardware_concurrency()));
  const Interrupt interrupt;
  Progress progress("bumping the starter");
  question.progress = [&](double done) {
    progress.tell(done);
    return !interrupt.asked();
  };
  TrialsAnswer answer =
      cars_.empty() ? bump_trials(kernel_, question) : bump_trials(kernel_, question, cars_);
  if (answer.given_up)
    throw Interrupted("the bumps were stopped before all were tried, so there is no answer");
  return answer;
}

TrialsQuestion press_question(double from_deg, double press_s) {
  TrialsQuestion question;
  question.from_deg = wrap_deg(from_deg);
  question.press_s = press_s;
  return question;
}

}  // namespace shutlane::terminal
