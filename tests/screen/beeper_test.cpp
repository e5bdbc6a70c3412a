// The beeps as SDL gives them to the system: its driver that writes a file stands for the sound card, and the
// times are read off that file. What it cannot tell: how late a real card sounds, and that both beeps are
// late alike.
#include <unistd.h>

#include <chrono>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <thread>

#include "ui/window/bump/press_timer.hpp"
#include "ui/window/screen/sdl_beeper.hpp"

namespace shutlane {
namespace {

using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point t) { return std::chrono::duration<double>(Clock::now() - t).count(); }
void sleep_s(double s) { std::this_thread::sleep_for(std::chrono::duration<double>(s)); }

class ToFile : public ::testing::Test {
 protected:
  void SetUp() override {
    file_ = ::testing::TempDir() + "shutlane-beeps-" + std::to_string(getpid()) + ".raw";
    std::filesystem::remove(file_);
    setenv("SDL_AUDIODRIVER", "disk", 1);
    setenv("SDL_DISKAUDIOFILE", file_.c_str(), 1);
  }
  void TearDown() override {
    unsetenv("SDL_AUDIODRIVER");
    unsetenv("SDL_DISKAUDIOFILE");
    std::filesystem::remove(file_);
  }
  std::vector<std::int16_t> written() {
    std::ifstream in(file_, std::ios::binary);
    const std::vector<char> bytes{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
    std::vector<std::int16_t> samples(bytes.size() / 2);
    if (!samples.empty()) std::memcpy(samples.data(), bytes.data(), samples.size() * 2);
    return samples;
  }
  /// First samples after at least 5 ms of silence.
  static std::vector<long> onsets(const std::vector<std::int16_t>& samples) {
    std::vector<long> at;
    long silent = 1000;
    for (size_t i = 0; i < samples.size(); ++i) {
      if (samples[i] != 0 && silent >= 240) at.push_back(static_cast<long>(i));
      silent = samples[i] == 0 ? silent + 1 : 0;
    }
    return at;
  }
  std::string file_;
};

TEST_F(ToFile, TheBeepsLieThePressApart) {
  SdlBeeper beeper;
  const auto began = Clock::now();
  beeper.play(press_sound(0.24));
  EXPECT_LT(seconds_since(began), 0.1) << "the frame goes on";
  std::vector<long> at;  // a busy machine writes late, and may lose the first tick to the opening
  for (int n = 0; n < 100 && at.size() < 5; ++n) {
    sleep_s(n == 0 ? press_times(0.24).over_s : 0.1);
    at = onsets(written());
  }
  ASSERT_GE(at.size(), 3u);
  const std::vector<long> last(at.end() - 3, at.end());
  EXPECT_NEAR(static_cast<double>(last[2] - last[1]), 0.24 * 48000, 2);
  EXPECT_NEAR(static_cast<double>(last[1] - last[0]), 0.7 * 48000, 6);
  // The device may have written some silence before the sound was there.
  EXPECT_LE(last[2], std::lround((press_times(0.24).let_go_s + 0.2) * 48000)) << "what passed is left out";
}

TEST_F(ToFile, StoppedItIsSilentAndTheEndWaitsForNothing) {
  {
    SdlBeeper beeper;
    beeper.play(press_sound(0.24));
    sleep_s(0.8);  // one tick
    beeper.stop();
    sleep_s(0.3);
    EXPECT_LE(onsets(written()).size(), 1u);
    beeper.play(press_sound(5));
    sleep_s(0.1);
  }
  const auto began = Clock::now();
  {
    SdlBeeper beeper;
    beeper.play(press_sound(5));
  }
  EXPECT_LT(seconds_since(began), 2);
}

TEST(NoDevice, IsSilentAndNoError) {
  setenv("SDL_AUDIODRIVER", "there-is-none", 1);
  SdlBeeper beeper;
  beeper.play(press_sound(0.24));
  sleep_s(0.1);
  beeper.stop();
  beeper.play(press_sound(0.24));
  unsetenv("SDL_AUDIODRIVER");
}

}  // namespace
}  // namespace shutlane
