#pragma once
// What a person at the engine can tell of where the crank stands. Everything that is reckoned rests on these.
#include <variant>

namespace shutlane {

/// Touching: a hair open, or not sure. Hidden: the port can't be seen.
enum class Saw { shut, open, hidden, touching };

/// The eye is limited (sim/witness/eye.hpp), and the same eye at the same valve repeats its mistake.
struct LookedInto {
  int cylinder = 0;
  Saw saw = Saw::hidden;
  friend bool operator==(const LookedInto&, const LookedInto&) = default;
};

struct MarkRead {             ///< the crank's mark, which repeats every turn
  double at_deg = 0;          ///< read modulo 360
  double plus_minus_deg = 5;  ///< 0.5..180
  friend bool operator==(const MarkRead&, const MarkRead&) = default;
};

/// Which way the lobe of a cylinder's intake valve points, seen at the oil filler: a witness that is no look.
/// To within 45 cam degrees. Unclear, neither of the two, tells nothing, and nor does hidden: it can't be
/// seen.
enum class Lobe { away, at_valve, unclear, hidden };
struct LobeSeen {
  int cylinder = 0;
  Lobe points = Lobe::unclear;
  friend bool operator==(const LobeSeen&, const LobeSeen&) = default;
};

/// A chalk line across pulley and cover. The first one at a position says that it was drawn; the later ones,
/// that nobody has moved the crank since.
struct ChalkInLine {
  friend bool operator==(const ChalkInLine&, const ChalkInLine&) = default;
};

/// A time at one position in which somebody may have moved the crank: a port was blasted.
struct Pause {
  friend bool operator==(const Pause&, const Pause&) = default;
};

/// To add a witness: its struct here; its sets in where.cpp; its likelihood in here.cpp; how it can be at
/// fault in disagreement.cpp; its event and words (DEVELOPERS.md, "How to add a witness").
using Told = std::variant<LookedInto, MarkRead, LobeSeen, ChalkInLine, Pause>;

/// "Can't see" and "just touching" say nothing of shut or open.
inline bool tells(const LookedInto& look) { return look.saw == Saw::shut || look.saw == Saw::open; }

}  // namespace shutlane
