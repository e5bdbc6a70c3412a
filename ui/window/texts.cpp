#include "ui/window/texts.hpp"

#include <fmt/format.h>

#include "sim/job/texts.hpp"

namespace shutlane::texts {

std::string pulley_end() { return "pulley end"; }
std::string gearbox_end() { return "gearbox end"; }

std::string nowhere_to_save() {
  return "neither HOME nor XDG_STATE_HOME names a folder, so nothing can be kept";
}
std::string not_saved(const std::string& why) { return "NOT SAVED: " + why; }
std::string bench(Bench bench) {
  switch (bench) {
    case Bench::work:
      return "Work";
    case Bench::teach:
      return "Teach";
    case Bench::explore:
      return "Explore";
  }
  return "";
}

std::string turn_by(TurnBy how) {
  switch (how) {
    case TurnBy::wrench:
      return "Wrench on the crank bolt";
    case TurnBy::bar:
      return "Bar on the flywheel";
    case TurnBy::road_wheel:
      return "Road wheel in a high gear";
    case TurnBy::starter:
      return "Starter by remote switch";
  }
  return "";
}

std::string starter_and_wrench() { return "Starter, and a wrench"; }

std::string turn_by_caution(TurnBy how) {
  switch (how) {
    case TurnBy::wrench:
      return "Forward only. With spark plugs in, the crank rolls back when the wrench lets go.";
    case TurnBy::bar:
      return "Forward only. Take the bar out before anything else is done.";
    case TurnBy::road_wheel:
      return "One wheel off the ground, the car on stands. Forward only.";
    case TurnBy::starter:
      return "Ignition and injection off, hands clear. Nobody knows where it rests.";
  }
  return "";
}

std::string suck_out_first(const std::vector<int>& ports) {
  return "No new job yet: abrasive may lie in " + the_ports(ports) + ". Suck out first.";
}

std::string new_job_begun() { return "A new job. Undo brings the old one back."; }

std::string undone(const JobEvent& event) {
  if (const auto* blast = std::get_if<BlastStarted>(&event))
    return fmt::format("Taken back: the blast. Port {} counts as not sucked out.", blast->cylinder);
  if (const auto* look = std::get_if<LookedInto>(&event))
    return fmt::format("Taken back: the look into port {}.", look->cylinder);
  if (const auto* done = std::get_if<PortDone>(&event))
    return fmt::format("Taken back: port {} is done. It counts as being blasted.", done->cylinder);
  if (std::holds_alternative<MarkRead>(event)) return "Taken back: the mark in line.";
  if (std::holds_alternative<NoMark>(event)) return "Taken back: no mark.";
  if (std::holds_alternative<ChalkSeen>(event)) return "Taken back: the chalk line.";
  if (std::holds_alternative<SuckedOut>(event)) return "Taken back: sucked out.";
  if (std::holds_alternative<PortsEmptied>(event)) return "Taken back: all ports empty.";
  if (std::holds_alternative<BungsCounted>(event)) return "Taken back: the count of the bungs.";
  const bool moved = std::holds_alternative<Turned>(event) || std::holds_alternative<Bumped>(event) ||
                     std::holds_alternative<CrankMoved>(event);
  return moved ? "Taken back: the turn. If the crank did move, press M." : "Taken back: the last step.";
}

std::string margin_needs_reason() { return "A smaller safety margin needs a reason."; }
std::string demo_mark() { return "demo job, invented"; }
std::string what_if_out() { return "The what-if needle is out."; }
std::string what_if_second() {
  return "No advice is given while it is. The job's crank stands where it stood.";
}
std::string put_needle_back() { return "Put the needle back"; }
std::string position(int number) { return fmt::format("position {}", number); }

std::string status(int done, int of, int position, int positions, double hours) {
  std::string said = fmt::format("{} of {} done \u00b7 position {}", done, of, position);
  if (positions > 0) said += fmt::format(" of {}", positions);
  const int minutes = static_cast<int>(hours * 60);
  if (hours >= 0) said += fmt::format(" \u00b7 {}:{:02} h", minutes / 60, minutes % 60);
  return said;
}

std::string state_set_aside(const std::string& path) {
  return fmt::format("The saved state could not be read. It was set aside as {}.", path);
}

std::string came_back(bool by_press) {
  return by_press ? "The job came back from a press. Did the crank turn?"
                  : "The job came back. Has the crank moved meanwhile?";
}
std::string came_back_second(std::optional<int> blasting) {
  const std::string blast =
      blasting ? fmt::format("Port {} was being blasted: abrasive lies in it. ", *blasting) : "";
  return blast + "If nobody can say: it has. Every port is then looked into again.";
}
std::string it_may_have_moved(bool by_press) { return by_press ? "It may have turned" : "It may have moved"; }
std::string it_stands(bool by_press) { return by_press ? "Not pressed" : "It stands as it stood"; }

std::string no_display() {
  return "no display, so no window; the verbs work without one, such as shutlane plan ENGINE --from DEG (see "
         "shutlane --help)";
}

std::string rows(const std::string& above, const std::string& below) {
  return fmt::format("{} above, {} below", above, below);
}

std::string only_bank(const std::string& name) { return fmt::format("Only bank: {}", name); }

std::string length(double mm, Measures measures) {
  return measures == Measures::metric ? fmt::format("{:g} mm", mm) : fmt::format("{:.3f} in", mm / 25.4);
}

std::string before_you_start() { return "Before you start: read, heed, then begin."; }
std::string before_a_bump() { return "Before a bump of the starter."; }
std::string read_on() { return "Read. Go on"; }
std::string all_heeded() { return "Read and heeded: begin"; }
std::string not_your_engine() { return "INVENTED NUMBERS"; }

std::string tip(Face face) {
  switch (face) {
    case Face::suspect:
      return "The crank moved, or the valve was seen open, while abrasive lay in this port.";
    case Face::look:
      return "Nobody has looked into this port since the crank last moved.";
    case Face::seen_shut:
      return "Seen shut here. It may be blasted once the other looks say so too, without this one.";
    case Face::touching:
      return "A hair open, or not sure: it is not blasted here. A little further on it is shut, or open.";
    case Face::open:
      return "An intake valve stands open: abrasive would get into the engine. Its bung stays in.";
    case Face::hidden:
      return "The valves of this port can\u2019t be seen here. Without a look nothing is blasted.";
    case Face::blasting:
      return "This port is being blasted. The crank must not move.";
    case Face::done:
      return "Done. Press the port when it is not clean after all.";
    case Face::out_of_reach:
      return "Left for another day. Press the port to take it in again.";
    case Face::left_out:
      return "Of the bank that is left out. Key B, or the menu, takes it in again.";
    case Face::waits:
      return "The crank is about to move: hands clear, nothing in any port.";
  }
  return "";
}

std::string tip(Saw saw) {
  switch (saw) {
    case Saw::shut:
      return "Every intake valve of this cylinder sits on its seat, all round.";
    case Saw::touching:
      return "Not sure, or a hair off its seat: it is not blasted here, but tells where the crank "
             "stands.";
    case Saw::open:
      return "An intake valve stands off its seat, ever so little.";
    case Saw::hidden:
      return "The valves can\u2019t be seen: no answer is an answer.";
  }
  return "";
}

std::string key_of_answer(size_t index) {
  constexpr const char* kKeys[] = {"Key Q.", "Key W.", "Key E."};
  return index < std::size(kKeys) ? kKeys[index] : "";
}

std::string tip_of_strip() {
  return "One row a cylinder over two turns of the crank. Thick: surely shut. Dotted: not surely shut. "
         "Shaded: "
         "where the crank may stand.";
}

std::string tip_of_beside(const Press& press) {
  if (press.does == Press::Does::undo) return "Takes back the last step that was logged (key U).";
  if (press.does == Press::Does::back) return "Back to what is advised (escape).";
  if (press.tells.empty()) return "";
  const JobEvent& event = press.tells.front();
  if (std::holds_alternative<CrankMoved>(event))
    return "Somebody or something moved the crank, or it was turned too far, too little or back: every look "
           "is to "
           "be made again (key M).";
  if (std::holds_alternative<NoChalk>(event))
    return "No line can be drawn or seen: fresh looks take its place, which are more of them.";
  if (std::holds_alternative<BlastStopped>(event)) return "Stopped before the port is clean.";
  if (std::holds_alternative<Reachable>(event)) return "The port is left for another day.";
  if (const auto* look = std::get_if<LookedInto>(&event)) return tip(look->saw);
  return "";
}

std::string ask_margin() { return "Safety margin, crank degrees to both sides"; }
std::string ask_accuracy() { return "How near an aimed turn ends, crank degrees"; }
std::string ask_eye() { return "The least lift that the eye can tell"; }
std::string ask_lobes() { return "Cam lobes are seen through the oil filler"; }
std::string ask_dpi() { return "Pixels per inch of this screen"; }
std::string margin_lowered(const std::string& reason) {
  return fmt::format("The margin was lowered: {}.", reason);
}

std::vector<std::string> margin_reasons() {
  return {"events measured on this engine", "cam marks checked", "a trial, nothing is blasted"};
}

std::string start_headline() { return "Three questions, then the job."; }
std::string open_demo() { return "Open the demo job"; }
std::string open_teach() { return "Teach and explore"; }
std::string teach_note() { return "no job"; }
std::string demo_note() { return "an invented engine"; }
std::string ask_cylinders() { return "2  How many cylinders?"; }
std::string ask_engine() {
  return "3  Which is yours, by layout and firing order? If none is, take none: drop an engine file here.";
}
std::string ask_engine_later() { return "3  Which engine? First say how many cylinders."; }
std::string safe_without_data() { return "needs no service data"; }
std::string invented() { return "invented numbers"; }
std::string ask_turning() { return "1  How can you turn the crank?"; }
std::string file_hint() {
  return "Yours is not listed? Take no other: drop an engine file of your own on this window.";
}
std::string firing_order(const std::vector<int>& order) {
  std::string said;
  for (const int cylinder : order) said += (said.empty() ? "" : "-") + std::to_string(cylinder);
  return said;
}
std::string start_job() { return "Start the job"; }

}  // namespace shutlane::texts
