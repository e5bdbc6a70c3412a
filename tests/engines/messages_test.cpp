// Golden messages: each kind of mistake, alone in an otherwise good file, with its line.
#include "engines/catalog.hpp"
#include "tests/engines/sample.hpp"

namespace shutlane::test {
namespace {

struct Case {
  const char* what;
  int line;           ///< of kSample, replaced
  const char* text;   ///< by this
  const char* lines;  ///< whole output
};

void PrintTo(const Case& c, std::ostream* out) { *out << c.what; }

class Message : public testing::TestWithParam<Case> {};

TEST_P(Message, IsTheWholeOutput) {
  EXPECT_EQ(lines_of(with_line(GetParam().line, GetParam().text)), GetParam().lines);
}

TEST(Messages, TheSampleItselfIsGood) { EXPECT_EQ(lines_of(kSample), ""); }

const Case kTop[] = {
    {"format of a later day", 1, "format = 2",
     "f:1: format: 2 is out of range; format = 1, the only one so far\n"},
    {"format as a text", 1, "format = \"1\"",
     "f:1: format: is the text \"1\"; format = 1, the only one so far\n"},
    {"format missing", 1, "", "f:1: format: is missing; format = 1, the only one so far\n"},
    {"name missing", 2, "", "f:1: name: is missing; a text of 1 to 200 characters\n"},
    {"name empty", 2, "name = \"\"", "f:2: name: is empty; a text of 1 to 200 characters\n"},
    {"name of two lines", 2, "name = \"a\\nb\"",
     "f:2: name: holds a line end or another control character; a text of 1 to 200 characters\n"},
    {"name as a number", 2, "name = 3.0", "f:2: name: is 3.0; a text of 1 to 200 characters\n"},
    {"source as a list", 3, "source = [1, 2]",
     "f:3: source: is a list of 2; a text of 1 to 1000 characters, where the numbers come from\n"},
    {"needs a later program", 3, "source = \"s\"\nneeds = \"99.1\"",
     "f:4: needs: is 99.1, newer than this program; shutlane 99.1 or later, this is " SHUTLANE_TEST_VERSION
     "\n"},
    {"needs no version", 3, "source = \"s\"\nneeds = \"newest\"",
     "f:4: needs: is the text \"newest\"; a program version such as \"0.1\"\n"},
    {"needs a date", 3, "source = \"s\"\nneeds = 2024-01-01",
     "f:4: needs: is a date or a time; a program version such as \"0.1\"\n"},
    {"unknown key on top", 3, "source = \"s\"\nsorce = \"s\"",
     "f:4: sorce: is an unknown key; the nearest known key in the top of the file is source\n"},
    {"key of another table", 3, "source = \"s\"\nrod_mm = 3",
     "f:4: rod_mm: is an unknown key; rod_mm stands in [cylinder]\n"},
    {"key that needs quotes", 3, "source = \"s\"\n\"a \\u001b[31mb\" = 3",
     "f:4: \"a \\x1B[31mb\": is an unknown key; the nearest known key in the top of the file is name\n"},
    {"unknown table", 45, "[tolerances]",
     "f:45: tolerances: is an unknown key; the nearest known key in the top of the file is tolerance\n"},
};
INSTANTIATE_TEST_SUITE_P(Top, Message, testing::ValuesIn(kTop));

#define CRANKING(line) 47, "seat_deg = 0\n[cranking]\n" line
const Case kCranking[] = {
    {"starter of another kind", CRANKING("starter = \"electric\""),
     "f:49: cranking.starter: is the text \"electric\"; \"normal\" or \"none\"\n"},
    {"starter as a number", CRANKING("starter = 0"),
     "f:49: cranking.starter: is 0; \"normal\" or \"none\"\n"},
    {"torque too small", CRANKING("starter_torque_nm = 4.9"),
     "f:49: cranking.starter_torque_nm: 4.9 is out of range; a number of N m, 5 to 5000\n"},
    {"a share above its range", CRANKING("press_spread = 0.51"),
     "f:49: cranking.press_spread: 0.51 is out of range; a number, 0 to 0.5\n"},
    {"a text for a number", CRANKING("friction_bar = \"much\""),
     "f:49: cranking.friction_bar: is the text \"much\"; a number of bar, 0.05 to 10\n"},
    {"not a number", CRANKING("inertia_kgm2 = nan"),
     "f:49: cranking.inertia_kgm2: nan is not a finite number; a number of kg m2, 0.001 to 50\n"},
    {"unknown key", CRANKING("inertia_kg2 = 3"),
     "f:49: cranking.inertia_kg2: is an unknown key; the nearest known key in [cranking] is inertia_kgm2\n"},
    {"no table", 3, "source = \"s\"\ncranking = \"none\"",
     "f:4: cranking: is the text \"none\"; a table [cranking]\n"},
};
#undef CRANKING
INSTANTIATE_TEST_SUITE_P(Cranking, Message, testing::ValuesIn(kCranking));

const Case kNumbers[] = {
    {"text for a number", 5, "bore_mm = \"80\"",
     "f:5: cylinder.bore_mm: is the text \"80\"; a number of mm, 5 to 1000\n"},
    {"truth for a number", 5, "bore_mm = true",
     "f:5: cylinder.bore_mm: is true; a number of mm, 5 to 1000\n"},
    {"table for a number", 5, "bore_mm = {a = 1}",
     "f:5: cylinder.bore_mm: is a table; a number of mm, 5 to 1000\n"},
    {"not a number", 6, "stroke_mm = nan",
     "f:6: cylinder.stroke_mm: nan is not a finite number; a number of mm, 5 to 3000\n"},
    {"infinite", 7, "rod_mm = inf",
     "f:7: cylinder.rod_mm: inf is not a finite number; a number of mm, 5 to 6000\n"},
    {"minus infinite", 7, "rod_mm = -inf",
     "f:7: cylinder.rod_mm: -inf is not a finite number; a number of mm, 5 to 6000\n"},
    {"absurdly large", 5, "bore_mm = 1e308",
     "f:5: cylinder.bore_mm: 1e+308 is out of range; a number of mm, 5 to 1000\n"},
    {"negative", 5, "bore_mm = -80.0",
     "f:5: cylinder.bore_mm: -80.0 is out of range; a number of mm, 5 to 1000\n"},
    {"too large a whole number", 5, "bore_mm = 9223372036854775807",
     "f:5: cylinder.bore_mm: 9223372036854775807 is out of range; a number of mm, 5 to 1000\n"},
    {"missing", 8, "", "f:4: cylinder.compression_ratio: is missing; a number, 2 to 40\n"},
    {"unknown key", 8, "compression_ratio = 10\nrodd_mm = 3",
     "f:9: cylinder.rodd_mm: is an unknown key; the nearest known key in [cylinder] is rod_mm\n"},
    {"rod too short", 7, "rod_mm = 45",
     "f:7: cylinder.rod_mm: a rod of 45 mm is too short for the crank to turn; a rod longer than half the "
     "stroke and "
     "the bore offset together, 45 mm\n"},
    {"tolerance out of range", 46, "timing_deg = 30.5",
     "f:46: tolerance.timing_deg: 30.5 is out of range; a number of crank degrees, 0 to 30\n"},
    {"seat tolerance negative", 47, "seat_deg = -1",
     "f:47: tolerance.seat_deg: -1 is out of range; a number of crank degrees, 0 to 90\n"},
};
INSTANTIATE_TEST_SUITE_P(Numbers, Message, testing::ValuesIn(kNumbers));

const Case kLayout[] = {
    {"order with a fraction", 10, "firing_order = [1, 3.0, 4, 2]",
     "f:10: layout.firing_order[1]: is 3.0; a whole number, 1 to 99\n"},
    {"order empty", 10, "firing_order = []",
     "f:10: layout.firing_order: is an empty list; a list of whole numbers, 1 to 99\n"},
    {"order over lines", 10, "firing_order = [1,\n3,\n4,\n200]",
     "f:13: layout.firing_order[3]: 200 is out of range; a whole number, 1 to 99\n"},
    {"cylinder doubled in the order", 10, "firing_order = [1, 3, 4, 3]",
     "f:10: layout.firing_order: cylinder 3 stands there more than once; every cylinder once\n"
     "f:16: layout.bank[0].cylinders: cylinder 2 is not in the firing order; the same cylinders in the banks "
     "and in the "
     "firing order\n"},
    {"cylinder missing in the banks", 16, "cylinders = [1, 2, 3]",
     "f:10: layout.firing_order: no bank holds 4; every cylinder in one bank, once\n"},
    {"cylinder doubled in the banks", 16, "cylinders = [1, 2, 3, 4, 2]",
     "f:16: layout.bank[0].cylinders: cylinder 2 stands in the banks more than once; every cylinder in one "
     "bank, once\n"},
    {"intervals too few", 11, "firing_intervals_deg = [360, 360]",
     "f:11: layout.firing_intervals_deg: has 2 entries for 4 firings; one interval from each firing to the "
     "next\n"},
    {"intervals off 720", 11, "firing_intervals_deg = [180, 180, 180, 180.02]",
     "f:11: layout.firing_intervals_deg: the intervals sum to 720.02; 720 within 0.01\n"},
    {"interval negative", 11, "firing_intervals_deg = [180, 180, -180, 540]",
     "f:11: layout.firing_intervals_deg[2]: -180 is out of range; a number of crank degrees, 0 to 720\n"},
    {"rotation sideways", 12, "rotation = \"left\"",
     "f:12: layout.rotation: is the text \"left\"; \"clockwise\" or \"anticlockwise\"\n"},
    {"old name of the rotation", 12, "turns = \"anticlockwise\"",
     "f:12: layout.turns: is the old name of a key; rotation is its name now\n"},
    {"old name of the crank pins", 17, "[layout.throws_deg]",
     "f:17: layout.throws_deg: is the old name of a key; crank_pins_deg is its name now\n"},
    {"old name in a place of neither", 12, "lash_mm = 0.1",
     "f:12: layout.lash_mm: is the old name of a key; clearance_mm is its name now, and it stands in "
     "[[valves]]\n"},
    {"bank with single brackets", 13, "[layout.bank]",
     "f:13: layout.bank: is a table; tables [[layout.bank]], with double brackets\n"},
    {"bank without a tilt", 15, "",
     "f:13: layout.bank[0].tilt_deg: is missing; a number of degrees, -360 to 360\n"},
    {"two banks of one name", 16,
     "cylinders = [1, 2]\n[[layout.bank]]\nname = \"row\"\ntilt_deg = 0\ncylinders = [3, 4]",
     "f:18: layout.bank[1].name: 'row' names two banks; a name of its own for each bank\n"},
    {"pin in the wrong place", 20, "3 = 90",
     "f:20: layout.crank_pins_deg.3: the pin of cylinder 3 stands 90 degrees short of where its firing needs "
     "it; "
     "180 from "
     "the firing order, its intervals and the banks, or no table: pins follow from firing_order. Or is it "
     "two "
     "swapped banks (tilt_deg), another firing_order or other firing_intervals_deg? As they stand they imply "
     "the pins 1 = 0, 2 = 180, 3 = 180, 4 = 0\n"},
    {"pin of no cylinder", 21, "4 = 0\n5 = 0",
     "f:22: layout.crank_pins_deg.5: the engine has no cylinder 5; one of 1, 2, 3, 4\n"},
    {"pin missing", 21, "",
     "f:17: layout.crank_pins_deg: no crank pin for 4; the crank pin of every cylinder, or no table: they "
     "follow "
     "from firing_order\n"},
    {"pin of a word", 21, "4 = 0\nfour = 0",
     "f:22: layout.crank_pins_deg.four: is no cylinder's number; numbers 1 to 99\n"},
    {"pin with a leading zero", 21, "04 = 0",
     "f:17: layout.crank_pins_deg: no crank pin for 4; the crank pin of every cylinder, or no table: they "
     "follow "
     "from firing_order\n"
     "f:21: layout.crank_pins_deg.04: is no cylinder's number; numbers 1 to 99\n"},
};
INSTANTIATE_TEST_SUITE_P(Layout, Message, testing::ValuesIn(kLayout));

const Case kValves[] = {
    {"kind of no valve", 23, "kind = \"inlet\"",
     "f:23: valves[0].kind: is the text \"inlet\"; \"intake\" or \"exhaust\"\n"},
    {"old name of the clearance", 30, "lash_mm = 0.1",
     "f:30: valves[0].lash_mm: is the old name of a key; clearance_mm is its name now\n"},
    {"old name of the clearance, unreadable", 30, "lash_mm = \"wide\"",
     "f:30: valves[0].lash_mm: is the old name of a key; clearance_mm is its name now\n"},
    {"half a valve", 24, "per_cylinder = 1.5",
     "f:24: valves[0].per_cylinder: is 1.5; a whole number, 1 to 8\n"},
    {"exhaust key on an intake", 25, "opens_bbdc_deg = 12",
     "f:22: valves[0].opens_btdc_deg: is missing; a number of crank degrees, -180 to 250\n"
     "f:25: valves[0].opens_bbdc_deg: is a key of exhaust valves, unknown in an entry of kind = \"intake\"; "
     "the nearest "
     "known key is opens_btdc_deg\n"},
    {"key twice", 26, "closes_abdc_deg = 40\nopens_btdc_deg = -12",
     "f:27: syntax: opens_btdc_deg stands in the file a second time; each key and each section once, lists "
     "of "
     "sections in [[ ]]\n"},
    {"at_lift missing", 27, "",
     "f:22: valves[0].at_lift_mm: is missing; a number of mm, 0 to 100, or \"unknown\"\n"},
    {"at_lift in words", 27, "at_lift_mm = \"seat\"",
     "f:27: valves[0].at_lift_mm: is the text \"seat\"; a number of mm, 0 to 100, or \"unknown\"\n"},
    {"at_lift at the peak", 27, "at_lift_mm = 9",
     "f:27: valves[0].at_lift_mm: 9 mm is not below the peak lift; less than peak_lift_mm, 9\n"},
    {"law of no name", 29, "lift_law = \"cubic\"",
     "f:29: valves[0].lift_law: is the text \"cubic\"; \"polynomial-345\", \"polynomial-4567\", "
     "\"cycloidal\", "
     "\"harmonic\", \"table\" or \"unknown\"\n"},
    {"phase range of three", 31, "phase_range_deg = [0, 1, 2]",
     "f:31: valves[0].phase_range_deg: is a list of 3; [first, second], two numbers of crank degrees EARLIER "
     "than stated, "
     "-120 to 0 and 0 to 120\n"},
    {"phase range beside 0", 31, "phase_range_deg = [5, 20]",
     "f:31: valves[0].phase_range_deg: runs from 5 to 20 and leaves out 0; the first value at most 0, the "
     "second at "
     "least 0: degrees EARLIER than stated\n"},
    {"phase range too wide", 31, "phase_range_deg = [-61, 60]",
     "f:31: valves[0].phase_range_deg: spans 121 degrees; at most 120\n"},
    {"bank of no name", 32, "banks = [\"raw\"]",
     "f:22: valves: bank 'row' has no intake valves; a [[valves]] entry of that kind for every bank\n"
     "f:32: valves[0].banks: there is no bank 'raw'; names of [[layout.bank]] entries\n"},
    {"banks empty", 32, "banks = []", "f:32: valves[0].banks: is an empty list; a list of bank names\n"},
    {"no exhaust", 34, "kind = \"intake\"",
     "f:22: valves: bank 'row' has no exhaust valves; a [[valves]] entry of that kind for every bank\n"},
    {"event beside a table", 37, "peak_at_deg = -110\nopens_bbdc_deg = 40",
     "f:38: valves[1].opens_bbdc_deg: is replaced by the lift table; no such key where lift_law = "
     "\"table\"\n"},
    {"clearance beside a table", 37, "peak_at_deg = -110\nclearance_mm = 0.1",
     "f:38: valves[1].clearance_mm: is replaced by the lift table; no such key where lift_law = \"table\"\n"},
    {"peak of no table", 30, "peak_at_deg = 3",
     "f:30: valves[0].peak_at_deg: stands without lift_law = \"table\"; this key only where lift_law = "
     "\"table\"\n"},
    {"table without a peak angle", 37, "",
     "f:33: valves[1].peak_at_deg: is missing; a number of crank degrees, -360 to 360\n"},
    {"row of three", 40, "  [-60, 5, 1],",
     "f:40: valves[1].lift_table[1]: is a list of 3; rows [crank degrees from peak lift, lift in mm], two "
     "numbers each\n"},
    {"row with a word", 40, "  [-60, \"5\"],",
     "f:40: valves[1].lift_table[1][1]: is the text \"5\"; rows [crank degrees from peak lift, lift in mm], "
     "two numbers "
     "each\n"},
    {"row not a number", 40, "  [-60, nan],",
     "f:40: valves[1].lift_table[1][1]: nan is not a finite number; rows [crank degrees from peak lift, lift "
     "in mm], two "
     "numbers each\n"},
    {"rows that turn back", 42, "  [-1, 5],",
     "f:42: valves[1].lift_table[3]: the angle -1 does not rise over 0; strictly rising angles\n"},
    {"row before the peak falls", 40, "  [-60, 5],\n  [-50, 4],",
     "f:41: valves[1].lift_table[2]: the lift falls before the peak; a lift that does not fall up to the row "
     "at 0.0\n"},
    {"last row off the seat", 43, "  [120, 0.5],",
     "f:43: valves[1].lift_table[4]: the lift at the end of the table is 0.5 mm; 0 in the first and the last "
     "row\n"},
    {"no row at the peak", 41, "  [1, 9],",
     "f:38: valves[1].lift_table: has no row at 0.0; a row at 0.0 degrees with the greatest lift\n"},
    {"four rows", 42, "",
     "f:38: valves[1].lift_table: has 4 rows; at least 5 rows [degrees from peak, lift in mm]\n"},
};
INSTANTIATE_TEST_SUITE_P(Valves, Message, testing::ValuesIn(kValves));

}  // namespace
}  // namespace shutlane::test
