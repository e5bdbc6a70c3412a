#include "sim/cranking/fast.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

#include "sim/cycle/angle.hpp"
#include "sim/mechanism/ranges.hpp"

namespace shutlane {
namespace {

constexpr int kLanes = 16;
// An engine has at most 99 cylinders (their numbers end there). Where slots shift, those that a sealed
// stretch below 720 degrees touches number at most one more than the cylinders.
constexpr int kMaxSlots = int(ranges::cylinder_number.high) + 1;
constexpr int kMostSteps = 200000;     // a crank without friction never rests
constexpr float kLongPress_s = 1.0f;   // from here on steady cranking is not followed turn by turn
constexpr float kSteady = 1e-5f;       // of speed and gas between two periods: they repeat
constexpr int kMostTurns = 1000;       // under power; from then on each turning point takes time
constexpr float kEdge = 1e-3f;         // a turning point keeps this far off a node, so that no step is empty
constexpr float kStandStep_s = 2e-3f;  // of a crank held under power

/// Gas of each slot. Cranks are copied by the thousand, so only the slots in use are.
struct Amounts {
  int used = 0;
  float at[kMaxSlots];
  Amounts() = default;
  Amounts(const Amounts& other) : used(other.used) { std::copy_n(other.at, used, at); }
  Amounts& operator=(const Amounts& other) {
    used = other.used;
    if (this != &other) std::copy_n(other.at, used, at);
    return *this;
  }
  float& operator[](size_t slot) { return at[slot]; }
  float operator[](size_t slot) const { return at[slot]; }
};

/// One crank between two nodes.
struct Crank {
  int node = 0, moved = 0;  // node within the period; nodes moved since the start, signed
  float phase = 0;          // 0..1 within the step
  float direction = 1, speed = 0;
  const FastTables* tables = nullptr;
  // the car
  float inertia = 1, friction = 0, friction_per_speed = 0, breakaway = 0, leak = 0;
  // the starter; 0 when it does not drive
  float stall = 0, per_speed = 0, overrun_speed = 0;
  float time_s = 0;
  int trial = 0, press = 0;
  Amounts k;
};

float leaked(float k, const FastTables::Cell& c, float leak_dt) {
  // dk/dt = -leak gap (k - calm)(k + calm); the decay exp(-z) by 1/(1 + z + z^2/2), which never overshoots.
  const float z = leak_dt * c.gap * (k + c.calm);
  return c.calm + (k - c.calm) / (1.0f + z + 0.5f * z * z);
}

const FastTables::Cell* row(const Crank& c) { return &c.tables->cells[size_t(c.node * c.tables->slots)]; }

float step_rad(const Crank& c) { return float(c.tables->step_deg * kRadPerDeg); }

/// Gas torque at the crank's place: mean of the step, tilted towards the neighbour.
float gas_nm(const Crank& c) {
  const FastTables& t = *c.tables;
  const auto mean = [&](int node) {
    float sum = t.air[size_t(node)];
    for (int j = 0; j < t.slots; ++j) sum += c.k[size_t(j)] * t.cells[size_t(node * t.slots + j)].work;
    return sum;
  };
  const float here = mean(c.node);
  const int beside = c.phase > 0.5f ? c.node + 1 : c.node - 1;
  if (beside < 0 || beside >= t.nodes) return here / step_rad(c);
  for (int j = 0; j < t.slots; ++j)  // across a seat event the torque jumps: no slope there
    if ((t.cells[size_t(c.node * t.slots + j)].gap > 0) != (t.cells[size_t(beside * t.slots + j)].gap > 0))
      return here / step_rad(c);
  const float off = std::abs(c.phase - 0.5f);
  return (here + off * (mean(beside) - here)) / step_rad(c);
}

void cross_node(Crank& c) {
  const FastTables& t = *c.tables;
  const size_t last = size_t(t.slots) - 1;
  if (c.node >= t.nodes) {
    c.node = 0;
    if (!t.shifts) return;
    for (size_t j = last; j > 0; --j) c.k[j] = c.k[j - 1];
    c.k[0] = t.before[0];
  } else if (c.node < 0) {
    c.node = t.nodes - 1;
    if (!t.shifts) return;
    for (size_t j = 0; j < last; ++j) c.k[j] = c.k[j + 1];
    c.k[last] = t.after[last];
  }
}

/// The crank stands: does the leak set it in motion again? True: it rests for good.
bool rests_for_good(Crank& c) {
  const FastTables& t = *c.tables;
  const FastTables::Cell* cells = row(c);
  const float per_rad = 1.0f / step_rad(c);
  float apart = 0;
  for (int j = 0; j < t.slots; ++j)
    apart += std::abs((c.k[size_t(j)] - cells[j].calm) * cells[j].work) * per_rad;
  if (apart <= c.breakaway || c.leak <= 0) return true;
  // u = (k - calm)/(k + calm) decays as exp(-2 leak gap calm t): in steps of growing length.
  float fastest = 0;
  for (int j = 0; j < t.slots; ++j) fastest = std::max(fastest, 2 * c.leak * cells[j].gap * cells[j].calm);
  if (fastest <= 0) return true;
  float dt = 0.05f / fastest;
  for (int step = 0; step < 200; ++step, dt *= 1.15f) {
    float sum = 0;
    apart = 0;
    for (int j = 0; j < t.slots; ++j) {
      if (cells[j].gap <= 0) continue;
      float& k = c.k[size_t(j)];
      const float calm = cells[j].calm;
      const float u = (k - calm) / (k + calm) * std::exp(-2 * c.leak * cells[j].gap * calm * dt);
      k = calm * (1 + u) / (1 - u);
      const float part = (k - calm) * cells[j].work * per_rad;
      sum += part;
      apart += std::abs(part);
    }
    if (apart <= c.breakaway) return true;
    if (std::abs(sum) > c.breakaway) {
      c.direction = sum > 0 ? 1.0f : -1.0f;
      return false;
    }
  }
  return true;
}

/// The speed has come to zero inside a step. True: the crank rests (for good, unless the starter drives).
bool turns(Crank& c) {
  c.speed = 0;
  c.phase = std::clamp(c.phase, kEdge, 1 - kEdge);
  const float torque = gas_nm(c) + c.stall;
  if (std::abs(torque) > c.breakaway) {
    c.direction = torque > 0 ? 1.0f : -1.0f;
    return false;
  }
  return c.stall > 0 || rests_for_good(c);
}

/// Lanes of cranks in step. Structure of arrays; a lane that is done is refilled by the caller.
struct Lanes {
  int slots = 0;
  alignas(64) float phase[kLanes], direction[kLanes], speed[kLanes], time_s[kLanes], taken_s[kLanes],
      part[kLanes];
  alignas(64) float step[kLanes], inertia[kLanes], friction[kLanes], per_speed[kLanes], leak[kLanes];
  alignas(64) float stall[kLanes], starter_per_speed[kLanes], overrun[kLanes], turned[kLanes];
  alignas(64) float k[kMaxSlots][kLanes];
  alignas(64) float half_lost[kMaxSlots][kLanes];  // half of what the leak took in the step before
  int node[kLanes];
  Crank crank[kLanes];  // the rest of it; its moving parts are stale while in the lanes
  bool live[kLanes];

  void load(int l, const Crank& c) {
    crank[l] = c;
    live[l] = true;
    phase[l] = c.phase;
    direction[l] = c.direction;
    speed[l] = c.speed;
    time_s[l] = c.time_s;
    step[l] = step_rad(c);
    inertia[l] = c.inertia;
    friction[l] = c.friction;
    per_speed[l] = c.friction_per_speed;
    leak[l] = c.leak;
    stall[l] = c.stall;
    starter_per_speed[l] = c.per_speed;
    overrun[l] = c.overrun_speed;
    node[l] = c.node;
    for (int j = 0; j < slots; ++j) {
      k[j][l] = c.k[size_t(j)];
      half_lost[j][l] = 0;
    }
  }
  Crank& store(int l) {
    Crank& c = crank[l];
    c.phase = phase[l];
    c.direction = direction[l];
    c.speed = speed[l];
    c.time_s = time_s[l];
    c.node = node[l];
    for (int j = 0; j < slots; ++j) c.k[size_t(j)] = k[j][l];
    return c;
  }
  void advance();
};

/// One step of every lane, to the next node or to the turning point before it (turned > 0).
void Lanes::advance() {
  alignas(64) float gas[kLanes], brake[kLanes];
  alignas(64) float work[kMaxSlots][kLanes], gap[kMaxSlots][kLanes], calm[kMaxSlots][kLanes],
      opened[kMaxSlots][kLanes];
  for (int l = 0; l < kLanes; ++l) {
    const FastTables& t = *crank[l].tables;
    const FastTables::Cell* cells = &t.cells[size_t(node[l] * slots)];
    gas[l] = t.air[size_t(node[l])];
    brake[l] = t.brake[size_t(node[l])];
    for (int j = 0; j < slots; ++j) {
      work[j][l] = cells[j].work;
      gap[j][l] = cells[j].gap;
      calm[j][l] = cells[j].calm;
      opened[j][l] = cells[j].opened;
    }
  }
  for (int j = 0; j < slots; ++j)
    for (int l = 0; l < kLanes; ++l) gas[l] += (k[j][l] - half_lost[j][l]) * work[j][l];
  for (int l = 0; l < kLanes; ++l) {
    const float ahead = direction[l] > 0 ? 1.0f - phase[l] : phase[l];
    const float turn = ahead * step[l];
    const bool drives = stall[l] > 0 && direction[l] * speed[l] < overrun[l];
    const float drive = drives ? stall[l] : 0.0f;
    const float slope = per_speed[l] + brake[l] + (drives ? starter_per_speed[l] : 0.0f);
    const float half = 0.5f * slope * turn;
    const float before = 0.5f * inertia[l] * speed[l] * speed[l];
    const float given = direction[l] * (gas[l] * ahead + drive * turn) - friction[l] * turn;
    // J w1^2/2 + half w1 = before + given - half w0
    const float right = before + given - half * speed[l];
    const float root = std::sqrt(std::max(half * half + 2.0f * inertia[l] * right, 0.0f));
    const float after = std::max((root - half) / inertia[l], 0.0f);
    const bool stops = right <= 0.0f;
    const float part_ = stops ? before / std::max(before - right, 1e-20f) : 1.0f;
    const float w1 = stops ? 0.0f : after;
    const float sum = std::max(speed[l] + w1, 1e-6f);
    const float dt = (part_ * ahead > 0.0f && speed[l] + w1 > 0.0f) ? 2.0f * turn * part_ / sum : 0.0f;
    part[l] = ahead * part_;
    turned[l] = stops ? 1.0f : 0.0f;
    speed[l] = w1;
    taken_s[l] = dt;
    time_s[l] += dt;
  }
  for (int j = 0; j < slots; ++j)
    for (int l = 0; l < kLanes; ++l) {
      const float z = leak[l] * taken_s[l] * gap[j][l] * (k[j][l] + calm[j][l]);
      const float kept = calm[j][l] + (k[j][l] - calm[j][l]) / (1.0f + z + 0.5f * z * z);
      half_lost[j][l] = gap[j][l] > 0.0f ? 0.5f * (k[j][l] - kept) : 0.0f;
      k[j][l] = gap[j][l] > 0.0f ? kept : opened[j][l];
    }
}

/// After advance(): moves lane l to where its step ended. True: the crank rests.
bool finish_step(Lanes& a, int l) {
  if (a.turned[l] > 0) {
    a.phase[l] += a.direction[l] * a.part[l];
    Crank& c = a.store(l);
    const bool rests = turns(c);
    const Crank copy = c;
    a.load(l, copy);
    return rests;
  }
  const bool forward = a.direction[l] > 0;
  a.node[l] += forward ? 1 : -1;
  a.crank[l].moved += forward ? 1 : -1;
  a.phase[l] = forward ? 0.0f : 1.0f;
  if (a.node[l] < 0 || a.node[l] >= a.crank[l].tables->nodes) {
    Crank& c = a.store(l);
    cross_node(c);
    a.node[l] = c.node;
    for (int j = 0; j < a.slots; ++j) {
      a.k[j][l] = c.k[size_t(j)];
      a.half_lost[j][l] = 0;  // the slots have moved on; one step goes without it
    }
  }
  return false;
}

/// A lane as it last went forward past the end of a period.
struct Passing {
  bool known = false;
  float speed = 0, time_s = 0;
  float k[kMaxSlots];
};

bool repeats(const Lanes& a, int l, const Passing& last) {
  const auto same = [](float x, float y) { return std::abs(x - y) <= kSteady * std::max(1.0f, std::abs(y)); };
  if (!last.known || !same(a.speed[l], last.speed) || !(a.time_s[l] > last.time_s)) return false;
  for (int j = 0; j < a.slots; ++j)
    if (!same(a.k[j][l], last.k[j])) return false;
  return true;
}

/// Steady cranking under power repeats from period to period: all whole ones that end well before `until_s`
/// are passed over at once, so that a press of seconds costs no more than it takes to become steady.
void pass_over_repeats(Lanes& a, int l, Passing& last, float until_s) {
  if (repeats(a, l, last)) {
    const float period_s = a.time_s[l] - last.time_s;
    const int periods = int((until_s - a.time_s[l]) / period_s) - 1;
    if (periods > 0) {
      a.time_s[l] += float(periods) * period_s;
      a.crank[l].moved += periods * a.crank[l].tables->nodes;
    }
  }
  last.known = true;
  last.speed = a.speed[l];
  last.time_s = a.time_s[l];
  for (int j = 0; j < a.slots; ++j) last.k[j] = a.k[j][l];
}

}  // namespace

FastKernel::FastKernel(const CrankingModel& model, double step_deg) : model_(model) {
  const double off = std::sqrt(3.0) * model.spreads.polytropic_spread;
  for (int side : {-1, 0, 1}) {
    CrankingModel m = model;
    m.polytropic = std::max(1.0, m.polytropic + side * off);
    tables_.push_back(fast_tables(side == 0 || off > 0 ? m : model, step_deg));
  }
}

void FastKernel::run(const std::vector<FastTrial>& trials, std::vector<float>& advance_deg) const {
  size_t total = 0;
  std::vector<size_t> first;
  for (const FastTrial& t : trials) {
    first.push_back(total);
    total += size_t(t.presses);
  }
  advance_deg.assign(total, 0.0f);
  const double off = std::sqrt(3.0) * model_.spreads.polytropic_spread;

  const auto at_start = [&](size_t index) {
    const FastTrial& trial = trials[index];
    const CrankingModel m = model_.with(trial.draw);
    Crank c;
    const int side = off > 0 ? std::clamp(int(std::lround(trial.draw.polytropic / off)), -1, 1) : 0;
    c.tables = &tables_[size_t(side + 1)];
    const FastTables& t = *c.tables;
    const double turned = std::fmod(wrap_deg(trial.start_deg - t.origin_deg), t.period_deg()) / t.step_deg;
    c.node = std::min(int(turned), t.nodes - 1);
    c.phase = float(turned - c.node);
    c.inertia = float(m.inertia_kgm2);
    c.friction = float(m.friction_nm);
    c.friction_per_speed = float(m.friction_nms);
    c.breakaway = float(m.breakaway_nm);
    c.leak = float(m.conductance_m3_s());
    c.stall = float(m.starter_torque_nm * m.battery_strength);
    c.per_speed = float(m.starter_torque_nm / m.starter_speed_rad_s);
    c.overrun_speed = float(m.battery_strength * m.starter_speed_rad_s);
    c.trial = int(index);
    c.k.used = t.slots;
    for (int j = 0; j < t.slots; ++j) {
      const float lo = t.calm_edge[size_t(c.node * t.slots + j)],
                  hi = t.calm_edge[size_t((c.node + 1) * t.slots + j)];
      const FastTables::Cell& cell = t.cells[size_t(c.node * t.slots + j)];
      c.k[size_t(j)] = cell.gap > 0 ? lo + (hi - lo) * c.phase : cell.opened;
    }
    while (c.press < trial.presses && trial.drives_s[c.press] <= 0) ++c.press;
    return c;
  };
  const auto start_phase = [&](const Crank& c) {
    const FastTables& t = *c.tables;
    const double turned =
        std::fmod(wrap_deg(trials[size_t(c.trial)].start_deg - t.origin_deg), t.period_deg()) / t.step_deg;
    return turned - std::min(int(turned), t.nodes - 1);
  };

  Lanes lanes;
  lanes.slots = tables_[0].slots;
  constexpr size_t kChunk = 64;  // trials whose released cranks are held at once
  std::vector<Crank> released;
  for (size_t chunk = 0; chunk < trials.size(); chunk += kChunk) {
    const size_t end = std::min(trials.size(), chunk + kChunk);
    released.clear();
    const auto release = [&](Crank c) {
      c.stall = c.per_speed = 0;
      released.push_back(c);
    };

    // Powered: from each start, giving off a crank at each press's end.
    Passing passed[kLanes];
    int turns_made[kLanes] = {};
    size_t next = chunk;
    const auto refill_powered = [&](int l) {
      while (next < end) {
        Crank c = at_start(next++);
        if (c.press >= trials[size_t(c.trial)].presses) continue;
        if (c.stall <= c.breakaway) continue;  // cannot turn it: no press moves it
        lanes.load(l, c);
        passed[l].known = false;
        turns_made[l] = 0;
        return;
      }
      lanes.live[l] = false;
    };
    const Crank idle = at_start(chunk);
    int live = 0;
    for (int l = 0; l < kLanes; ++l) {
      lanes.load(l, idle);
      refill_powered(l);
      live += lanes.live[l];
    }
    while (live > 0) {
      alignas(64) float was_phase[kLanes], was_speed[kLanes], was_time[kLanes];
      std::copy(lanes.phase, lanes.phase + kLanes, was_phase);
      std::copy(lanes.speed, lanes.speed + kLanes, was_speed);
      std::copy(lanes.time_s, lanes.time_s + kLanes, was_time);
      lanes.advance();
      for (int l = 0; l < kLanes; ++l) {
        if (!lanes.live[l]) continue;
        const FastTrial& trial = trials[size_t(lanes.crank[l].trial)];
        int& press = lanes.crank[l].press;
        while (press < trial.presses && trial.drives_s[press] < lanes.time_s[l]) {
          // Steady acceleration over the step gives the place and the speed at the instant of release.
          const float into = std::max(0.0f, trial.drives_s[press] - was_time[l]);
          const float share = lanes.taken_s[l] > 0 ? into / lanes.taken_s[l] : 0.0f;
          const float speed = was_speed[l] + (lanes.speed[l] - was_speed[l]) * share;
          const float turn = 0.5f * (was_speed[l] + speed) * into / lanes.step[l];
          Crank c = lanes.store(l);
          c.phase = std::clamp(was_phase[l] + lanes.direction[l] * turn, 0.0f, 1.0f);
          c.speed = speed;
          release(c);
          ++press;
        }
        bool done = press >= trial.presses;
        const bool turned = lanes.turned[l] > 0;
        // A crank that turns back and forth on the spot without time going on is held too.
        const bool on_the_spot = turned && (!(lanes.time_s[l] > was_time[l]) || ++turns_made[l] > kMostTurns);
        if (!done && (finish_step(lanes, l) || on_the_spot)) {
          // Held under power by a compression: waits for the leak or for the release.
          Crank c = lanes.store(l);
          const FastTables::Cell* cells = row(c);
          bool moves = false;
          while (!done && !moves) {
            c.time_s += kStandStep_s;
            while (c.press < trial.presses && trial.drives_s[c.press] < c.time_s) {
              release(c);
              ++c.press;
            }
            done = c.press >= trial.presses;
            for (int j = 0; j < lanes.slots; ++j)
              if (cells[j].gap > 0) c.k[size_t(j)] = leaked(c.k[size_t(j)], cells[j], c.leak * kStandStep_s);
            const float torque = gas_nm(c) + c.stall;
            moves = std::abs(torque) > c.breakaway;
            if (moves) c.direction = torque > 0 ? 1.0f : -1.0f;
          }
          lanes.load(l, c);
        } else if (!done && !turned && lanes.node[l] == 0 && lanes.direction[l] > 0 &&
                   trial.drives_s[press] > kLongPress_s) {
          pass_over_repeats(lanes, l, passed[l], trial.drives_s[press]);
        }
        if (done) {
          refill_powered(l);
          live -= !lanes.live[l];
        }
      }
    }

    // Coasting, each crank to its rest.
    size_t coming = 0;
    int steps[kLanes] = {}, on_the_spot[kLanes] = {};
    const auto settle = [&](const Crank& c) {
      advance_deg[first[size_t(c.trial)] + size_t(c.press)] =
          float((double(c.moved) + double(c.phase) - start_phase(c)) * c.tables->step_deg);
    };
    const auto refill_coasting = [&](int l) {
      steps[l] = on_the_spot[l] = 0;
      while (coming < released.size()) {
        Crank c = released[coming++];
        if (c.speed <= 0 && turns(c)) {
          settle(c);
          continue;
        }
        lanes.load(l, c);
        return;
      }
      lanes.live[l] = false;
    };
    live = 0;
    for (int l = 0; l < kLanes; ++l) {
      lanes.load(l, idle);
      refill_coasting(l);
      live += lanes.live[l];
    }
    while (live > 0) {
      lanes.advance();
      for (int l = 0; l < kLanes; ++l) {
        if (!lanes.live[l]) continue;
        // Steps that take no time change nothing from the second on, each way: the crank stands on an edge.
        on_the_spot[l] = lanes.turned[l] > 0 && lanes.taken_s[l] <= 0 ? on_the_spot[l] + 1 : 0;
        if (finish_step(lanes, l) || ++steps[l] > kMostSteps || on_the_spot[l] > 8) {
          settle(lanes.store(l));
          refill_coasting(l);
          live -= !lanes.live[l];
        }
      }
    }
  }
}

}  // namespace shutlane
