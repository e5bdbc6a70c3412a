#include "ui/window/window_words.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>

#include "engines/catalog.hpp"
#include "ui/drawings/cairo_canvas.hpp"
#include "engines/words.hpp"
#include "ui/window/open.hpp"
#include "ui/window/picture.hpp"
#include "ui/window/session.hpp"

namespace shutlane {
namespace {

constexpr int kBadWords = 2;

bool names_an_engine(const std::string& word) { return is_bundled(word) || word.ends_with(".toml"); }

/// Every line of it; a word from outside commands no terminal.
int fail(const std::string& why) {
  constexpr size_t kMost = 4000;  // the word of an argument may be endless
  std::string lines;
  for (size_t from = 0; from < std::min(why.size(), kMost);) {
    const size_t end = std::min({why.find('\n', from), why.size(), kMost});
    lines += made_harmless(why.substr(from, end - from)) + (end == kMost ? "...\n" : "\n");
    from = end + 1;
  }
  std::fprintf(stderr, "shutlane: %s", lines.c_str());
  return kBadWords;
}

int parse(CLI::App& app, std::vector<std::string> words) {
  std::reverse(words.begin(), words.end());  // CLI11 takes them from the back
  try {
    app.parse(std::move(words));
    return -1;
  } catch (const CLI::CallForHelp&) {
    std::fputs(app.help().c_str(), stdout);
    return 0;
  } catch (const CLI::ParseError& e) {
    return fail(e.what());
  }
}

/// "look:3:open", "turned:360:360", as the state file's events in short; a picture of a job under way.
std::optional<JobEvent> short_event(const std::string& word) {
  const size_t a = word.find(':'), b = a == std::string::npos ? a : word.find(':', a + 1);
  const std::string name = word.substr(0, a);
  const std::string first =
      a == std::string::npos ? "" : word.substr(a + 1, b == std::string::npos ? b : b - a - 1);
  const std::string second = b == std::string::npos ? "" : word.substr(b + 1);
  try {
    if (name == "shut") return LookedInto{std::stoi(first), Saw::shut};
    if (name == "open") return LookedInto{std::stoi(first), Saw::open};
    if (name == "touching") return LookedInto{std::stoi(first), Saw::touching};
    if (name == "hidden") return LookedInto{std::stoi(first), Saw::hidden};
    if (name == "start") return BlastStarted{std::stoi(first)};
    if (name == "done") return PortDone{std::stoi(first)};
    if (name == "mark") return MarkRead{std::stod(first), second.empty() ? 5 : std::stod(second)};
    if (name == "lobe")
      return LobeSeen{std::stoi(first), second == "away"     ? Lobe::away
                                        : second == "at"     ? Lobe::at_valve
                                        : second == "hidden" ? Lobe::hidden
                                                             : Lobe::unclear};
    if (name == "turned")
      return Turned{std::stod(first), second.empty() ? std::stod(first) : std::stod(second)};
    if (name == "moved") return CrankMoved{};
    if (name == "sucked") return SuckedOut{};
    if (name == "emptied") return PortsEmptied{};
    if (name == "counted") return PlugsCounted{};
  } catch (const std::exception&) {
  }
  return {};
}

int picture(const std::vector<std::string>& words) {
  PictureRequest request;
  std::string bench = "work", size = "1600x1000", theme = "dark", by = "wrench", out;
  std::vector<std::string> events;
  CLI::App app("Draws a frame of the window into a PNG, without a display.", "shutlane picture");
  app.add_option("ENGINE", request.engine, "a bundled engine or a file")->default_str(request.engine);
  app.add_option("--bench", bench,
                 "work, teach, explore, or a page: start, settings, menu, cautions, bump-cautions, came-back")
      ->default_str(bench);
  app.add_option("--size", size, "in pixels")->default_str(size);
  app.add_option("--scale", request.scale, "of small text: 1, 1.25, 1.5, 2")->check(CLI::Range(0.5, 4.0));
  app.add_option("--dpi", request.dpi, "of the screen; as for 15.6 inches across otherwise")
      ->check(CLI::Range(0.0, 1000.0));
  app.add_option("--press", request.press_s,
                 "on teach: a bump of the starter of so many seconds, half replayed")
      ->check(CLI::Range(0.05, 1.0));
  app.add_option("--theme", theme, "dark or light")->check(CLI::IsMember({"dark", "light"}));
  app.add_option("--by", by,
                 "how the crank is turned: wrench, bar, wheel, starter, or both the last and the first")
      ->default_str(by)
      ->check(CLI::IsMember({"wrench", "bar", "wheel", "starter", "both"}));
  app.add_option("--event", events,
                 "the job so far, in order: mark:35:2 shut:1 open:3 start:1 done:1 turned:350:370 ...");
  app.add_option("--out", out, "the PNG file")->required();
  app.footer("Example: shutlane picture inline-six --theme light --out six.png");
  if (const int status = parse(app, words); status >= 0) return status;

  char rest = 0;
  if (std::sscanf(size.c_str(), "%5dx%5d%c", &request.width_px, &request.height_px, &rest) != 2 ||
      std::min(request.width_px, request.height_px) < 200 ||
      std::max(request.width_px, request.height_px) > 8000)
    return fail("--size: WIDTHxHEIGHT is expected, 200 to 8000 pixels each");
  if (bench == "work")
    request.bench = Bench::work;
  else if (bench == "teach")
    request.bench = Bench::teach;
  else if (bench == "explore")
    request.bench = Bench::explore;
  else if (bench == "start")
    request.page = Page::start;
  else if (bench == "settings")
    request.page = Page::settings;
  else if (bench == "menu")
    request.page = Page::job_menu;
  else if (bench == "cautions")
    request.page = Page::cautions;
  else if (bench == "bump-cautions")
    request.page = Page::bump_cautions;
  else if (bench == "came-back")
    request.page = Page::came_back;
  else
    return fail(
        "--bench: work, teach, explore, start, settings, menu, cautions, bump-cautions or came-back is "
        "expected");
  if (request.press_s && request.bench != Bench::teach) return fail("--press goes with --bench teach");
  request.theme = theme == "light" ? Theme::light : Theme::dark;
  request.wrench_too = by == "both";
  request.turn_by = by == "starter" || by == "both" ? TurnBy::starter
                    : by == "wheel"                 ? TurnBy::road_wheel
                    : by == "bar"                   ? TurnBy::bar
                                                    : TurnBy::wrench;
  for (const std::string& word : events) {
    const std::optional<JobEvent> event = short_event(word);
    if (!event) return fail("--event: " + word.substr(0, 60) + " is not an event");
    request.events.push_back(*event);
    request.words.push_back(word.substr(0, 60));
  }
  if (page_format_of(out) != PageFormat::png)
    return fail("--out: " + out.substr(0, 60) + " does not end in .png; expected the name of a PNG file");
  if (const std::optional<std::string> why_not = draw_picture(request, out)) return fail(*why_not);
  return 0;
}

int window(const std::vector<std::string>& words) {
  WindowRequest request;
  std::string renderer = "auto", engine;
  CLI::App app("Opens the window.", "shutlane");
  app.add_option("ENGINE", engine);
  app.add_option("--renderer", renderer)->check(CLI::IsMember({"auto", "cpu", "gl"}));
  if (const int status = parse(app, words); status >= 0) return status;
  if (!engine.empty()) {
    const auto found = find_engine(engine);  // its mistakes belong in the terminal, before any window opens
    if (const auto* why_not = std::get_if<std::string>(&found)) {
      std::fputs(why_not->c_str(), stderr);
      return kBadWords;
    }
    request.engine = engine;
  }
  request.renderer = renderer == "cpu"  ? Renderer::cpu
                     : renderer == "gl" ? Renderer::gl
                                        : Renderer::by_itself;
  const int status = open_window(request);
  return status == kNoDisplay ? kBadWords : status;  // no plan: nobody said where the crank stands
}

}  // namespace

std::optional<int> window_words(const std::vector<std::string>& words) {
  if (!words.empty() && words[0] == "picture") return picture({words.begin() + 1, words.end()});
  const bool ours = words.empty() || words[0] == "--renderer" || words[0].starts_with("--renderer=") ||
                    names_an_engine(words[0]);
  return ours ? std::optional(window(words)) : std::nullopt;
}

}  // namespace shutlane
