// The looking tree against an exhaustive search that keeps no table, cuts nothing and knows no arcs: every
// order of looks on a fine comb of angles. It shares the windows with the code under test, and cannot see
// what happens between two teeth of the comb (0.25 degrees).
#include "sim/witness/look_tree.hpp"

#include <algorithm>

#include "tests/witness/engines.hpp"

namespace shutlane {
namespace {

constexpr size_t kTeeth = 2880;
using Comb = std::vector<char>;

Comb comb(const ArcSet& set) {
  Comb teeth(kTeeth);
  for (size_t i = 0; i < kTeeth; ++i) {
    const double at_deg = (static_cast<double>(i) + 0.37) * 720.0 / kTeeth;  // off every round number
    for (const Arc& a : set.arcs()) {
      double into_deg = at_deg - a.from_deg;
      if (into_deg < 0) into_deg += 720;
      if (into_deg <= a.length_deg) teeth[i] = 1;
    }
  }
  return teeth;
}

struct Combs {
  Comb if_shut, if_open, nominal, sure;
};

struct Best {
  double stuck = 0, looks = 0;
  int worst = 0;
  bool finishes = false;
};

class Exhaustive {
 public:
  Exhaustive(const std::vector<PortSets>& ports, int spare, bool worst_first)
      : spare_(spare), worst_first_(worst_first), answer_(ports.size(), -1) {
    for (const PortSets& p : ports)
      ports_.push_back({comb(p.if_shut), comb(p.if_open), comb(p.nominal), comb(p.sure)});
  }
  Best run() { return best(Comb(kTeeth, 1)); }

 private:
  bool allowed(size_t tooth, size_t without, size_t also_without) const {
    for (size_t p = 0; p < ports_.size(); ++p)
      if (answer_[p] >= 0 && p != without && p != also_without &&
          !(answer_[p] == 1 ? ports_[p].if_shut : ports_[p].if_open)[tooth])
        return false;
    return true;
  }
  bool surely(size_t port, size_t also_without) const {
    for (size_t i = 0; i < kTeeth; ++i)
      if (!ports_[port].sure[i] && allowed(i, port, also_without)) return false;
    return true;
  }
  bool enough() const {
    for (size_t p = 0; p < ports_.size(); ++p) {
      if (answer_[p] != 1) continue;
      bool good = surely(p, p);
      for (size_t j = 0; good && spare_ > 0 && j < ports_.size(); ++j)
        if (answer_[j] >= 0 && j != p) good = surely(p, j);
      if (good) return true;
    }
    return false;
  }

  Best best(const Comb& likely) {
    const double here = static_cast<double>(std::count(likely.begin(), likely.end(), 1));
    if (enough()) return {0, 0, 0, true};
    Best found{here, 0, 0, false};
    for (size_t p = 0; p < ports_.size(); ++p) {
      if (answer_[p] >= 0) continue;
      Best tried{0, here, 0, false};
      for (const int shut : {1, 0}) {
        answer_[p] = shut;
        bool possible = false;
        for (size_t i = 0; i < kTeeth && !possible; ++i) possible = allowed(i, ports_.size(), ports_.size());
        if (possible) {
          Comb then = likely;
          for (size_t i = 0; i < kTeeth; ++i) then[i] = then[i] && ports_[p].nominal[i] == shut;
          const Best child = best(then);
          tried.stuck += child.stuck;
          tried.looks += child.looks;
          tried.finishes = tried.finishes || child.finishes;
          if (child.finishes) tried.worst = std::max(tried.worst, child.worst + 1);
        }
        answer_[p] = -1;
      }
      if (!tried.finishes || (here > 0 && tried.stuck >= here)) continue;
      const auto rank = [&](const Best& b) {
        return worst_first_ ? std::make_tuple(b.stuck, !b.finishes, double(b.worst), b.looks)
                            : std::make_tuple(b.stuck, !b.finishes, b.looks, double(b.worst));
      };
      if (rank(tried) < rank(found)) found = tried;
    }
    return found;
  }

  int spare_;
  bool worst_first_;
  std::vector<Combs> ports_;
  std::vector<int> answer_;  ///< -1 not looked, 1 shut, 0 open
};

std::vector<test::Named> up_to(size_t cylinders) {
  std::vector<test::Named> found = test::engines();
  std::erase_if(found, [&](const test::Named& n) { return n.shape.order.size() > cylinders; });
  return found;
}

std::string plain(const testing::TestParamInfo<test::Named>& of) {
  std::string name = of.param.name;
  std::erase_if(name, [](char c) { return !std::isalnum(static_cast<unsigned char>(c)); });
  return name;
}

class SmallLookTreeOf : public testing::TestWithParam<test::Named> {};
class LookTreeOf : public testing::TestWithParam<test::Named> {};

TEST_P(SmallLookTreeOf, IsTheBestOfAllTrees) {
  const Engine engine = test::engine_of(GetParam().shape);
  const auto ports = port_sets(engine);
  LookQuestion question;
  for (const Cylinder& c : engine.cylinders) question.left.push_back(c.number);
  for (const int spare : {0, 1})
    for (const bool worst_first : {false, true}) {
      if (engine.cylinders.size() > 5 && (spare == 1) == worst_first) continue;  // seconds each
      question.rule.spare_looks = spare;
      question.worst_first = worst_first;
      const LookTree tree = look_tree(ports, {}, question);
      const Best best = Exhaustive(ports, spare, worst_first).run();
      SCOPED_TRACE(testing::Message() << "spare " << spare << ", worst first " << worst_first);
      ASSERT_TRUE(tree.exact);
      // One tooth at each end of each arc may fall on the other side.
      const double tooth = 4.0 * static_cast<double>(engine.cylinders.size()) / kTeeth;
      EXPECT_NEAR(tree.stuck, best.stuck / kTeeth, tooth);
      EXPECT_NEAR(tree.mean_looks, best.looks / kTeeth, tooth * static_cast<double>(engine.cylinders.size()));
      EXPECT_EQ(tree.worst_looks, best.worst);
    }
}

TEST_P(LookTreeOf, GreedyIsNeverBetterThanExact) {
  const Engine engine = test::engine_of(GetParam().shape);
  const auto ports = port_sets(engine);
  LookQuestion question;
  for (const Cylinder& c : engine.cylinders) question.left.push_back(c.number);
  const LookTree exact = look_tree(ports, {}, question);
  question.most_states = 1;
  const LookTree greedy = look_tree(ports, {}, question);
  ASSERT_TRUE(exact.exact);
  if (!greedy.exact) {
    EXPECT_GE(greedy.stuck, exact.stuck - 1e-9);
    if (greedy.stuck < exact.stuck + 1e-9) {
      EXPECT_GE(greedy.mean_looks, exact.mean_looks - 1e-9);
    }
    RecordProperty("greedy_mean_looks", std::to_string(greedy.mean_looks));
  }
}

INSTANTIATE_TEST_SUITE_P(Engines, SmallLookTreeOf, testing::ValuesIn(up_to(6)), plain);
INSTANTIATE_TEST_SUITE_P(Engines, LookTreeOf, testing::ValuesIn(up_to(12)), plain);

TEST(LookTree, EnoughMeansSeenShutAndWitnessed) {
  const Engine engine = test::engine_of({{1, 5, 3, 6, 2, 4}});
  const auto ports = port_sets(engine);
  LookQuestion question;
  question.left = {1, 2, 3, 4, 5, 6};
  Evidence evidence;
  evidence.looks.open = {6};  // 6 open: its companion 1 is surely shut, but nobody has seen it
  EXPECT_FALSE(look_tree(ports, evidence, question).enough);
  EXPECT_EQ(look_tree(ports, evidence, question).next, 1);
  EXPECT_DOUBLE_EQ(look_tree(ports, evidence, question).mean_looks, 1);
  evidence.looks.shut = {1};
  EXPECT_TRUE(look_tree(ports, evidence, question).enough);
  EXPECT_FALSE(look_tree(ports, evidence, question).next);
}

TEST(LookTree, FollowsABelief) {
  // With all chance where port 6 is open, port 6 says most: open at once makes 1 the next.
  const Engine engine = test::engine_of({{1, 5, 3, 6, 2, 4}});
  LookQuestion question;
  question.left = {1, 2, 3, 4, 5, 6};
  question.chances.assign(1440, 0.0);
  for (size_t i = 0; i < 1440; ++i)
    if (i >= 60 && i < 160) question.chances[i] = 1;  // 30..80 degrees: 3 and 6 open
  const LookTree tree = look_tree(port_sets(engine), {}, question);
  EXPECT_DOUBLE_EQ(tree.mean_looks, 2);
  EXPECT_EQ(tree.stuck, 0);
}

TEST(LookTree, NothingToFindWhereTheLooksContradictEachOther) {
  const Engine engine = test::engine_of({{1, 5, 3, 6, 2, 4}});
  Evidence evidence;
  evidence.looks.open = {1, 6};
  LookQuestion question;
  question.left = {1, 2, 3, 4, 5, 6};
  const LookTree tree = look_tree(port_sets(engine), evidence, question);
  EXPECT_FALSE(tree.next);
  EXPECT_FALSE(tree.enough);
}

}  // namespace
}  // namespace shutlane
