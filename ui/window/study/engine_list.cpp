#include "ui/window/study/engine_list.hpp"

#include <algorithm>
#include <sstream>

#include "engines/catalog.hpp"
#include "ui/drawings/layout_icon.hpp"

namespace shutlane {

namespace {

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

std::vector<EngineEntry> read_all() {
  std::vector<EngineEntry> all;
  for (const BundledFile& file : bundled_files()) {
    auto read = read_engine(file.text);
    const auto* engine = std::get_if<Engine>(&read);
    if (!engine) continue;  // a test of the engines' own says so
    all.push_back(entry_of(std::string(file.name), engine->spec, false));
  }
  std::stable_sort(all.begin(), all.end(), [](const EngineEntry& a, const EngineEntry& b) {
    const size_t na = a.drawn.firing_order.size(), nb = b.drawn.firing_order.size();
    if (na != nb) return na < nb;
    const LayoutKind ka = layout_kind(a.drawn), kb = layout_kind(b.drawn);
    return ka != kb ? ka < kb : a.layout < b.layout;
  });
  return all;
}

}  // namespace

EngineEntry entry_of(const std::string& name, const EngineSpec& spec, bool own) {
  EngineEntry entry{name, spec.name, layout_name(spec.layout), "", spec.layout, own};
  for (const int number : spec.layout.firing_order)
    entry.order += (entry.order.empty() ? "" : "-") + std::to_string(number);
  return entry;
}

const std::vector<EngineEntry>& bundled_entries() {
  static const std::vector<EngineEntry> all = read_all();
  return all;
}

std::vector<const EngineEntry*> matching(const std::vector<EngineEntry>& entries, std::string_view query) {
  std::vector<std::string> words;
  std::istringstream in(lower(query));
  for (std::string word; in >> word;) words.push_back(word);
  std::vector<const EngineEntry*> found;
  for (const EngineEntry& e : entries) {
    const std::string all =
        lower(e.name + ' ' + e.title + ' ' + e.layout + ' ' + e.order + (e.own ? " your file" : ""));
    if (std::all_of(words.begin(), words.end(),
                    [&](const std::string& word) { return all.find(word) != std::string::npos; }))
      found.push_back(&e);
  }
  return found;
}

}  // namespace shutlane
