#include <compline/live/clock.hpp>

#include <chrono>

namespace compline::live {

namespace {

class SteadyClock final : public Clock {
  public:
    [[nodiscard]] time::Instant now() const noexcept override {
        const auto since_start = std::chrono::steady_clock::now().time_since_epoch();
        return time::Instant(
            std::chrono::duration_cast<std::chrono::nanoseconds>(since_start).count());
    }

    void wait(std::condition_variable& notified, std::unique_lock<std::mutex>& lock,
              time::Seconds at_most) override {
        notified.wait_for(lock, std::chrono::duration<double>(at_most.count()));
    }
};

}  // namespace

Clock& steady_clock() {
    static SteadyClock clock;
    return clock;
}

}  // namespace compline::live
