#pragma once
// The steps of reading an engine file, each for its own table.
#include <toml++/toml.h>

#include "engines/findings.hpp"
#include "engines/section.hpp"

namespace shutlane {

/// The spec as far as the file gives it, and what was found on the way.
struct Reading {
  EngineSpec spec;
  Findings findings;
};

/// Reads everything but what the numbers say together. A text that is no TOML ends with that one mistake.
Reading read_spec(std::string_view text);

void read_layout(Section& layout, LayoutSpec& spec);
ValveSpec read_valve(Section& valve);

/// Gives every value that the file failed to give one that upsets no other, so that the rest can still be
/// checked.
void fill_gaps(Reading& reading);
/// Whether a mistake found in the spec as a whole is the file's own, not the echo of a gap.
bool is_own(const Mistake& mistake, const Findings& findings);

}  // namespace shutlane
