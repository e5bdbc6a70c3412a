#pragma once
// The grammar of the command line in CLI11's terms. It collects words only; they are read strictly once it is
// known which verb is meant, so that every number is judged by the same code in every locale.
#include <CLI/CLI.hpp>
#include <functional>
#include <string>
#include <vector>

#include "ui/terminal/verbs.hpp"

namespace shutlane::terminal {

/// Holds what CLI11 writes into, so it must not move.
class Grammar {
 public:
  explicit Grammar(const Style& style);
  Grammar(const Grammar&) = delete;
  Grammar& operator=(const Grammar&) = delete;

  /// `words` without the program's name. Throws BadInput.
  Answer run(std::vector<std::string> words);

 private:
  struct Words {
    std::string engine, file, at, from, done, only, margin, accuracy, shut, open, eye, mark, page, out,
        cylinder, by, press, trials, seed, plugs, went, told, show;
    bool json = false, names = false, forget = false;
  };
  using Act = std::function<Answer()>;
  struct Verb {
    CLI::App* app = nullptr;
    Act act;
  };

  CLI::App& verb(const std::string& name, const std::string& job, const std::string& example, Act act);
  void engine(CLI::App& app);
  void value(CLI::App& app, const char* name, std::string& into, const char* kind, const char* help);
  void flag(CLI::App& app, const char* name, bool& into, const char* help);
  void json(CLI::App& app);
  void margin(CLI::App& app);
  void plan_options(CLI::App& app);
  void look_options(CLI::App& app);

  bool given(const std::string& option) const;
  void read_margin(double& into) const;
  WindowsRequest windows_request() const;
  AtRequest at_request() const;
  PlanRequest plan_request(bool needs_from = true, bool unknown = false) const;
  EnginesRequest engines_request() const;
  LocateRequest locate_request() const;
  NextRequest next_request() const;
  PlanFromLooksRequest plan_from_looks_request() const;
  Looks looks() const;
  PlanByStarterRequest plan_by_starter_request() const;
  BumpRequest bump_request() const;
  LearnRequest learn_request() const;
  Answer plan_answer() const;
  DrawRequest draw_request() const;

  const CLI::App* chosen() const;  ///< the verb that was given, or nullptr
  void refuse_extras(const CLI::App& app) const;
  std::string hint() const;

  CLI::App app_;
  std::vector<Verb> verbs_;
  Words w_;
  Style style_;
};

}  // namespace shutlane::terminal
