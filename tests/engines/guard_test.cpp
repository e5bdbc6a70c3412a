// Text that is no engine file at all: one clear line, quickly, whatever its size or depth.
#include "engines/guard.hpp"

#include <algorithm>
#include <clocale>
#include <locale>

#include "tests/engines/sample.hpp"

namespace shutlane::test {
namespace {

const std::string kWhole = "; an engine file, plain UTF-8 text with format = 1\n";

std::string repeat(const std::string& text, int times) {
  std::string all;
  for (int i = 0; i < times; ++i) all += text;
  return all;
}

size_t line_count(const std::string& text) {
  return static_cast<size_t>(std::count(text.begin(), text.end(), '\n'));
}

TEST(Guard, EmptyFile) { EXPECT_EQ(lines_of(""), "f:1: file: is empty" + kWhole); }

TEST(Guard, NulByteAtItsLine) {
  EXPECT_EQ(lines_of(std::string("format = 1\n\n\0", 13)), "f:3: file: holds a NUL byte" + kWhole);
}

TEST(Guard, BytesThatAreNotUtf8AtTheirLine) {
  EXPECT_EQ(lines_of("format = 1\nname = \"Z\xFCndung\"\n"),
            "f:2: file: holds the byte 0xFC, which is not UTF-8 here" + kWhole);
}

// Unicode 15, table 3-7: overlong forms, surrogates, beyond U+10FFFF and cut sequences are not UTF-8.
TEST(Guard, Utf8IsTheStandardsTable) {
  for (const char* good : {"", "abc", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF", "\xEE\x80\x80",
                           "\xEF\xBF\xBF", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"})
    EXPECT_EQ(first_not_utf8(good), std::string_view::npos) << good;
  for (const char* bad :
       {"\x80", "\xC0\xAF", "\xC1\xBF", "\xC2", "\xC2\x41", "\xE0\x9F\xBF", "\xE0\xA0", "\xED\xA0\x80",
        "\xF0\x8F\xBF\xBF", "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xF0\x90\x80", "\xFF"})
    EXPECT_EQ(first_not_utf8(bad), 0u);
  EXPECT_EQ(first_not_utf8("ab\xC3\xBC\xFF"), 4u);
}

TEST(Guard, TwentyThousandBrackets) {
  EXPECT_EQ(lines_of("a = " + repeat("[", 20000)), "f:1: syntax: brackets nested too deep; TOML 1.0\n");
  EXPECT_EQ(lines_of("a = " + repeat("{a=", 20000)), "f:1: syntax: brackets nested too deep; TOML 1.0\n");
  EXPECT_EQ(line_count(lines_of(repeat("[", 20000))), 1u);
  EXPECT_EQ(line_count(lines_of("\n\nfiring_order = " + repeat("[", 20000) + repeat("]", 20000))), 1u);
}

TEST(Guard, KeysOfManyParts) {
  const std::string line = "f:2: file: holds a key of more than 8 parts" + kWhole;
  EXPECT_EQ(lines_of("format = 1\n" + repeat("a.", 20000) + "a = 1\n"), line);
  EXPECT_EQ(lines_of("format = 1\n[" + repeat("\"a\" . ", 20000) + "a]\n"), line);
  EXPECT_EQ(lines_of("format = 1\nx = {" + repeat("'a'.", 20000) + "a = 1}\n"), line);
  // Dots in texts and comments are no parts.
  EXPECT_EQ(lines_of(with_line(3, "source = \"a.b.c.d.e.f.g.h.i.j.k\" # l.m.n.o.p.q.r.s.t.u.v")), "");
  EXPECT_EQ(lines_of(with_line(3, "source = '''a.b.c.d.'.e.f.g.h.i.j.k'''")), "");
}

TEST(Guard, LineOfThreeMegabytes) {
  EXPECT_EQ(lines_of("name = \"" + std::string(3'000'000, 'x') + "\"\n"),
            "f:1: file: is longer than 1048576 bytes" + kWhole);
  EXPECT_EQ(line_count(lines_of("# " + std::string(3'000'000, ' ') + kSample)), 1u);
}

// As long as a file may be, of the shapes that cost the most. The test's own time limit would tell.
TEST(Guard, LongFilesOfManyMistakes) {
  EXPECT_EQ(line_count(lines_of(repeat("a", 1'000'000) + " = 1")), 7u);
  std::string keys, order = "firing_order = [1", rows = "lift_table = [";
  for (int i = 0; i < 60'000; ++i) keys += "key" + std::to_string(i) + " = 1\n";
  EXPECT_EQ(line_count(lines_of(keys)), 51u);
  order += repeat(",1", 400'000) + "]";
  EXPECT_EQ(lines_of(with_line(10, order)),
            "f:10: layout.firing_order: holds 400001 entries; at most 10000\n");
  rows += repeat("[0,0],", 150'000) + "]\n";
  EXPECT_EQ(line_count(lines_of("[[valves]]\nlift_law = \"table\"\n" + rows)), 9u);
  EXPECT_EQ(line_count(lines_of("[[valves]]\nlift_law = \"table\"\nlift_table = [" + repeat("[0,0],", 9'999) +
                                "]\n")),
            51u);
  EXPECT_EQ(line_count(lines_of(repeat("[[valves]]\n", 90'000))), 6u);
  EXPECT_EQ(line_count(lines_of(repeat("[[valves]]\n", 99))), 51u);
  EXPECT_EQ(line_count(lines_of("[layout]\n" + repeat("[[layout.bank]]\n", 60'000))), 7u);
  EXPECT_EQ(line_count(lines_of("[layout]\n" + repeat("[[layout.bank]]\n", 99))), 51u);
}

TEST(Guard, FloatBeyondDoublesIsOneLine) {
  const std::string text = lines_of(with_line(5, "bore_mm = 1e400"));
  EXPECT_EQ(line_count(text), 1u);
  EXPECT_TRUE(text.starts_with("f:5: syntax: ")) << text;
}

/// Lines that are no TOML: what is said of them is ours, at the right line.
TEST(Guard, SyntaxInOurOwnWords) {
  struct Row {
    const char* line;
    const char* said;
  };
  for (const Row& row : std::vector<Row>{
           {"bore_mm 84", "a key is not followed by =; KEY = VALUE on one line"},
           {"bore_mm =",
            "a value is not written as one; a number, a text in quotes, true, false or a list in brackets"},
           {"bore_mm = 84,5",
            "something follows the value on its line; one KEY = VALUE a line, and a decimal point, no comma, "
            "in numbers"},
           {"bore_mm = 084", "a number begins with 0; a number such as 12.0 or -3"},
           {"bore_mm = \"84", "a text is not closed on its line; a closing quote"},
           {"bore_mm = wide",
            "a value is not written as one; a number, a text in quotes, true, false or a list in "
            "brackets"},
           {"[cylinder", "a section's name is not closed; brackets around a name, such as [cylinder]"},
           {"[cylinder] bore_mm = 84",
            "something follows a section's name on its line; nothing but a # comment"},
           {"x = [1, 2, , 3]", "a list holds two commas in a row; a value between commas"},
           {"x = {a = 1",
            "what stands in { } is not written as it must be; KEY = VALUE with commas between them, on "
            "one line"}})
    EXPECT_EQ(lines_of(std::string("format = 1\n") + row.line + "\n"),
              "f:2: syntax: " + std::string(row.said) + "\n")
        << row.line;
}

/// One byte of a good file changed, left out or doubled: the parser's own words never show.
TEST(Guard, NoByteBringsTheParsersWordsOut) {
  const std::string good = kSample, odd = "[]{}=\"'\\,.#-_0eT:\n \t\x01";
  int syntax = 0;
  for (size_t i = 0; i < good.size(); ++i)
    for (size_t k = 0; k < odd.size() + 2; k += 1 + (i + k) % 3) {
      std::string text = good;
      if (k == odd.size())
        text.erase(i, 1);
      else if (k > odd.size())
        text.insert(i, 1, text[i]);
      else
        text[i] = odd[k];
      const std::string lines = lines_of(text);
      syntax += lines.find(": syntax: ") != std::string::npos;
      for (const char* theirs : {"parsing", "expected", "saw '", "TOML_", "encountered", "prohibited"})
        EXPECT_EQ(lines.find(theirs), std::string::npos) << lines;
    }
  EXPECT_GT(syntax, 1000);
}

/// A locale with a decimal comma and grouped thousands, whether or not the machine has one installed.
struct CommaPoint : std::numpunct<char> {
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\3"; }
};

TEST(Guard, LocaleMakesNoDifference) {
  const auto before = read_engine(kSample);
  const std::string message = lines_of(with_line(5, "bore_mm = 1234.5"));
  const std::locale old_cpp = std::locale::global(std::locale(std::locale::classic(), new CommaPoint));
  const std::string old_c = std::setlocale(LC_ALL, nullptr);
  std::setlocale(LC_ALL, "de_DE.UTF-8");  // where it is installed
  const auto after = read_engine(kSample);
  const std::string written = write_engine(std::get<Engine>(before).spec);
  const std::string message_after = lines_of(with_line(5, "bore_mm = 1234.5"));
  std::setlocale(LC_ALL, old_c.c_str());
  std::locale::global(old_cpp);
  ASSERT_TRUE(std::holds_alternative<Engine>(after));
  EXPECT_EQ(std::get<Engine>(after).spec, std::get<Engine>(before).spec);
  EXPECT_EQ(written, write_engine(std::get<Engine>(before).spec));
  EXPECT_EQ(message_after, message);
  EXPECT_EQ(message, "f:5: cylinder.bore_mm: 1234.5 is out of range; a number of mm, 5 to 1000\n");
}

}  // namespace
}  // namespace shutlane::test
