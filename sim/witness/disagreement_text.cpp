// What each suspicion is called, and its check. The checks are common practice, no source; none of them turns
// the crank without saying so.
#include "sim/witness/disagreement.hpp"

namespace shutlane {

SuspectText text_of(const Suspect& suspect, const std::string& bank_name) {
  const std::string port = suspect.cylinder > 0 ? "port " + std::to_string(suspect.cylinder) : "the port";
  const std::string bank = bank_name.empty() ? "the engine" : "bank " + bank_name;
  switch (suspect.what) {
    case Suspicion::missed_look:
      return {
          "A look misled: a valve just off its seat looks shut, a crust can look like a gap.",
          "Look into " + port + " again, lamp close to the valve: is there a gap anywhere round the seat?"};
    case Suspicion::wrong_port:
      return {"The look was into another port than " + port + ".",
              "Put a finger on " + port + ", count again from the pulley end, and look again."};
    case Suspicion::moved:
      return {"Somebody moved the crank.",
              "Compare the chalk mark on the pulley with the cover, and ask who was at the car. If it moved, "
              "look "
              "again from the start."};
    case Suspicion::mark:
      return {"The crank\u2019s mark was not in line.",
              "Look at the mark and its pointer: is it the right mark, and does it stand there?"};
    case Suspicion::lobe:
      return {"The lobe of cylinder " + std::to_string(suspect.cylinder) + " was misread.",
              "Count the lobes from the pulley end: is it that cylinder\u2019s, and an intake lobe?"};
    case Suspicion::turn:
      return {"The crank was turned further, or less far, than told.",
              "Was it one turn, not none and not two? The looks made here stay."};
    case Suspicion::phaser:
      return {"The intake phaser of " + bank + " is not parked.",
              "Look into every port of " + bank +
                  ": the phaser is to blame when they all disagree the same way "
                  "and the other ports do not."};
    case Suspicion::crumb:
      return {"A crumb holds a valve of " + port + " off its seat.",
              "Look into " + port + ": is the gap on one side only? Suck the port out and look again."};
    case Suspicion::chain:
      return {"The chain of " + bank + " is a tooth off.",
              "Next time the crank stands at the mark of cylinder 1, look at its two lobes through the oil "
              "filler: "
              "they must lean alike to either side."};
    case Suspicion::engine_data:
      return {
          "The engine is not as its data say.",
          "Compare firing order, cylinder numbers and valve timing with the service data; check which end is "
          "the pulley end."};
  }
  return {};
}

}  // namespace shutlane
