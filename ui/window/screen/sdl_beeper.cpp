#include "ui/window/screen/sdl_beeper.hpp"

#include <SDL.h>

#include <utility>

namespace shutlane {
namespace {

constexpr Uint16 kDeviceSamples = 512;  // a hundredth of a second

}  // namespace

SdlBeeper::~SdlBeeper() {
  {
    const std::lock_guard lock(mutex_);
    ending_ = true;
    ++count_;
  }
  changed_.notify_one();
  if (thread_.joinable()) thread_.join();
}

void SdlBeeper::play(PressSound sound) {
  {
    const std::lock_guard lock(mutex_);
    waiting_ = std::move(sound);
    began_ = Clock::now();
    ++count_;
  }
  if (!thread_.joinable()) thread_ = std::thread([this] { run(); });
  changed_.notify_one();
}

void SdlBeeper::stop() {
  {
    const std::lock_guard lock(mutex_);
    waiting_.reset();
    ++count_;
  }
  changed_.notify_one();
}

void SdlBeeper::run() {
  std::unique_lock lock(mutex_);
  while (true) {
    changed_.wait(lock, [this] { return ending_ || waiting_; });
    if (ending_) return;
    const PressSound sound = std::move(*std::exchange(waiting_, std::nullopt));
    const Clock::time_point began = began_;
    const unsigned count = count_;
    lock.unlock();
    sound_out(sound, began, count);
    lock.lock();
  }
}

/// False when something else is wanted meanwhile.
bool SdlBeeper::wait_while_current(double seconds, unsigned count) {
  std::unique_lock lock(mutex_);
  return !changed_.wait_for(lock, std::chrono::duration<double>(seconds),
                            [&] { return ending_ || count_ != count; });
}

void SdlBeeper::sound_out(const PressSound& sound, Clock::time_point began, unsigned count) {
  if (SDL_InitSubSystem(SDL_INIT_AUDIO) != 0) return;
  SDL_AudioSpec wanted{}, got{};
  wanted.freq = sound.rate_hz;
  wanted.format = AUDIO_S16SYS;
  wanted.channels = 1;
  wanted.samples = kDeviceSamples;
  const bool none = SDL_GetNumAudioDevices(0) == 0;  // opening one that is not there prints complaints
  const SDL_AudioDeviceID device = none ? 0 : SDL_OpenAudioDevice(nullptr, 0, &wanted, &got, 0);
  if (device != 0) {
    const double late_s = std::chrono::duration<double>(Clock::now() - began).count();
    const auto skip = static_cast<size_t>(late_s * sound.rate_hz);
    // The second beep without the first would only mislead.
    if (skip < sound.press_at && wait_while_current(0, count)) {
      const size_t left = sound.samples.size() - skip;
      SDL_QueueAudio(device, sound.samples.data() + skip, static_cast<Uint32>(left * sizeof(std::int16_t)));
      SDL_PauseAudioDevice(device, 0);
      constexpr double kDeviceTail_s = 0.2;  // what the system still holds when the queue is empty
      wait_while_current(static_cast<double>(left) / sound.rate_hz + kDeviceTail_s, count);
    }
    SDL_CloseAudioDevice(device);
  }
  SDL_QuitSubSystem(SDL_INIT_AUDIO);
}

}  // namespace shutlane
