#include "ui/window/study/bump_worker.hpp"

#include <algorithm>
#include <chrono>

#include "sim/cranking/trials.hpp"

namespace shutlane {

namespace {
constexpr int kPart = 256;  // trials between two looks at whether the question still stands
constexpr double kTell_s = 0.1;
}  // namespace

BumpWorker::~BumpWorker() {
  {
    const std::lock_guard lock(mutex_);
    stopping_ = true;
    wanted_.reset();
  }
  asked_.notify_all();
  if (thread_.joinable()) thread_.join();
}

void BumpWorker::ask(const FanQuestion& question) {
  {
    const std::lock_guard lock(mutex_);
    wanted_ = question;
    done_ = 0;
    if (!thread_.joinable()) thread_ = std::thread([this] { run(); });
  }
  asked_.notify_all();
}

void BumpWorker::cancel() {
  const std::lock_guard lock(mutex_);
  wanted_.reset();
}

bool BumpWorker::busy() const {
  const std::lock_guard lock(mutex_);
  return wanted_.has_value();
}

double BumpWorker::done() const {
  const std::lock_guard lock(mutex_);
  return done_;
}

BumpAnswer BumpWorker::answer() const {
  const std::lock_guard lock(mutex_);
  return answer_;
}

bool BumpWorker::dropped(const FanQuestion& question) const {
  const std::lock_guard lock(mutex_);
  return !wanted_ || !(*wanted_ == question);
}

void BumpWorker::run() {
  std::unique_lock lock(mutex_);
  while (true) {
    asked_.wait(lock, [this] { return stopping_ || wanted_; });
    if (stopping_) return;
    const FanQuestion question = *wanted_;
    lock.unlock();
    work(question);
    lock.lock();
  }
}

void BumpWorker::work(const FanQuestion& question) {
  const auto tell = [&](auto&& change) {
    {
      const std::lock_guard lock(mutex_);
      if (!wanted_ || !(*wanted_ == question)) return false;
      change();
    }
    if (wake) wake();
    return true;
  };
  RecordOptions options;
  options.give_up = [&] { return dropped(question); };
  auto record = std::make_shared<const BumpRecord>(
      record_bump(*question.model, question.from_deg, question.press_s, options));
  if (!tell([&] { answer_ = {question, record, nullptr}; })) return;

  const FastKernel kernel(*question.model);
  std::vector<float> advance;
  advance.reserve(static_cast<size_t>(question.trials));
  auto told = std::chrono::steady_clock::now();
  while (static_cast<int>(advance.size()) < question.trials) {
    if (dropped(question)) return;
    TrialsQuestion part;
    part.from_deg = question.from_deg;
    part.press_s = question.press_s;
    part.seed = question.seed;
    part.first_trial = static_cast<int>(advance.size());
    part.trials = std::min(kPart, question.trials - part.first_trial);
    const std::vector<float> more = bump_trials(kernel, part).advance_deg;
    advance.insert(advance.end(), more.begin(), more.end());
    const auto now = std::chrono::steady_clock::now();
    if (std::chrono::duration<double>(now - told).count() < kTell_s) continue;
    told = now;
    if (!tell([&] { done_ = static_cast<double>(advance.size()) / question.trials; })) return;
  }
  auto fan = std::make_shared<const RestFan>(rest_fan(question.from_deg, advance));
  tell([&] {
    answer_.fan = fan;
    done_ = 1;
    wanted_.reset();
  });
}

}  // namespace shutlane
