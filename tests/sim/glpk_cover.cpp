#include "tests/sim/glpk_cover.hpp"

#include <glpk.h>

#include <algorithm>
#include <stdexcept>

namespace shutlane::test {

std::vector<Arc> aims(const ArcSet& sure, double by_deg) {
  std::vector<Arc> out;
  for (const Arc& a : sure.arcs()) {
    if (a.length_deg == 720) return {a};
    if (a.length_deg >= 2 * by_deg - 0.5e-6)
      out.push_back({a.from_deg + by_deg, std::max(0.0, a.length_deg - 2 * by_deg)});
  }
  return out;
}

int fewest_points(const std::vector<std::vector<Arc>>& families, double slack_deg) {
  std::vector<double> points;
  for (const auto& family : families) {
    if (family.empty()) return -1;
    for (const Arc& a : family) points.push_back(a.from_deg + a.length_deg);
  }
  if (families.empty()) return 0;

  auto holds = [&](const Arc& a, double point) {
    double d = std::fmod(point - a.from_deg, 720);
    if (d < -slack_deg) d += 720;
    if (d > 720 - slack_deg) d -= 720;
    return d <= a.length_deg + slack_deg;
  };
  glp_term_out(GLP_OFF);
  glp_prob* problem = glp_create_prob();
  glp_set_obj_dir(problem, GLP_MIN);
  const int columns = static_cast<int>(points.size()), rows = static_cast<int>(families.size());
  glp_add_cols(problem, columns);
  for (int j = 1; j <= columns; ++j) {
    glp_set_col_kind(problem, j, GLP_BV);
    glp_set_obj_coef(problem, j, 1);
  }
  glp_add_rows(problem, rows);
  for (int i = 1; i <= rows; ++i) {
    glp_set_row_bnds(problem, i, GLP_LO, 1, 0);
    std::vector<int> index{0};
    std::vector<double> value{0};
    for (int j = 1; j <= columns; ++j)
      for (const Arc& a : families[static_cast<size_t>(i - 1)])
        if (holds(a, points[static_cast<size_t>(j - 1)])) {
          index.push_back(j);
          value.push_back(1);
          break;
        }
    glp_set_mat_row(problem, i, static_cast<int>(index.size()) - 1, index.data(), value.data());
  }
  glp_iocp how;
  glp_init_iocp(&how);
  how.presolve = GLP_ON;
  how.msg_lev = GLP_MSG_OFF;
  const bool solved = glp_intopt(problem, &how) == 0 && glp_mip_status(problem) == GLP_OPT;
  const int fewest = static_cast<int>(std::lround(glp_mip_obj_val(problem)));
  glp_delete_prob(problem);
  if (!solved) throw std::runtime_error("GLPK found no optimum");
  return fewest;
}

}  // namespace shutlane::test
