#pragma once
// What can hurt a person at this work, in one place for every page and printout. Said once, before the work.
#include <array>
#include <string_view>

namespace shutlane {

/// 29 CFR and the WorkSafeBC advisory are public; where no source is named it is common practice, no source.
inline constexpr std::array<std::string_view, 9> kCautions{
    "Local rules and licensed practice come first; where they differ from this list, they hold.",
    "The reckoning never replaces the look into the port: see every intake valve of it on its seat.",
    "Nut-shell dust is a severe allergen, for bystanders too (WorkSafeBC risk advisory). Mask up, keep "
    "people away, ask about allergies first.",
    "US rule 29 CFR 1910.94(a) restricts combustible organic abrasives, such as nut shell, to automatic "
    "systems: ask what applies to you.",
    "The dust can burn: no flame, no sparks; bond and ground the nozzle.",
    "Air for cleaning below 30 psi, with chip guarding (29 CFR 1910.242(b)); never at people.",
    "Eye protection against impact; hearing protection (29 CFR 1910.95: 90 dBA over 8 hours at most).",
    "Fuel under pressure pierces skin: relieve it before a fuel line or an injector is opened.",
    "Before the crank moves: ignition and fuel off, out of gear unless a road wheel turns it, hands clear of "
    "belts "
    "and fan.",
};

/// Before a bump of the starter. Common practice, no source.
inline constexpr std::array<std::string_view, 8> kBumpCautions{
    "Local rules and licensed practice come first. Hybrids: never.",
    "Fuel pump, injection and ignition disabled; gearbox in neutral or park; handbrake on.",
    "Every port that was blasted is sucked out; nothing left in any port.",
    "Hands, wand, wrench, lamp and hoses clear of ports, fan and belts.",
    "One person says \"clear\", and nobody presses before.",
    "Use a remote switch: a bridged solenoid sparks near fuel vapour.",
    "A charger on the battery, for bumps drain it; pauses for the starter, so that it cools.",
    "The crank stops at once? It may be liquid or an object: no second bump.",
};

}  // namespace shutlane
