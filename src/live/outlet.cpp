#include <compline/live/outlet.hpp>

#include <thread>

namespace compline::live {

void Outlet::pull() noexcept {
    playback_.store(nullptr);
    while (in_use_.load()) std::this_thread::yield();
}

bool Outlet::play(float* left, float* right, int frames, bool interrupted) noexcept {
    in_use_.store(true);
    Playback* const playback = playback_.load();
    if (playback != nullptr) playback->play(left, right, frames, interrupted);
    in_use_.store(false);
    return playback != nullptr;
}

}  // namespace compline::live
