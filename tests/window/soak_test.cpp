// Random input, minute after minute, for the sanitisers: nothing may crash, and what is shown stays in order.
// Length: SHUTLANE_SOAK_S seconds (2 without it); the seed is printed and taken from SHUTLANE_SEED.
#include <chrono>
#include <cstdlib>
#include <random>
#include <set>

#include "tests/window/harness.hpp"
#include "tests/window/tile_watch.hpp"
#include "ui/window/saved/state_file.hpp"

namespace shutlane {
namespace {

double number_from(const char* name, double otherwise) {
  const char* text = std::getenv(name);
  return text ? std::strtod(text, nullptr) : otherwise;
}

/// Of screens: not known, of a desk, of a laptop, of a phone.
constexpr double kDpi[] = {0, 72, 96, 141, 220, 400};

class Hands {
 public:
  Hands(Harness& h, unsigned long seed) : h_(h), random_(seed) {}

  void do_something() {
    switch (pick(14)) {
      case 0:
        h_.resize(200 + pick(2440), 200 + pick(1300), kDpi[pick(std::size(kDpi))]);
        break;
      case 1:
        push_key(static_cast<Key>(1 + pick(static_cast<int>(Key::z))));
        break;
      case 2:
        h_.viewer.input.push(Typed{pick(2) ? "7" : "\xc3\xa9"});
        break;
      case 3:
        h_.viewer.input.push(Wheel{0, uniform(-3, 3)});
        break;
      case 4:
        h_.viewer.input.push(PointerLeft{});
        break;
      case 5:
        h_.viewer.input.push(FileDropped{pick(2) ? "/nonexistent.toml" : "flat-four"});
        break;
      case 6:
        drag();
        break;
      case 7:
        push_key(pick(2) ? Key::tab : Key::enter);
        break;
      case 8:
        h_.session.queue(ShowBench{static_cast<Bench>(pick(3))});
        h_.session.apply();
        break;
      default:
        click_item();
        break;
    }
    h_.settle();
  }

 private:
  int pick(size_t n) { return pick(static_cast<int>(n)); }
  int pick(int n) { return static_cast<int>(random_() % static_cast<unsigned long>(n)); }
  double uniform(double a, double b) {
    return a + (b - a) * std::uniform_real_distribution<double>(0, 1)(random_);
  }
  Point anywhere() {
    return {uniform(-20, h_.viewer.ui().screen().w + 20), uniform(-20, h_.viewer.ui().screen().h + 20)};
  }
  void push_key(Key key) {
    const KeyPress press{key, pick(4) == 0, pick(4) == 0, false};
    h_.viewer.input.push(KeyChanged{press, true});
    h_.viewer.input.push(KeyChanged{press, false});
  }
  void drag() {
    const Point a = anywhere(), b = anywhere();
    const int button = pick(3);
    h_.viewer.input.push(PointerMoved{a.x, a.y});
    h_.viewer.input.push(ButtonChanged{button, true, a.x, a.y});
    h_.viewer.input.push(PointerMoved{(a.x + b.x) / 2, (a.y + b.y) / 2});
    h_.viewer.input.push(PointerMoved{b.x, b.y});
    h_.viewer.input.push(ButtonChanged{button, false, b.x, b.y});
  }
  void click_item() {
    const Items& items = h_.items();
    if (items.items.empty()) return;
    const Box b = items.items[static_cast<size_t>(pick(static_cast<int>(items.items.size())))].box;
    h_.click_at({b.x + b.w * uniform(0.1, 0.9), b.y + b.h * uniform(0.1, 0.9)});
  }

  Harness& h_;
  std::mt19937_64 random_;
};

/// Until `seconds` have passed; gives the steps made.
long soak(Harness& h, double seconds) {
  const auto seed = static_cast<unsigned long>(number_from("SHUTLANE_SEED", 11));
  SCOPED_TRACE("SHUTLANE_SEED=" + std::to_string(seed));
  Hands hands(h, seed);
  const auto end = std::chrono::steady_clock::now() + std::chrono::duration<double>(seconds);
  long steps = 0;
  TileWatch picture;
  for (; std::chrono::steady_clock::now() < end && !::testing::Test::HasFailure(); ++steps) {
    hands.do_something();
    std::set<std::string> ids;
    for (const Item& item : h.items().items) EXPECT_TRUE(ids.insert(item.id).second) << item.id << " twice";
    if (steps % 50 == 0) {  // the state can be saved and read back at any moment
      EXPECT_EQ(picture.first_difference(h.viewer, h.session), -1) << "step " << steps;
      EXPECT_TRUE(std::holds_alternative<Document>(from_json(to_json(h.now().document))));
    }
  }
  return steps;
}

TEST(Soak, RandomInput) {
  Harness h;
  const long steps = soak(h, number_from("SHUTLANE_SOAK_S", 2));
  RecordProperty("steps", static_cast<int>(steps));
  EXPECT_GT(steps, 20);
}

/// Begins anew every fifth of a second where the beeps run, so that it does not stray from them.
TEST(Soak, RandomInputByStarter) {
  const auto end =
      std::chrono::steady_clock::now() + std::chrono::duration<double>(number_from("SHUTLANE_SOAK_S", 2) / 2);
  int beeps = 0;
  do {
    Harness h;
    h.open("inline-four", {}, TurnBy::starter);
    h.log(MarkRead{35, 2});
    for (const Cylinder& c : h.now().document.engine->cylinders)
      if (c.number != 3) h.log(Reachable{c.number, false});
    for (const JobEvent& event :
         {JobEvent(LookedInto{3, Saw::open}), JobEvent(PortsEmptied{}), JobEvent(BungsCounted{})})
      h.log(event);
    h.wait_for_desk();
    if (h.has("Start the beeps")) h.click("Start the beeps");
    beeps += h.viewer.ui().bump->timer ? 1 : 0;
    soak(h, 0.2);
  } while (std::chrono::steady_clock::now() < end && !HasFailure());
  EXPECT_GT(beeps, 0);
}

}  // namespace
}  // namespace shutlane
