#include "ui/window/study/bump_study.hpp"

#include <algorithm>
#include <cmath>

#include "ui/window/study/study.hpp"

namespace shutlane {

void BumpStudy::set_open(bool open) {
  open_ = open;
  playing_ = false;
  if (open) return;
  if (worker_) worker_->cancel();
  asked_ = {};  // asked for again when it is opened
}

void BumpStudy::set_press(double press_s) {
  const double whole = std::round(press_s / kPressStep_s) * kPressStep_s;
  const double taken = std::clamp(whole, kShortestPress_s, kLongestPress_s);
  if (std::abs(taken - press_s_) < kPressStep_s / 2) return;
  press_s_ = taken;
  changed();
}

void BumpStudy::set_plugs(Plugs plugs) {
  if (plugs == plugs_) return;
  plugs_ = plugs;
  changed();
}

void BumpStudy::changed() {
  playing_ = false;
  time_s_ = 0;
  go_back_ = sent_deg_.has_value();
}

std::optional<double> BumpStudy::take_return() {
  if (!std::exchange(go_back_, false)) return std::nullopt;
  sent_deg_ = start_deg_;
  return sent_deg_;
}

const std::string* BumpStudy::refused() const { return refused_.empty() ? nullptr : &refused_; }

void BumpStudy::follow(const std::shared_ptr<const Engine>& engine, const Snapshot& s,
                       const std::function<void()>& wake) {
  if (!open_ || !engine) return;
  if (engine != engine_) {
    engine_ = engine;
    modelled_.reset();
    record_.reset();
    fan_.reset();
    record_of_ = fan_of_ = {};
    changed();
  }
  if (modelled_ != plugs_) {
    modelled_ = plugs_;
    auto model = cranking_model(*engine, plugs_);
    const auto* no = std::get_if<NoBump>(&model);
    refused_ = no ? no->why : "";
    model_ = no ? nullptr : std::make_shared<const CrankingModel>(std::get<CrankingModel>(std::move(model)));
  }
  const bool ours = sent_deg_ && s.what_if_deg && wrap_deg(*s.what_if_deg) == *sent_deg_;
  if (!ours) {  // the hand moved the needle or put it back
    sent_deg_.reset();
    start_deg_ = needle_deg(s);
    start_ = s.what_if_deg ? FanStart::needle : jobs_crank_deg(s) ? FanStart::jobs_crank : FanStart::example;
    playing_ = go_back_ = false;
    time_s_ = 0;
  }
  if (!model_) return;
  ask(wake);
  BumpAnswer answer = worker_->answer();
  if (!(answer.question == asked_)) return;
  if (answer.record && record_of_ != answer.question) {
    record_ = answer.record;
    record_of_ = answer.question;
    time_s_ = std::min(time_s_, record_->ends_s());
  }
  if (answer.fan) {
    fan_ = answer.fan;
    fan_of_ = answer.question;
  }
}

void BumpStudy::ask(const std::function<void()>& wake) {
  const FanQuestion wanted{model_, start_deg_, press_s_, trials, seed_};
  if (wanted == asked_) return;
  if (!worker_) {
    worker_ = std::make_unique<BumpWorker>();
    worker_->wake = wake;
  }
  asked_ = wanted;
  worker_->ask(wanted);
}

void BumpStudy::stop_reckoning() {
  if (worker_) worker_->cancel();
}

void BumpStudy::reckon_again() { ++seed_; }

double BumpStudy::needle_at(double time_s) const {
  return wrap_deg(start_deg_ + sample_at(*record_, time_s).turned_deg);
}

std::optional<double> BumpStudy::scrub(double time_s) {
  if (!record_ || record_stale()) return std::nullopt;
  playing_ = false;
  time_s_ = std::clamp(time_s, 0.0, record_->ends_s());
  sent_deg_ = needle_at(time_s_);
  return sent_deg_;
}

std::optional<double> BumpStudy::play_or_pause() {
  if (playing_) {
    playing_ = false;
    return std::nullopt;
  }
  if (!record_ || record_stale()) return std::nullopt;
  const auto sent = scrub(at_end() ? 0 : time_s_);
  playing_ = true;
  return sent;
}

std::optional<double> BumpStudy::run_on(double seconds) {
  if (!playing_) return std::nullopt;
  const auto sent = scrub(time_s_ + seconds / slower());
  playing_ = sent && !at_end();
  return sent;
}

void BumpStudy::go_on_from_here() { sent_deg_.reset(); }

}  // namespace shutlane
