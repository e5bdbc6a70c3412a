#include "ui/terminal/shown_rest_table.hpp"

#include <algorithm>
#include <thread>

#include "ui/kept/rest_cache.hpp"
#include "ui/terminal/interrupt.hpp"
#include "ui/terminal/progress.hpp"

namespace shutlane::terminal {

std::shared_ptr<const RestTable> shown_rest_table(const CrankingModel& model) {
  const Interrupt interrupt;
  Progress progress("working out where bumps leave the crank");
  RestTableQuestion question;
  question.threads = static_cast<int>(std::max(1u, std::thread::hardware_concurrency()));
  question.progress = [&](double done) {
    progress.tell(done);
    return !interrupt.asked();
  };
  auto table = rest_table_for(model, question);
  if (!table)
    throw Interrupted("stopped before it was worked out where bumps leave the crank, so there is no answer");
  return table;
}

}  // namespace shutlane::terminal
