#include "realtime/forbidden.hpp"
#include "support/catch.hpp"

#include <compline/live/outlet.hpp>
#include <compline/live/playback.hpp>

#include <vector>

using namespace compline;
using tests::RealtimeGuard;
using tests::take_forbidden;

namespace {

/// A device that numbers its frames from somewhere near the end of its counter.
class CountingDevice : public live::DeviceClock {
  public:
    std::uint32_t at = 0xFFFFFF00;
    [[nodiscard]] std::uint32_t frame() const noexcept override { return at; }
};

}  // namespace

TEST_CASE(
    "the audio callback as a whole waits for nothing, also when nobody reads its stamps, "
    "nor what it heard") {
    const sound::Bank bank(time::SampleRate(48000));
    CountingDevice device;
    live::SoundEar ear(bank.rate());
    live::Playback playback(bank, &device, live::steady_clock(), &ear);
    live::Outlet outlet;
    std::vector<float> left(64);
    std::vector<float> right(64);
    const std::vector<float> heard(64, 0.25F);
    (void)take_forbidden();
    constexpr int blocks = 10000;  // more than the queue of stamps holds
    bool silent = false;
    {
        const RealtimeGuard guard;
        silent = !outlet.run({left.data(), right.data(), 64, heard.data()});
        outlet.plug(playback);
        for (int block = 0; block < blocks; ++block) {
            if (block % 5 == 0) {
                playback.mixer().push({playback.made() + time::Frames(70), sound::Cue::never,
                                       sound::ride, 0.5F, 0.1F});
            }
            if (block % 1000 == 999) playback.mixer().start_over();
            outlet.run({left.data(), right.data(), 64, heard.data(), 0, block % 100 == 0});
            device.at += 64;
        }
    }
    const auto calls = take_forbidden();
    INFO(calls.text());
    CHECK(calls.total() == 0);
    CHECK(silent);  // while nothing was plugged in
    CHECK(playback.made() == time::Frames(64 * blocks));
    CHECK(playback.worst() > time::Seconds(0));

    time::Stamp stamp;
    REQUIRE(playback.read(stamp));
    CHECK(stamp.first == time::Frames(0));
    CHECK(stamp.device_frame == 0xFFFFFF00);
    CHECK(stamp.interrupted);
    REQUIRE(playback.read(stamp));
    CHECK(stamp.first == time::Frames(64));
    CHECK(stamp.device_frame == 0xFFFFFF40);
    CHECK_FALSE(stamp.interrupted);

    live::SoundEar::SoundPiece piece;
    REQUIRE(ear.read(piece));
    CHECK(piece.first == time::Frames(0));
    CHECK(piece.count == 64);
    CHECK(piece.samples[63] == 0.25F);
    REQUIRE(ear.read(piece));
    CHECK(piece.first == time::Frames(64));
    CHECK(ear.dropped() > 0);
}
