#pragma once
// SDL's events as ours.
#include <SDL.h>

#include <optional>

#include "ui/window/input.hpp"

namespace shutlane {

/// `pixels_per_point`: of a screen whose events come in points (1 on X11).
std::optional<InputEvent> from_sdl(const SDL_Event& event, double pixels_per_point);

}  // namespace shutlane
