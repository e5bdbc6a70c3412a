#include <fmt/format.h>

#include <filesystem>

#include "engines/catalog.hpp"
#include "engines/own.hpp"
#include "ui/terminal/figures.hpp"
#include "ui/terminal/json_text.hpp"
#include "ui/terminal/read_options.hpp"
#include "ui/terminal/understood.hpp"
#include "ui/terminal/verbs.hpp"

namespace shutlane::terminal {
namespace {

struct Entry {
  std::string name;
  Engine engine;
  bool one_turn = false;  ///< one full turn is right from every start, with the default margin and accuracy
};

std::vector<Entry> bundled_engines() {
  std::vector<Entry> entries;
  for (const BundledFile& file : bundled_files()) {
    Entry entry{.name = std::string(file.name), .engine = engine_or_throw(std::string(file.name))};
    entry.one_turn = one_full_turn_always(shut_windows(entry.engine), kDefaultAccuracy_deg);
    entries.push_back(std::move(entry));
  }
  return entries;
}

Json engines_json(const std::vector<Entry>& entries) {
  Json list = Json::array();
  for (const Entry& e : entries) {
    list.push_back({{"engine", e.name},
                    {"name", e.engine.spec.name},
                    {"source", e.engine.spec.source},
                    {"cylinders", e.engine.cylinders.size()},
                    {"banks", e.engine.spec.layout.banks.size()},
                    {"firing_order", e.engine.spec.layout.firing_order},
                    {"one_full_turn", e.one_turn}});
  }
  return {{"engines", list}};
}

Json mistakes_json(const std::vector<FileMistake>& mistakes) {
  Json list = Json::array();
  for (const auto& [line, m] : mistakes)
    list.push_back({{"line", line}, {"key", shown_key_of(m)}, {"message", message_of(m)}});
  return list;
}

std::string engines_text(const std::vector<Entry>& entries) {
  size_t widest = 0;
  for (const Entry& e : entries) widest = std::max(widest, e.name.size());
  const size_t room = kColumns - std::min(widest + 2 + 3 + 2 + 8 + 2, kColumns);
  std::vector<std::vector<std::string>> rows;
  for (const Entry& e : entries) {
    rows.push_back({e.name, fmt::format("{}", e.engine.cylinders.size()), e.one_turn ? "always" : "",
                    harmless(cut(e.engine.spec.name, room))});
  }
  return table({{"engine", Side::left}, {"cyl"}, {"one turn", Side::left}, {"", Side::left}}, rows) + "\n" +
         paragraph("",
                   "One turn: always = one full turn is right from every start, with the usual margin and "
                   "accuracy. All values are invented or made as wide as engines have them: for a real job "
                   "enter the service data.");
}

}  // namespace

Answer engines_verb(const EnginesRequest& request) {
  if (request.show) {
    auto found = shown_engine(*request.show, own_engines_folder());
    if (auto* lines = std::get_if<std::string>(&found)) throw BadInput(*lines);
    return {.out = std::move(std::get<EngineFile>(found).text)};
  }
  if (request.names) {
    Json names = Json::array();
    std::string out;
    for (const BundledFile& file : bundled_files()) {
      names.push_back(file.name);
      out += fmt::format("{}\n", file.name);
    }
    return {.out = request.json ? json_text({{"names", names}}) : out};
  }
  const std::vector<Entry> entries = bundled_engines();
  return {.out = request.json ? json_text(engines_json(entries)) : engines_text(entries)};
}

Answer check_verb(const CheckRequest& request) {
  const auto text = engine_text(request.file);
  if (request.json && std::holds_alternative<std::string>(text)) {
    const auto read = read_engine(std::get<std::string>(text));
    if (const auto* mistakes = std::get_if<std::vector<FileMistake>>(&read))
      return {.status = kNoAnswer,
              .out = json_text({{"file", request.file}, {"mistakes", mistakes_json(*mistakes)}})};
  }
  const Engine engine = engine_or_throw(request.file);
  const std::vector<FileMistake> doubts = at_lines(std::get<std::string>(text), doubts_about(engine));
  if (request.json)
    return {.out = json_text({{"file", request.file},
                              {"mistakes", Json::array()},
                              {"doubts", mistakes_json(doubts)},
                              {"understood", understood_json(engine)}})};
  std::string order;
  for (int c : engine.spec.layout.firing_order) order += fmt::format("{}{}", order.empty() ? "" : "-", c);
  const std::string file = harmless(request.file);
  std::string out = paragraph("", fmt::format("{}: no mistakes; {} cylinders, firing order {}", file,
                                              engine.cylinders.size(), order));
  const std::string stem = std::filesystem::path(request.file).stem().string();
  if (is_bundled(stem) && !is_bundled(request.file))
    out += paragraph(
        "  ", fmt::format("Its name is that of a bundled engine: \"{}\" opens the bundled one, the path "
                          "opens this file.",
                          stem));
  out += understood_in_words(engine);
  for (const auto& [line, d] : doubts) {
    out += paragraph("", fmt::format("{}:{}: {}: doubtful: {}; {}", file, line, harmless(d.key),
                                     harmless(d.wrong), harmless(d.expected)));
  }
  return {.out = out};
}

}  // namespace shutlane::terminal
