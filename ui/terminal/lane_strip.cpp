#include "ui/terminal/lane_strip.hpp"

#include <fmt/format.h>

#include <array>

namespace shutlane::terminal {
namespace {

constexpr size_t kCells = 72;
constexpr double kCell_deg = kCycle_deg / kCells;
constexpr size_t kLabel = 5;  // "   1 "

enum Mark : size_t { kSure, kNotSure, kOpen, kStands, kStandsNot, kCrank };

struct Look {
  const char* plain;
  const char* unicode;
  const char* sgr;
};
constexpr std::array<Look, 6> kLooks{{
    {"#", "█", "1"},  // bold
    {"=", "▒", "0"},
    {".", "·", "2"},  // faint
    {"*", "*", "1"},  // like no lane, in either alphabet
    {" ", " ", "0"},
    {"v", "▼", "1"},
}};

const char* glyph(Mark mark, const Style& style) {
  return style.unicode ? kLooks[mark].unicode : kLooks[mark].plain;
}

/// Marks as text, one escape for each stretch of like marks.
std::string drawn(const std::array<Mark, kCells>& cells, const Style& style) {
  std::string out;
  for (size_t i = 0; i < kCells;) {
    std::string stretch;
    size_t j = i;
    for (; j < kCells && cells[j] == cells[i]; ++j) stretch += glyph(cells[i], style);
    out += paint(style, kLooks[cells[i]].sgr, stretch);
    i = j;
  }
  return out;
}

Arc cell_arc(size_t i) { return {static_cast<double>(i) * kCell_deg, kCell_deg}; }

Mark lane_mark(const Windows& w, size_t i) {
  if (w.sure.covers(cell_arc(i))) return kSure;
  return w.shut.covers(cell_arc(i)) ? kNotSure : kOpen;
}

std::string scale(const Style& style, const StripMarks& marks) {
  std::string out = std::string(kLabel, ' ');
  for (int at : {0, 180, 360, 540}) out += fmt::format("{:<18}", at);
  out += "720\n";
  if (marks.crank_deg) {
    const auto cell = std::min(static_cast<size_t>(wrap_deg(*marks.crank_deg) / kCell_deg), kCells - 1);
    out += std::string(kLabel + cell, ' ') + paint(style, kLooks[kCrank].sgr, glyph(kCrank, style)) + "\n";
  }
  return out;
}

std::string key(const Style& style, const StripMarks& marks) {
  std::string out = fmt::format("{}{} surely shut   {} not surely shut   {} open", std::string(kLabel, ' '),
                                glyph(kSure, style), glyph(kNotSure, style), glyph(kOpen, style));
  if (marks.crank_deg) out += fmt::format("   {} crank", glyph(kCrank, style));
  out += "\n";
  if (marks.may_stand != nullptr)
    out += fmt::format("{}{} the crank may stand here\n", std::string(kLabel, ' '), glyph(kStands, style));
  return out;
}

}  // namespace

std::string lane_strip(const std::vector<Windows>& windows, const StripMarks& marks, const Style& style) {
  std::string out = scale(style, marks);
  std::array<Mark, kCells> cells{};
  if (marks.may_stand != nullptr) {
    for (size_t i = 0; i < kCells; ++i) {
      const ArcSet cell({cell_arc(i)});
      cells[i] = marks.may_stand->intersected(cell).empty() ? kStandsNot : kStands;
    }
    std::string row = "crank" + drawn(cells, style);
    row.erase(row.find_last_not_of(' ') + 1);
    out += row + "\n";
  }
  for (const Windows& w : windows) {
    for (size_t i = 0; i < kCells; ++i) cells[i] = lane_mark(w, i);
    out += fmt::format("{:>{}} ", w.cylinder, kLabel - 1) + drawn(cells, style) + "\n";
  }
  return out + key(style, marks);
}

}  // namespace shutlane::terminal
