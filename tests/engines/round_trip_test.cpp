// Spec -> file -> spec, over random specs: what is written reads back equal, bit for bit.
// The oracle is equality of values; it cannot see a key that both sides forget, which the last test looks
// for.
#include <bit>
#include <cstdint>
#include <cstdlib>
#include <random>
#include <set>

#include "engines/catalog.hpp"
#include "engines/keys.hpp"
#include "tests/engines/sample.hpp"

namespace shutlane::test {
namespace {

std::uint64_t from_environment(const char* name, std::uint64_t otherwise) {
  const char* text = std::getenv(name);
  return text ? std::strtoull(text, nullptr, 10) : otherwise;
}

class RandomSpec {
 public:
  explicit RandomSpec(std::uint64_t seed) : random_(seed) {}

  EngineSpec make() {
    EngineSpec spec;
    spec.name = text(1 + below(200));
    spec.source = text(1 + below(1000));
    if (chance()) spec.needs = chance() ? "0.0.7" : "0.1";
    const double offset_mm = chance() ? number(-20, 20) : 0;
    spec.cylinder = {number(5, 1000), number(5, 1000), number(1000, 6000), offset_mm, number(2, 40)};
    layout(spec.layout);
    for (const ValveKind kind : {ValveKind::intake, ValveKind::exhaust}) {
      spec.valves.push_back(valve(kind, {}));
      if (chance()) spec.valves.push_back(valve(kind, {spec.layout.banks[0].name}));
    }
    spec.tolerance.timing_deg = number(0, 30);
    if (chance()) spec.tolerance.seat_deg = number(0, 90);
    if (chance()) spec.cranking.starter = StarterKind::none;
    for (const CrankingKey& key : kCrankingKeys) {
      if (chance()) continue;
      if (key.value)
        spec.cranking.*key.value = number(key.least, key.most);
      else
        spec.cranking.*key.scaled_value = number(key.least, key.most);
    }
    return spec;
  }

 private:
  size_t below(size_t n) { return random_() % n; }
  bool chance() { return random_() % 2 == 0; }

  /// A whole number, a short decimal, a neighbour of one, or 53 random bits.
  double number(double low, double high) {
    const double x = low + (high - low) * static_cast<double>(random_() >> 11) * 0x1p-53;
    switch (below(4)) {
      case 0:
        return std::min(high, std::max(low, std::floor(x)));
      case 1:
        return std::min(high, std::max(low, std::floor(x * 10) / 10));
      case 2:
        return std::min(high, std::max(low, std::nextafter(std::floor(x * 10) / 10, high)));
      default:
        return x;
    }
  }

  std::string text(size_t characters) {
    static const std::vector<std::string> alphabet{"a", "Z", "7", " ", "\"", "\\", "'",  "#", "=",     "[",
                                                   "]", "{", ".", "ü", "é",  "°",  "漢", "🔧", "\u200b"};
    std::string text;
    for (size_t i = 0; i < characters; ++i) text += alphabet[below(alphabet.size())];
    return text;
  }

  void layout(LayoutSpec& layout) {
    const int n = 1 + static_cast<int>(below(16));
    for (int k = 1; k <= n; ++k) layout.firing_order.push_back(k);
    std::shuffle(layout.firing_order.begin() + 1, layout.firing_order.end(), random_);
    if (chance()) layout.firing_intervals_deg.assign(static_cast<size_t>(n), 720.0 / n);
    layout.rotation = chance() ? Rotation::clockwise : Rotation::anticlockwise;
    const size_t banks = 1 + below(static_cast<size_t>(std::min(n, 4)));
    for (size_t b = 0; b < banks; ++b) {
      std::string name = text(below(58));
      name.append(1, static_cast<char>('a' + b));
      layout.banks.push_back({name, number(-360, 360), {}, std::nullopt});
      if (chance()) layout.banks.back().bore_offset_mm = number(-20, 20);
    }
    for (int k = 1; k <= n; ++k) layout.banks[static_cast<size_t>(k - 1) % banks].cylinders.push_back(k);
  }

  ValveSpec valve(ValveKind kind, std::vector<std::string> banks) {
    ValveSpec v;
    v.kind = kind;
    v.per_cylinder = 1 + static_cast<int>(below(8));
    v.banks = std::move(banks);
    if (chance()) v.phase_range_deg = {number(-60, 0), number(0, 60)};
    if (below(4) == 0) {
      v.lift_law = LiftLaw::table;
      v.peak_at_deg = number(-360, 360);
      v.lift_table = {{-150.0 + number(0, 20), 0},
                      {-number(20, 60), number(1, 5)},
                      {0, number(5, 12)},
                      {number(20, 60), number(1, 5)},
                      {number(100, 150), 0}};
    } else {
      v.opens_deg = number(0, 60);
      v.closes_deg = number(0, 80);
      v.peak_lift_mm = number(5, 15);
      v.clearance_mm = chance() ? number(0, 0.5) : 0;
      v.at_lift_mm = chance() ? std::optional(number(0, 1)) : std::nullopt;
      static constexpr LiftLaw laws[] = {LiftLaw::polynomial_345, LiftLaw::polynomial_4567,
                                         LiftLaw::cycloidal, LiftLaw::harmonic};
      if (chance()) v.lift_law = laws[below(4)];
    }
    return v;
  }

  std::mt19937_64 random_;
};

TEST(RoundTrip, WhatIsWrittenReadsBackEqual) {
  const std::uint64_t seed = from_environment("SHUTLANE_SEED", 2024);
  const std::uint64_t trials = from_environment("SHUTLANE_TRIALS", 2000);
  for (std::uint64_t i = 0; i < trials; ++i) {
    SCOPED_TRACE(testing::Message() << "SHUTLANE_SEED=" << seed + i << " SHUTLANE_TRIALS=1");
    const EngineSpec spec = RandomSpec(seed + i).make();
    const std::string written = write_engine(spec);
    const auto read = read_engine(written);
    ASSERT_TRUE(std::holds_alternative<Engine>(read))
        << describe("f", std::get<std::vector<FileMistake>>(read)) << written;
    ASSERT_EQ(std::get<Engine>(read).spec, spec) << written;
    ASSERT_EQ(write_engine(std::get<Engine>(read).spec), written);
  }
}

TEST(RoundTrip, BundledEnginesReadBackEqual) {
  for (const BundledFile& file : bundled_files()) {
    const auto first = read_engine(file.text);
    ASSERT_TRUE(std::holds_alternative<Engine>(first)) << file.name;
    const auto second = read_engine(write_engine(std::get<Engine>(first).spec));
    ASSERT_TRUE(std::holds_alternative<Engine>(second)) << file.name;
    EXPECT_EQ(std::get<Engine>(second).spec, std::get<Engine>(first).spec) << file.name;
  }
}

TEST(RoundTrip, NumbersAreShortest) {
  EngineSpec spec = std::get<Engine>(read_engine(kSample)).spec;
  spec.cylinder.bore_mm = 0.1 + 0.2;
  spec.cylinder.stroke_mm = 5e-324;
  const std::string written = write_engine(spec);
  EXPECT_NE(written.find("bore_mm = 0.30000000000000004\n"), std::string::npos);
  EXPECT_NE(written.find("stroke_mm = 5e-324\n"), std::string::npos);
  EXPECT_NE(written.find("rod_mm = 140.0\n"), std::string::npos);
}

TEST(RoundTrip, SomeFileUsesEveryKey) {
  std::string all;
  for (std::uint64_t seed = 0; seed < 200; ++seed) all += write_engine(RandomSpec(seed).make());
  all += write_engine(std::get<Engine>(read_engine(kSample)).spec);
  for (const KeyInfo& info : known_keys()) {
    const std::string key = info.key == kCylinderKey ? "1" : std::string(info.key);
    std::string path{info.table};
    if (!path.empty()) path += '.';
    path += key;
    const bool there = all.find("\n" + key + " = ") != std::string::npos || all.starts_with(key + " = ") ||
                       all.find("[" + path + "]") != std::string::npos;
    EXPECT_TRUE(there) << path;
  }
}

}  // namespace
}  // namespace shutlane::test
