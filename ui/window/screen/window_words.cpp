#include "ui/window/window_words.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>

#include "engines/catalog.hpp"
#include "engines/words.hpp"
#include "ui/drawings/cairo_canvas.hpp"
#include "ui/told/event_words.hpp"
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
    const auto event = event_of_word(word);
    if (const auto* why = std::get_if<std::string>(&event))
      return fail("--event: " + word.substr(0, 60) + " is not an event: " + *why);
    request.events.push_back(std::get<JobEvent>(event));
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
