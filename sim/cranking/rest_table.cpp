#include "sim/cranking/rest_table.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <mutex>

#include "sim/cranking/random.hpp"
#include "sim/cranking/split_work.hpp"
#include "sim/cycle/angle.hpp"

namespace shutlane {
namespace {

constexpr uint32_t kTableFormat = 1;
constexpr double kBumpsInTable = 1e6;

struct Hash {  // FNV-1a, 64 bits
  uint64_t value = 0xcbf29ce484222325u;
  void bytes(const void* data, size_t size) {
    const unsigned char* p = static_cast<const unsigned char*>(data);
    for (size_t i = 0; i < size; ++i) value = (value ^ p[i]) * 0x100000001b3u;
  }
  void add(double x) {
    x += 0.0;  // -0 counts as 0
    bytes(&x, sizeof x);
  }
  void add(uint64_t x) { bytes(&x, sizeof x); }
};

void add(Hash& h, const CrankingDraw& d) {
  for (const double x : {d.starter, d.friction, d.leak, d.inertia, d.press, d.engage_s, d.polytropic})
    h.add(x);
}

/// Kronecker sequence on the powers of the root of x^(d+1) = x + 1 (M. Roberts, 2018, "The unreasonable
/// effectiveness of quasirandom sequences"), shifted at random: a few trials cover the spread evenly.
DrawNumbers spread_numbers(uint64_t seed, uint64_t stream, int index) {
  static const DrawNumbers step = [] {
    double g = 1.1;
    for (int i = 0; i < 60; ++i) g = std::pow(1 + g, 1.0 / (kDrawDimensions + 1));
    DrawNumbers s;
    for (size_t d = 0; d < s.size(); ++d) s[d] = std::pow(1 / g, double(d + 1));
    return s;
  }();
  DrawNumbers u;
  for (size_t d = 0; d < u.size(); ++d) {
    const double x = uniform(seed, stream, 0, d) + index * step[d];
    u[d] = std::clamp(x - std::floor(x), 1e-9, 1 - 1e-9);
  }
  return u;
}

RestTableQuestion completed(const CrankingModel& model, RestTableQuestion q) {
  if (q.cars.empty()) q.cars = car_samples(model.spreads);
  if (q.trials_per_car <= 0) {
    const double cells = std::ceil(model.period_deg()) * double(q.presses_s.size() * q.cars.size());
    q.trials_per_car = int(std::clamp(std::ceil(kBumpsInTable / cells), 8.0, 48.0));
  }
  return q;
}

}  // namespace

std::vector<double> default_presses_s() {
  std::vector<double> presses;
  for (int i = 6; i <= 60; i += 2) presses.push_back(i / 100.0);
  return presses;
}

int RestTable::phase_of(int bin) const { return std::min(phases - 1, int(std::fmod(bin + 0.5, period_deg))); }

uint64_t RestTable::hash() const {
  Hash h;
  for (const double p : presses_s) h.add(p);
  for (const CarSample& c : cars) {
    add(h, c.draw);
    h.add(c.weight);
  }
  h.add(uint64_t(trials_per_car));
  h.add(period_deg);
  h.add(uint64_t(phases));
  h.bytes(moved.data(), moved.size() * sizeof moved[0]);
  return h.value;
}

std::optional<RestTable> build_rest_table(const CrankingModel& model, const RestTableQuestion& question) {
  const RestTableQuestion q = completed(model, question);
  const FastKernel kernel(model, q.step_deg);
  RestTable table;
  table.presses_s = q.presses_s;
  table.cars = q.cars;
  table.trials_per_car = q.trials_per_car;
  table.period_deg = model.period_deg();
  table.phases = int(std::ceil(table.period_deg - 1e-9));
  const int presses = int(q.presses_s.size()), cars = int(q.cars.size());
  table.moved.assign(size_t(table.phases) * size_t(presses) * size_t(cars) * size_t(q.trials_per_car), 0);

  std::mutex reporting;
  int done = 0;
  const bool finished = split_work(table.phases, q.threads, [&](int phase) {
    std::vector<FastTrial> trials;
    std::vector<double> starts;
    std::vector<float> drives(size_t(cars * q.trials_per_car * presses)), advance;
    for (int c = 0; c < cars; ++c)
      for (int t = 0; t < q.trials_per_car; ++t) {
        const DrawNumbers u = spread_numbers(q.seed, uint64_t(phase) * 1024 + uint64_t(c), t);
        FastTrial trial;
        trial.start_deg = phase + u[7];
        trial.draw = bump_draw(model.spreads, q.cars[size_t(c)].draw, u);
        float* own = &drives[trials.size() * size_t(presses)];
        for (int h = 0; h < presses; ++h) own[h] = float(drive_s(model, q.presses_s[size_t(h)], trial.draw));
        trial.drives_s = own;
        trial.presses = presses;
        trials.push_back(trial);
      }
    kernel.run(trials, advance);
    for (int c = 0; c < cars; ++c)
      for (int t = 0; t < q.trials_per_car; ++t)
        for (int h = 0; h < presses; ++h) {
          const size_t trial = size_t(c * q.trials_per_car + t);
          const double rest = trials[trial].start_deg + double(advance[trial * size_t(presses) + size_t(h)]);
          const double moved = std::clamp(std::floor(rest) - phase, -32000.0, 32000.0);
          table.moved[((size_t(phase) * size_t(presses) + size_t(h)) * size_t(cars) + size_t(c)) *
                          size_t(q.trials_per_car) +
                      size_t(t)] = int16_t(moved);
        }
    if (!q.progress) return true;
    const std::lock_guard<std::mutex> lock(reporting);
    return q.progress(double(++done) / table.phases);
  });
  if (!finished) return std::nullopt;
  return table;
}

std::string rest_table_key(const CrankingModel& model, const RestTableQuestion& question) {
  const RestTableQuestion q = completed(model, question);
  Hash h;
  h.add(uint64_t(kTableFormat));
  for (const SealedCylinder& c : model.cylinders)
    for (const double x : {c.firing_tdc_deg, c.crank.bore_mm, c.crank.crank_radius_mm, c.crank.rod_mm,
                           c.crank.offset_mm, c.crank.compression_ratio, c.sealed_from_deg, c.sealed_to_deg})
      h.add(x);
  const CrankingSpec& s = model.spreads;
  for (const double x : {model.starter_torque_nm,
                         model.starter_speed_rad_s,
                         model.battery_strength,
                         model.engage_delay_s,
                         model.release_delay_s,
                         model.inertia_kgm2,
                         model.friction_nm,
                         model.friction_nms,
                         model.breakaway_nm,
                         model.polytropic,
                         model.leak_m3_s,
                         model.plug_hole_m3_s,
                         model.ambient_pa,
                         s.starter_torque_spread,
                         s.engage_delay_spread_s,
                         s.press_spread,
                         s.inertia_spread,
                         s.friction_spread,
                         s.polytropic_spread,
                         s.leak_spread,
                         q.step_deg})
    h.add(x);
  for (const double p : q.presses_s) h.add(p);
  for (const CarSample& c : q.cars) {
    add(h, c.draw);
    h.add(c.weight);
  }
  h.add(uint64_t(q.trials_per_car));
  h.add(q.seed);
  std::string key;
  for (int shift = 60; shift >= 0; shift -= 4) key += "0123456789abcdef"[(h.value >> shift) & 15];
  return key;
}

namespace {

struct Writer {
  std::vector<unsigned char> bytes;
  template <typename T>
  void put(const T* data, size_t count) {
    const unsigned char* p = reinterpret_cast<const unsigned char*>(data);
    bytes.insert(bytes.end(), p, p + count * sizeof(T));
  }
};

struct Reader {
  const std::vector<unsigned char>& bytes;
  size_t at = 0;
  template <typename T>
  bool get(T* data, size_t count) {
    if (count > (bytes.size() - at) / sizeof(T)) return false;
    std::memcpy(data, &bytes[at], count * sizeof(T));
    at += count * sizeof(T);
    return true;
  }
};

struct Head {
  uint32_t format = 0, presses = 0, cars = 0, trials = 0, phases = 0, spare = 0;
  double period_deg = 0;
  uint64_t hash = 0;
};

}  // namespace

std::vector<unsigned char> to_bytes(const RestTable& t) {
  Writer w;
  const Head head{kTableFormat,
                  uint32_t(t.presses_s.size()),
                  uint32_t(t.cars.size()),
                  uint32_t(t.trials_per_car),
                  uint32_t(t.phases),
                  0,
                  t.period_deg,
                  t.hash()};
  w.put(&head, 1);
  w.put(t.presses_s.data(), t.presses_s.size());
  w.put(t.cars.data(), t.cars.size());
  w.put(t.moved.data(), t.moved.size());
  return std::move(w.bytes);
}

std::optional<RestTable> rest_table_from_bytes(const std::vector<unsigned char>& bytes) {
  Reader r{bytes};
  Head head;
  if (!r.get(&head, 1) || head.format != kTableFormat) return std::nullopt;
  const auto fits = [](uint32_t n, uint32_t most) { return n >= 1 && n <= most; };
  if (!fits(head.presses, 1000) || !fits(head.cars, 1000) || !fits(head.trials, 100000) ||
      !fits(head.phases, kBins))
    return std::nullopt;
  const size_t cells = size_t(head.presses) * head.cars * head.trials * head.phases;
  if (cells > bytes.size()) return std::nullopt;
  RestTable t;
  t.presses_s.resize(head.presses);
  t.cars.resize(head.cars);
  t.trials_per_car = int(head.trials);
  t.phases = int(head.phases);
  t.period_deg = head.period_deg;
  t.moved.resize(cells);
  if (!r.get(t.presses_s.data(), t.presses_s.size()) || !r.get(t.cars.data(), t.cars.size()) ||
      !r.get(t.moved.data(), cells) || r.at != bytes.size() || t.hash() != head.hash)
    return std::nullopt;
  return t;
}

}  // namespace shutlane
