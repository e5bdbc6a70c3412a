#pragma once
// Every sentence that tells a technician what to do or to heed, in one place. {} is filled in by the verb.
#include <string_view>

namespace shutlane::terminal::say {

// What is claimed.
inline constexpr std::string_view kReckoned = "Reckoned, not seen: look before you blast.";
inline constexpr std::string_view kCrankAt =
    "The crank is reckoned to stand at {} degrees{} (0 = cylinder 1 at firing TDC). Turn it forward only: "
    "{}, seen "
    "from the pulley end.";
inline constexpr std::string_view kWithin = ", within {}";
inline constexpr std::string_view kOneTurnAlways =
    "On this engine one full turn is right from every start: a port that is not surely shut now is surely "
    "shut after "
    "it, wherever the crank stands, when the turn is made to within {} degrees.";

inline constexpr std::string_view kAccuracy =
    "Turns are reckoned to end within {} degrees of their aim. With the spark plugs in the crank rolls back "
    "by up to half a firing interval when the wrench lets go: then give --accuracy {}, as the window does.";

// A position.
inline constexpr std::string_view kHere = "Position 1: where the crank stands";
inline constexpr std::string_view kPosition = "Position {}";
inline constexpr std::string_view kBlast =
    "{}, reckoned shut: look before you blast. Blast a port only when you have "
    "seen it shut, one port at a time.";
inline constexpr std::string_view kNothingHere = "nothing here: no port that is left is reckoned shut.";
inline constexpr std::string_view kBungs = "every port but the one in work, whatever its state.";
inline constexpr std::string_view kNotShut = "{}: not surely shut here, not to be worked.";

// A turn.
inline constexpr std::string_view kTurnNumber = "Turn {}";
inline constexpr std::string_view kSuckOut =
    "{} before the crank moves: a valve there may leave its seat on the way.";
inline constexpr std::string_view kEmpty =
    "every port: no wand, no light, no loose abrasive; nothing left in any port "
    "when the crank moves.";
inline constexpr std::string_view kLookAgain =
    "again after the turn: what was seen before it no longer counts.";

// The end.
inline constexpr std::string_view kAfter = "After the last port";
inline constexpr std::string_view kAllClear = "all ports clear, also those that were never blasted.";
inline constexpr std::string_view kCountPlugs =
    "the bungs: every bung that went in must be in your hand again.";
inline constexpr std::string_view kNothingLeft = "No port is left to be done.";

// No plan.
inline constexpr std::string_view kNotProven =
    "Not proven shortest: with so many cylinders the search was cut short. Every position is right; fewer "
    "turns may "
    "do.";
inline constexpr std::string_view kNoPlan =
    "No plan: with a margin of {} degrees and turns made to within {} degrees, the stretch where the valves "
    "are surely "
    "shut is too short for {}.";
inline constexpr std::string_view kNoPlanMend =
    "Narrower limits (--margin, --accuracy, --from DEG:PLUSMINUS) help where they are honest; so do exact "
    "service "
    "data with smaller tolerances.";

// Where the crank is.
inline constexpr std::string_view kMayStand = "The crank may stand anywhere in: {}.";
inline constexpr std::string_view kLookNext = "Look into port {} next.";
inline constexpr std::string_view kNoLookHelps = "No further look into a port would narrow this.";
inline constexpr std::string_view kWitnessed =
    "May be blasted: {}: seen shut, and reckoned shut from the rest without its own look.";
inline constexpr std::string_view kUnseen = "Look before you blast {}: reckoned shut, but not seen yet.";
inline constexpr std::string_view kNoneWitnessed =
    "No port may be blasted yet: a port must be seen shut and be reckoned shut without its own look.";
inline constexpr std::string_view kBlastSeen =
    "{}: seen shut, and reckoned shut from the other looks. One port at a time.";
inline constexpr std::string_view kNothingYet =
    "nothing yet: a port must be seen shut and be reckoned shut without its own look.";
inline constexpr std::string_view kOwnLookOnly =
    "{}: reckoned shut from its own look alone; look into another port first.";
inline constexpr std::string_view kNoTurnYet = "No turn is right for {} from everywhere the crank may stand.";
inline constexpr std::string_view kFullTurnWithin =
    "one full turn, to within {} degrees: it is right from wherever the crank stands.";
inline constexpr std::string_view kSuckOutBlasted =
    "every port blasted so far, before the crank moves: a valve there may leave its seat on the way.";
inline constexpr std::string_view kAllLeftAfterFullTurn =
    "into every port left: each that could not be done before is reckoned shut here. Blast a port only when "
    "you have "
    "seen it shut, one port at a time.";
inline constexpr std::string_view kMends = "Changing one of these would mend it: {}.";
inline constexpr std::string_view kContradiction = "These looks cannot all be true: {}.";
inline constexpr std::string_view kContradictionMend =
    "Look again, and mind the usual causes: the wrong port, somebody moved the crank, wrong engine data, a "
    "cam phaser "
    "not parked, a crumb on a valve seat, a chain a tooth off.";

inline constexpr std::string_view kBefore = "Before you start";

// Bumps of the starter.
inline constexpr std::string_view kNoBump = "No bump: {}.";
inline constexpr std::string_view kGathers = "It gathers at {} places: ";
inline constexpr std::string_view kGathersFirst = "{} of 100 bumps carry it on by {} to {} degrees";
inline constexpr std::string_view kGathersAlso = ", {} of 100 by {} to {}";
inline constexpr std::string_view kBumpLeaves =
    "A press of {} s from {} degrees, plugs {}, carries the crank on by {} to {} degrees nine times out of "
    "ten, "
    "by {} in the middle{}.";
inline constexpr std::string_view kRollsBack = " (negative: it rolls back)";
inline constexpr std::string_view kBumpModel =
    "Reckoned from {} bumps of cars and hands that differ (seed {}); no measured engine stands behind it.";
inline constexpr std::string_view kRestsAt = "Where it comes to rest, 10 degrees a column:";
inline constexpr std::string_view kSureAfterBump = "Surely shut then, in how many of 100 bumps:";
inline constexpr std::string_view kBumpIsChance =
    "Where one bump ends is chance: look into the ports afterwards; what was seen before no longer counts.";

inline constexpr std::string_view kCrankStands =
    "The crank is reckoned to stand at {} degrees{} (0 = cylinder 1 at firing TDC).";
inline constexpr std::string_view kLookFirst =
    "Where the crank stands is not known: look into the ports first, and do every one that two witnesses "
    "call shut.";
inline constexpr std::string_view kBump = "Bump";
inline constexpr std::string_view kPressAbout = "press about {} s; {}; {}";
inline constexpr std::string_view kFinishFirst = " (all are done after it in {} of 100).";
inline constexpr std::string_view kAfterBump =
    "into every port that is left, for only looks tell where the crank came to rest. Blast each that is seen "
    "shut and reckoned shut, one at a time. Ports left? Ask again with --done.";
inline constexpr std::string_view kNoBumpNeeded =
    "No bump is needed: every port that is left is reckoned shut here.";
inline constexpr std::string_view kHabits = "Bumps to be expected, all on the same model:";
inline constexpr std::string_view kThisPlan = "this plan";
inline constexpr std::string_view kNoEnd = "may never end";
inline constexpr std::string_view kBelowOne =
    "Below one: where every port is shut already, no bump is needed.";
inline constexpr std::string_view kBounce =
    "A press of {} s is too short here: {} of 100 bounce back off the next compression.";
inline constexpr std::string_view kFixedIsNear =
    "A 0.30 s press every time is nearly as good as this plan: the gain lies in longer presses and in doing "
    "every shut port.";
inline constexpr std::string_view kNoBumpPlan = "No plan by starter: {}. Use a wrench.";

inline constexpr std::string_view kLearnedFrom =
    "Starter and friction are weighed by {} told of this engine (shutlane learn ENGINE shows and forgets "
    "them).";
inline constexpr std::string_view kLearnedFromJobs =
    "The window's jobs read more from the looks after {}: the plan by starter uses that too, --forget "
    "forgets "
    "it.";
inline constexpr std::string_view kNothingTold =
    "Nothing was told of this engine's bumps. After a bump: shutlane learn ENGINE --from DEG --press S "
    "--went "
    "further, less-far or as-reckoned.";
inline constexpr std::string_view kToldOf = "What was told of this engine's bumps, the latest last:";
inline constexpr std::string_view kMiddleHalf =
    "Reckoned: the middle half of such bumps, in degrees from the start. Below it is less far, above it "
    "further.";
inline constexpr std::string_view kWeighedNow =
    "Weighed so, the starter is reckoned {:.2f} times as strong as stated and the friction {:.2f} times; "
    "nothing "
    "told: {:.2f} and {:.2f}. No car is ruled out. plan --by starter and bump reckon with it.";
inline constexpr std::string_view kForgotten = "Forgotten: {} told of this engine.";

// The starter first, the wrench to finish.
inline constexpr std::string_view kWrenchFirst =
    "The starter saves no move here: {} by wrench alone. This is that plan.";
inline constexpr std::string_view kStarterFirst =
    "Starter first, the wrench to finish: {:.2f} moves to be expected ({:.2f} bumps and {:.2f} turns).";
inline constexpr std::string_view kWrenchOnly = "By wrench alone: {}.";
inline constexpr std::string_view kWrenchNeedsAngle =
    "By wrench alone: no plan from here, for a turn cannot be aimed before looks tell where the crank "
    "stands.";
inline constexpr std::string_view kStarterOnly = "By starter alone: {:.2f} bumps to be expected.";
inline constexpr std::string_view kStarterOnlyNever = "By starter alone: it may never end.";
inline constexpr std::string_view kThenEither =
    "When the looks have told where the crank came to rest, ask again with --from, --done and --by both: it "
    "says "
    "whether another bump or the wrench comes next.";

inline constexpr std::string_view kBeforeBump = "Before a bump";

}  // namespace shutlane::terminal::say
