#pragma once
// The state file: the document as JSON in the XDG state folder, written beside, synced and renamed, so that a
// crash at any moment leaves the last whole one.
#include <optional>
#include <string>
#include <variant>

#include "ui/window/document.hpp"

namespace shutlane {

std::string to_json(const Document& document);
/// The document, or why the text is none.
std::variant<Document, std::string> from_json(const std::string& text);

/// $XDG_STATE_HOME/shutlane/state.json, else ~/.local/state/shutlane/state.json; empty when there is no home.
std::string state_path();

/// nullopt when all went well; else one line that says what is wrong. Makes the folder when it is missing.
std::optional<std::string> save_whole(const std::string& path, const std::string& text);

struct Loaded {
  std::optional<Document> document;  ///< nullopt: there was none, or it was damaged
  std::string set_aside;             ///< where a damaged file was moved to; empty: it was not
};
Loaded load_state(const std::string& path);

}  // namespace shutlane
