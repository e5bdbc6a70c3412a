// The bundled engines as a whole: clean, honest about their values, and covering what people need to see.
#include <algorithm>
#include <cmath>
#include <set>

#include "engines/catalog.hpp"
#include "sim/plan/wrench.hpp"
#include "tests/engines/sample.hpp"

namespace shutlane::test {
namespace {

Engine engine_of(const BundledFile& file) {
  auto read = read_engine(file.text);
  if (auto* engine = std::get_if<Engine>(&read)) return std::move(*engine);
  ADD_FAILURE() << describe(std::string(file.name), std::get<std::vector<FileMistake>>(read));
  return {};
}

bool is_any(const BundledFile& file) { return file.name.starts_with("any-"); }

TEST(Bundled, CleanAndWithoutDoubts) {
  for (const BundledFile& file : bundled_files()) {
    const Engine engine = engine_of(file);
    for (const FileMistake& doubt : at_lines(file.text, doubts_about(engine)))
      ADD_FAILURE() << file.name << ":" << doubt.line << ": " << doubt.mistake.wrong;
  }
}

TEST(Bundled, EachHasANameOfItsOwnAndSaysWhereItsValuesComeFrom) {
  std::set<std::string> names;
  for (const BundledFile& file : bundled_files()) {
    const Engine engine = engine_of(file);
    EXPECT_TRUE(names.insert(engine.spec.name).second) << engine.spec.name;
    if (!is_any(file)) {
      EXPECT_EQ(engine.spec.source, "invented demonstration values") << file.name;
    }
  }
}

// Every feature of the format is shown by some file, so that there is something to copy.
TEST(Bundled, TogetherTheyShowEveryFeature) {
  std::set<std::string> shown;
  for (const BundledFile& file : bundled_files()) {
    const Engine engine = engine_of(file);
    const auto& layout = engine.spec.layout;
    if (layout.rotation == Rotation::anticlockwise) shown.insert("anticlockwise");
    if (layout.banks.size() == 4) shown.insert("four banks");
    if (engine.spec.cranking.starter == StarterKind::none) shown.insert("no starter");
    if (engine.spec.cranking.starter_torque_nm) shown.insert("a starter's own figures");
    for (const Cylinder& cylinder : engine.cylinders) {
      int valves = 0;
      for (const size_t i : cylinder.intake) valves += engine.trains[i].per_cylinder;
      if (valves == 3) shown.insert("three intake valves");
      if (cylinder.intake.size() > 1) shown.insert("staggered intake lobes");
      if (cylinder.crank.offset_mm != 0) shown.insert("bore offset");
    }
    for (const ValveSpec& valve : engine.spec.valves) {
      if (valve.lift_law == LiftLaw::table) shown.insert("lift table");
      if (!valve.lift_law) shown.insert("unknown law");
      if (!valve.at_lift_mm) shown.insert("unknown lift");
      if (valve.lift_law != LiftLaw::table && valve.at_lift_mm == 1.0) shown.insert("1 mm events");
      if (valve.clearance_mm > 0) shown.insert("clearance");
      if (valve.phase_range_deg[1] - valve.phase_range_deg[0] > 30) shown.insert("unknown phaser");
      if (!valve.banks.empty()) shown.insert("valves per bank");
      if (valve.opens_deg < 0) shown.insert("opens after the dead centre");
    }
  }
  EXPECT_EQ(shown,
            (std::set<std::string>{
                "anticlockwise", "four banks", "three intake valves", "staggered intake lobes", "bore offset",
                "lift table", "unknown law", "unknown lift", "1 mm events", "clearance", "unknown phaser",
                "valves per bank", "opens after the dead centre", "no starter", "a starter's own figures"}));
}

struct Survey {
  int starts = 0, one_turn = 0, full_turn = 0;
  size_t most_positions = 0;
};

/// Plans for every port from every whole degree, as the command line would make them.
Survey survey(const Engine& engine) {
  const auto windows = shut_windows(engine);
  WrenchQuestion question;
  for (const Cylinder& cylinder : engine.cylinders) question.left.push_back(cylinder.number);
  Survey found;
  for (int from = 0; from < 720; ++from) {
    question.from_deg = from;
    const WrenchPlan plan = plan_wrench(windows, question);
    EXPECT_TRUE(plan.possible());
    ++found.starts;
    if (plan.turns() <= 1) ++found.one_turn;
    if (plan.turns() == 1 && std::fabs(plan.total_turn_deg - 360) < 1e-6) ++found.full_turn;
    found.most_positions = std::max(found.most_positions, plan.positions.size());
  }
  return found;
}

// "Intake events as wide as road engines have them": the maxima for petrol and diesel engines of a German
// school text (check values, section 3: IVO 40, IVC 60), and a phaser of 40 degrees around them.
TEST(Bundled, AnyEnginesOpenAtLeastAsWideAsRoadEngines) {
  int count = 0;
  for (const BundledFile& file : bundled_files()) {
    if (!is_any(file)) continue;
    ++count;
    for (const ValveTrain& train : engine_of(file).trains) {
      if (train.kind != ValveKind::intake) continue;
      EXPECT_LE(train.opens_earliest_deg(), 360 - 40 - 20) << file.name;
      EXPECT_GE(train.closes_latest_deg(), 540 + 60 + 20) << file.name;
      EXPECT_GE(train.phase_last_deg - train.phase_first_deg, 40) << file.name;
    }
  }
  EXPECT_GE(count, 10);
}

// Check values, section 9: one turn is enough from every start iff
// open + phase range + 2 (timing + margin) <= 360 - accuracy.
TEST(Bundled, AnyEnginesNeedOneTurnAndMostlyAFullOne) {
  for (const BundledFile& file : bundled_files()) {
    if (!is_any(file)) continue;
    const Engine engine = engine_of(file);
    for (const ValveTrain& train : engine.trains) {
      if (train.kind != ValveKind::intake) continue;
      const double open_deg = train.profile.seat_span_deg();
      const double phase_deg = train.phase_last_deg - train.phase_first_deg;
      EXPECT_LE(open_deg + phase_deg + 2 * (train.timing_deg + train.seat_deg + 10), 360 - 10 + 1e-9)
          << file.name;
    }
    const Survey found = survey(engine);
    EXPECT_EQ(found.one_turn, found.starts) << file.name;
    EXPECT_GT(2 * found.full_turn, found.starts) << file.name;
  }
}

TEST(Bundled, LongDurationCamsNeedThreePositionsFromSomeStarts) {
  for (const BundledFile& file : bundled_files())
    if (file.name == "v8-flat-plane") {
      EXPECT_EQ(survey(engine_of(file)).most_positions, 3u);
    }
}

}  // namespace
}  // namespace shutlane::test
