#include "ui/drawings/text.hpp"

#include "tests/drawings/page_record.hpp"

namespace shutlane {
namespace {

TEST(Text, PlainTextIsValidUtf8OnOneLine) {
  EXPECT_EQ(plain_text("35° ± 5° → ✓"), "35° ± 5° → ✓");
  EXPECT_EQ(plain_text("a\nb\tc\x7f"), "a b c ");
  EXPECT_EQ(plain_text("\xc2\x85"), " ") << "a C1 control";
  EXPECT_EQ(plain_text("x\xff\xfey"), "x??y");
  EXPECT_EQ(plain_text("\xc0\xaf"), "??") << "overlong";
  EXPECT_EQ(plain_text("\xed\xa0\x80"), "???") << "a surrogate";
  EXPECT_EQ(plain_text("\xf4\x90\x80\x80"), "????") << "beyond the last character";
  EXPECT_EQ(plain_text("\xe2\x82"), "??") << "cut short";
}

TEST(Text, FittedKeepsWithinTheWidth) {
  PageRecord canvas;
  EXPECT_EQ(fitted(canvas, "short", 100, 4), "short");
  const std::string cut = fitted(canvas, "90° of a name that is too long", 30, 4);
  EXPECT_TRUE(cut.ends_with("…")) << cut;
  EXPECT_LE(canvas.text_width(cut, 4, Weight::regular), 30);
  EXPECT_EQ(fitted(canvas, "anything", 0.1, 4), "");
  EXPECT_EQ(plain_text(fitted(canvas, "°°°°°°°°°°°°", 9, 4)), fitted(canvas, "°°°°°°°°°°°°", 9, 4))
      << "never cut inside a character";
}

TEST(Text, WrappedLosesNoWordAndKeepsWithinTheWidth) {
  PageRecord canvas;
  const std::string words = "Suck out ports 1, 2, 4 and 5; take everything out of every port.";
  std::string joined;
  for (const std::string& line : wrapped(canvas, words, 40, 4)) {
    EXPECT_LE(canvas.text_width(line, 4, Weight::regular), 40);
    joined += (joined.empty() ? "" : " ") + line;
  }
  EXPECT_EQ(joined, words);
  EXPECT_GT(wrapped(canvas, words, 40, 4).size(), 2u);
}

TEST(Text, EveryCharacterWeWriteIsInBothFonts) {
  // A missing character comes out as .notdef, all of one width; a private-use character shows which.
  const double missing[] = {paper_text_width("\ue123", 1), paper_text_width("\ue123", 1, Weight::bold)};
  for (const char* c : {"°", "±", "²", "³", "µ", "×", "·", "Δ", "φ", "←", "↑", "→", "↓", "≤",
                        "≥", "✓", "✗", "⚠", "▲", "◀", "▶", "“", "”", "’", "–", "—", "…"}) {
    EXPECT_NE(paper_text_width(c, 1), missing[0]) << c;
    EXPECT_NE(paper_text_width(c, 1, Weight::bold), missing[1]) << c;
  }
}

}  // namespace
}  // namespace shutlane
