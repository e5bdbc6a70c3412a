#include "sim/witness/causes.hpp"

namespace shutlane {

std::vector<Cause> causes_of(const Engine& engine, const CausePriors& priors) {
  std::vector<Cause> all(2);
  all[1] = {CauseKind::moved, 0, 0, 0, priors.moved};
  const double tooth_deg = 360.0 / priors.sprocket_teeth;
  for (size_t bank = 0; bank < engine.spec.layout.banks.size(); ++bank) {
    double latest_deg = 0;
    for (const Cylinder& c : engine.cylinders)
      if (c.bank == bank)
        for (const size_t i : c.intake) latest_deg = std::max(latest_deg, engine.trains[i].phase_last_deg);
    all.push_back({CauseKind::phaser, bank, 0, latest_deg + priors.phaser_deg, priors.phaser});
    all.push_back({CauseKind::chain, bank, 0, tooth_deg, priors.chain / 2});
    all.push_back({CauseKind::chain, bank, 0, -tooth_deg, priors.chain / 2});
  }
  for (const Cylinder& c : engine.cylinders)
    all.push_back({CauseKind::crumb, c.bank, c.number, 0, priors.crumb});
  double others = 0;
  for (const Cause& cause : all) others += cause.prior;
  for (Cause& cause : all) cause.prior /= 1 + others;
  all[0].prior = 1 / (1 + others);
  return all;
}

}  // namespace shutlane
