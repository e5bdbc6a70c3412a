#pragma once
// A rest table of one trial a car where the program looks for the whole one: it then takes a moment where it
// would take seconds.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <string>

#include "engines/catalog.hpp"
#include "sim/cranking/rest_table.hpp"
#include "tests/terminal/program.hpp"

namespace shutlane::terminal {

inline CrankingModel model_of(const std::string& name) {
  return std::get<CrankingModel>(cranking_model(std::get<Engine>(find_engine(name))));
}

/// A cache folder that holds a small table of the engine under the name of the whole one.
inline Around with_small_table(const std::string& folder, const std::string& engine,
                               RestTable* kept = nullptr) {
  const std::string cache = scratch_folder(folder);
  std::filesystem::create_directories(cache + "/shutlane");
  const CrankingModel model = model_of(engine);
  RestTableQuestion small;
  small.trials_per_car = 1;
  const RestTable table = *build_rest_table(model, small);
  const auto bytes = to_bytes(table);
  std::ofstream(cache + "/shutlane/rest-" + rest_table_key(model, {}), std::ios::binary)
      .write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
  if (kept) *kept = table;
  return {.env = {{"XDG_CACHE_HOME", cache}}};
}

}  // namespace shutlane::terminal
