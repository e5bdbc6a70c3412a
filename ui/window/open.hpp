#pragma once
// The window itself.
#include <functional>
#include <optional>
#include <string>

namespace shutlane {

enum class Renderer { by_itself, cpu, gl };

struct WindowRequest {
  std::optional<std::string>
      engine;  ///< a bundled name or a path; nullopt: what was open last, else the first page
  Renderer renderer = Renderer::by_itself;
};

inline constexpr int kNoDisplay = 3;  ///< returned when no window can be opened

/// Runs until the window is closed; the exit status. Without a display it returns kNoDisplay at once, having
/// written one line to standard error.
int open_window(const WindowRequest& request);

}  // namespace shutlane
