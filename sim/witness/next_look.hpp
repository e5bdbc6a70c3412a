#pragma once
// Which port to look into next: the only place where that is chosen. What the look is to bring is an
// argument.
#include <optional>
#include <vector>

#include "sim/witness/here.hpp"

namespace shutlane {

/// The look after which the least of `where` is expected to be left, each angle equally likely and answered
/// as the events stated would have it; the lowest number on a tie, nullopt when no look shortens it. Of the
/// candidates only (cylinder numbers, rising).
std::optional<int> look_that_narrows(const std::vector<PortSets>& ports, const ArcSet& where,
                                     const std::vector<int>& candidates);

/// Of two or more places apart (a crank mark's two) the look that tells them best apart: into a port that
/// stands wide open at one and surely shut at another, as far as possible from its events. Nullopt when there
/// is none of at least 20 degrees.
std::optional<int> look_that_decides(const std::vector<PortSets>& ports, const ArcSet& where,
                                     const std::vector<int>& candidates);

/// The look that says most about whether a port is open although both witnesses call it shut; nullopt when no
/// look that can still be made here says anything worth having, or there is no belief.
std::optional<int> look_that_makes_surer(const Here& here, int doubtful, const std::vector<int>& candidates);

}  // namespace shutlane
