#include "ui/terminal/shown_rest_table.hpp"

#include <algorithm>
#include <thread>

#include "ui/kept/rest_cache.hpp"
#include "ui/terminal/progress.hpp"

namespace shutlane::terminal {

std::shared_ptr<const RestTable> shown_rest_table(const CrankingModel& model) {
  Progress progress("working out where bumps leave the crank");
  RestTableQuestion question;
  question.threads = static_cast<int>(std::max(1u, std::thread::hardware_concurrency()));
  question.progress = [&](double done) {
    progress.tell(done);
    return true;
  };
  return rest_table_for(model, question);
}

}  // namespace shutlane::terminal
