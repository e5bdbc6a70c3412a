#include "sim/cranking/record.hpp"

#include <algorithm>
#include <cmath>

namespace shutlane {
namespace {

class Recorder {
 public:
  Recorder(const CrankingModel& model, double from_deg, double press_s, const RecordOptions& options)
      : model_(model), options_(options) {
    record_.from_deg = from_deg;
    record_.press_s = press_s;
    record_.drive_from_s = record_.drive_to_s = model.engage_delay_s;
    BumpSample still;
    still.pressure_pa.assign(model.cylinders.size(), model.ambient_pa);
    record_.samples.push_back(still);
  }

  BumpRecord run() {
    const double drive_s = record_.press_s + model_.release_delay_s - model_.engage_delay_s;
    if (drive_s > 0) turn(drive_s);
    // What comes after the last movement is only air that leaks.
    const double end_s = std::max({record_.rests_s, record_.press_s, record_.drive_to_s}) + options_.after_s;
    while (record_.samples.size() > 1 && record_.samples.back().time_s > end_s) record_.samples.pop_back();
    stand_until(end_s);
    double furthest_deg = 0;
    for (const BumpSample& s : record_.samples) {
      furthest_deg = std::max(furthest_deg, s.turned_deg);
      record_.rolled_back_deg = std::max(record_.rolled_back_deg, furthest_deg - s.turned_deg);
    }
    return std::move(record_);
  }

 private:
  void turn(double drive_s) {
    record_.drive_to_s = record_.drive_from_s + drive_s;
    stand_until(record_.drive_from_s);
    ReferenceOptions own;
    own.longest_step_deg = options_.longest_step_deg;
    own.longest_s = options_.longest_s;
    own.watch_events = true;
    own.give_up = options_.give_up;
    own.watch = [&](const CrankState& s) { take(s); };
    ReferenceCrank crank(model_, record_.from_deg, own);
    driven_ = true;
    take_torques(crank.state());
    crank.run(drive_s, true);
    driven_ = false;
    take_torques(crank.state());
    crank.run_to_rest();
  }

  /// The state as it is, with the torques of the regime that begins now.
  void take_torques(CrankState s) {
    s.starter_nm = driven_ ? model_.starter_nm(s.speed_rad_s) : 0;
    // A crank that stands is set going by more than breakaway holds.
    if (s.direction == 0 && std::abs(s.gas_nm + s.starter_nm) > model_.breakaway_nm) {
      s.direction = s.gas_nm + s.starter_nm > 0 ? 1 : -1;
      s.friction_nm = model_.friction_nm;
    }
    take(s);
  }

  void take(const CrankState& s) {
    BumpSample now;
    now.time_s = record_.drive_from_s + s.time_s;
    if (stands_) stand_until(now.time_s);
    now.turned_deg = s.angle_deg - record_.from_deg;
    now.speed_rad_s = s.speed_rad_s;
    now.gas_nm = s.gas_nm;
    now.starter_nm = s.starter_nm;
    now.friction_nm = s.direction == 0 ? -(s.gas_nm + s.starter_nm) : -s.direction * s.friction_nm;
    now.pressure_pa = s.pressure_pa;
    if (s.speed_rad_s != 0) record_.rests_s = now.time_s;
    stands_ = s.direction == 0;
    record_.samples.push_back(std::move(now));
  }

  /// The crank stands while its cylinders leak, each in closed form.
  void stand_until(double until_s) {
    const BumpSample from = record_.samples.back();
    const double gap_s = until_s - from.time_s;
    const int parts = static_cast<int>(std::ceil(gap_s / options_.longest_gap_s));
    for (int i = 1; i <= parts; ++i)
      record_.samples.push_back(leaked(from, i == parts ? gap_s : gap_s * i / parts));
  }

  BumpSample leaked(const BumpSample& from, double after_s) const {
    BumpSample s = from;
    s.time_s += after_s;
    s.speed_rad_s = s.gas_nm = 0;
    s.starter_nm = driven_ ? model_.starter_nm(0) : 0;
    for (size_t k = 0; k < s.pressure_pa.size(); ++k) {
      const SealedCylinder& c = model_.cylinders[k];
      const double local = c.local_deg(record_.from_deg + s.turned_deg);
      s.pressure_pa[k] = leaked_pa(from.pressure_pa[k], c.volume_m3(local), model_.conductance_m3_s(),
                                   model_.polytropic, model_.ambient_pa, after_s);
      s.gas_nm += (s.pressure_pa[k] - model_.ambient_pa) * c.volume_per_rad_m3(local);
    }
    s.friction_nm = -(s.gas_nm + s.starter_nm);
    return s;
  }

  const CrankingModel& model_;
  const RecordOptions& options_;
  BumpRecord record_;
  bool driven_ = false, stands_ = true;
};

double between(double a, double b, double part) { return a + (b - a) * part; }

}  // namespace

BumpRecord record_bump(const CrankingModel& model, double from_deg, double press_s,
                       const RecordOptions& options) {
  return Recorder(model, from_deg, press_s, options).run();
}

BumpSample sample_at(const BumpRecord& record, double time_s) {
  const auto& all = record.samples;
  if (time_s <= all.front().time_s) return all.front();
  const auto after = std::upper_bound(all.begin(), all.end(), time_s,
                                      [](double t, const BumpSample& sample) { return t < sample.time_s; });
  if (after == all.end()) return all.back();
  const BumpSample &a = *(after - 1), &b = *after;
  const double part = b.time_s > a.time_s ? (time_s - a.time_s) / (b.time_s - a.time_s) : 0;
  BumpSample s = a;
  s.time_s = time_s;
  s.turned_deg = between(a.turned_deg, b.turned_deg, part);
  s.speed_rad_s = between(a.speed_rad_s, b.speed_rad_s, part);
  s.gas_nm = between(a.gas_nm, b.gas_nm, part);
  s.starter_nm = between(a.starter_nm, b.starter_nm, part);
  s.friction_nm = between(a.friction_nm, b.friction_nm, part);
  for (size_t k = 0; k < s.pressure_pa.size(); ++k)
    s.pressure_pa[k] = between(a.pressure_pa[k], b.pressure_pa[k], part);
  return s;
}

}  // namespace shutlane
