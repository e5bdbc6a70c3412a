// Help, man page and completions name the same verbs and options; the man page is sound; the completions
// work.
#ifdef __GNUC__  // GCC 12 with sanitizers finds std::regex's own functions uninitialized (its bug 105562)
#pragma GCC diagnostic ignored "-Wmaybe-uninitialized"
#endif
#include <algorithm>
#include <map>
#include <regex>
#include <set>

#include "tests/terminal/program.hpp"

namespace shutlane::terminal {
namespace {

using Names = std::set<std::string>;

const std::string kShare = std::string(SHUTLANE_SOURCE) + "/assets/share/";
const std::string kMan = kShare + "man/man1/shutlane.1";
const std::string kBash = kShare + "bash-completion/completions/shutlane";
const std::string kZshFolder = kShare + "zsh/site-functions";

Names all_matches(const std::string& text, const std::string& pattern) {
  const std::regex wanted(pattern, std::regex::multiline);
  Names found;
  for (std::sregex_iterator it(text.begin(), text.end(), wanted), end; it != end; ++it)
    found.insert((*it)[1]);
  return found;
}

Names verbs_of_help() {
  const std::string help = shutlane({"--help"}).out;
  const size_t verbs = help.find("\nVerbs:\n");
  return all_matches(help.substr(verbs, help.find("\n\n", verbs + 1) - verbs), "^  ([a-z]+) ");
}

Names options_of_help(const std::string& verb) {
  return all_matches(shutlane({verb, "--help"}).out, "^  (?:-h,)?(--[a-z-]+)");
}

std::map<std::string, Names> options_of_man() {
  std::map<std::string, Names> options;
  std::string verb;
  const std::string man = text_of_file(kMan);
  const size_t begin = man.find(".Sh SYNOPSIS"), end = man.find(".Sh DESCRIPTION");
  for (const std::string& line : lines_of(man.substr(begin, end - begin))) {
    std::smatch match;
    if (std::regex_match(line, match, std::regex("\\.Cm ([a-z]+)"))) verb = match[1];
    if (std::regex_search(line, match, std::regex("Fl -([a-z-]+)")) && !verb.empty()) {
      options[verb].insert("--" + match[1].str());
    }
    if (line == ".Nm") verb.clear();
  }
  return options;
}

/// What bash offers for the last of the words.
Names bash_offers(const std::string& words) {
  const std::string script = "source " + kBash + "; COMP_WORDS=(" + words +
                             "); COMP_CWORD=$((${#COMP_WORDS[@]} - 1));" +
                             " _shutlane; printf '%s\\n' \"${COMPREPLY[@]}\"";
  const Ran ran = run_command({"bash", "-u", "-c", script});
  EXPECT_EQ(ran.err, "") << words;
  Names offers;
  for (const std::string& line : lines_of(ran.out)) {
    if (!line.empty()) offers.insert(line);
  }
  return offers;
}

TEST(Agree, EveryVerbHasHelpWithAnExampleThatRuns) {
  ASSERT_GE(verbs_of_help().size(), 6u);
  for (const std::string& verb : verbs_of_help()) {
    const std::string help = shutlane({verb, "--help"}).out;
    std::smatch example;
    ASSERT_TRUE(std::regex_search(help, example, std::regex("Example: shutlane ([^\n]*)"))) << verb;
    const std::string words = example[1];
    EXPECT_TRUE(words.starts_with(verb)) << words;
    if (verb == "check") continue;  // its example is a file of the reader's own
    const Ran ran = run_command({"bash", "-c", std::string(SHUTLANE_PROGRAM) + " " + words},
                                {.folder = scratch_folder("example")});
    EXPECT_EQ(ran.status, 0) << words << ran.err;
  }
}

TEST(Agree, ManPageNamesTheOptionsOfTheHelp) {
  const auto man = options_of_man();
  for (const std::string& verb : verbs_of_help()) {
    Names help = options_of_help(verb);
    EXPECT_EQ(help.erase("--help"), 1u) << verb;
    ASSERT_TRUE(man.contains(verb)) << verb;
    EXPECT_EQ(man.at(verb), help) << verb;
  }
  EXPECT_EQ(man.size(), verbs_of_help().size());
  Names described = all_matches(text_of_file(kMan), "^\\.It Fl (?:h , Fl )?-([a-z-]+)");
  for (const auto& [verb, options] : man) {
    for (const std::string& option : options) EXPECT_TRUE(described.contains(option.substr(2))) << option;
  }
}

TEST(Agree, ManPageIsSound) {
  const Ran ran = run_command({"mandoc", "-Tlint", "-Wall", kMan});
  if (ran.status == 127) GTEST_SKIP() << "mandoc is not installed";
  EXPECT_EQ(ran.status, 0) << ran.out << ran.err;
}

TEST(Agree, BashOffersTheVerbsAndOptionsOfTheHelp) {
  Names verbs = verbs_of_help();
  verbs.insert({"--help", "--version"});
  EXPECT_EQ(bash_offers("shutlane ''"), verbs);
  for (const std::string& verb : verbs_of_help()) {
    EXPECT_EQ(bash_offers("shutlane " + verb + " --"), options_of_help(verb)) << verb;
  }
}

TEST(Agree, BashOffersEnginesWhereAnEngineStands) {
  const std::vector<std::string> names = engine_names();
  ASSERT_FALSE(names.empty());
  const std::string program = SHUTLANE_PROGRAM;
  const Names offers = bash_offers(program + " plan ''");
  for (const std::string& name : names) EXPECT_TRUE(offers.contains(name)) << name;
  EXPECT_TRUE(bash_offers(program + " plan --from 35 inline-s").contains("inline-six"));
  EXPECT_TRUE(bash_offers(program + " plan inline-six --from ''").empty());
  EXPECT_TRUE(bash_offers(program + " engines --show inline-s").contains("inline-six"));
  EXPECT_EQ(bash_offers(program + " draw inline-six l"), (Names{"lanes", "lift"}));
}

TEST(Agree, ZshOffersTheVerbsAndOptionsOfTheHelp) {
  if (run_command({"zsh", "-c", "true"}).status == 127) GTEST_SKIP() << "zsh is not installed";
  // The functions of zsh's own completion system are replaced by ones that print what they are given.
  const auto offers = [](const std::string& words) {
    const std::string script =
        "fpath=(" + kZshFolder +
        " $fpath); _describe() { print -l -- ${(P)4} }; _arguments() { print -l -- \"$@\" };"
        " autoload -Uz _shutlane; words=(" +
        words + "); CURRENT=${#words}; _shutlane";
    const Ran ran = run_command({"zsh", "-f", "-c", script});
    EXPECT_EQ(ran.err, "") << words;
    return ran.out;
  };
  Names verbs = all_matches(offers("shutlane ''"), "^([a-z]+):");
  EXPECT_EQ(verbs, verbs_of_help());
  for (const std::string& verb : verbs_of_help()) {
    EXPECT_EQ(all_matches(offers("shutlane " + verb + " --"), "^(?:\\([^)]*\\))?(--[a-z-]+)"),
              options_of_help(verb))
        << verb;
  }
}

TEST(Agree, VersionStandsInTheBuildAlone) {
  EXPECT_EQ(shutlane({"--version"}).out, std::string("shutlane ") + SHUTLANE_VERSION + "\n");
  EXPECT_EQ(text_of_file(kMan).find(SHUTLANE_VERSION), std::string::npos);
}

}  // namespace
}  // namespace shutlane::terminal
