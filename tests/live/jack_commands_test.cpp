// Keys while the band plays: what comes out of the JACK server is what the take makes of it again.

#include "live/jack_server.hpp"
#include "live/keyboard.hpp"
#include "live/rendered_take.hpp"

#include <array>
#include <optional>
#include <utility>

using namespace compline;
using tests::down;
using tests::first_other;
using tests::JackServer;
using tests::Key;
using tests::Keyboard;
using tests::rendered;
using tests::up;
using time::Seconds;

namespace {

/// In one take, from its first click on.
const std::array<Key, 20> twenty_more = {
    {{"b", 730}, {down, 190}, {"d", 410}, {down, 610}, {"L", 770},  {"b", 110}, {"d", 530},
     {" ", 910}, {" ", 1390}, {"w", 370}, {up, 290},   {down, 670}, {"l", 910}, {"d", 270},
     {"w", 430}, {"b", 290},  {"b", 350}, {"d", 70},   {up, 610},   {"q", 0}}};

/// An evening with all those keys, and what was heard of it.
struct HeardEvening {
    tests::Ran ran;
    practice::Take take;
    sound::Stereo heard;
    bool disturbed;  ///< frames were lost between the program and who listens
};

HeardEvening play_twenty_more(const std::string& path) {
    const JackServer server({256, 48000, false, true});  // patient: a late program loses no frame
    Keyboard keyboard(path, Seconds(25));
    for (const auto& key : twenty_more) keyboard.type(key.is, key.then_ms);
    auto ran = keyboard.wait();
    INFO(keyboard.seen() << tests::shown(ran));
    REQUIRE(ran.status == 0);
    auto take = tests::load_take(path);
    const bool disturbed = keyboard.player().jumps() > 0;
    return {std::move(ran), std::move(take), keyboard.player().recording(), disturbed};
}

}  // namespace

TEST_CASE("an evening with twenty keys is heard on the server as its take is rendered, every frame",
          "[live]") {
    if (!JackServer::installed()) return;
    const tests::TemporaryFolder folder;
    auto path = folder.file("take.mid").string();
    auto evening = play_twenty_more(path);
    for (const char* again : {"second.mid", "third.mid"}) {
        if (!evening.disturbed) break;
        path = folder.file(again).string();
        evening = play_twenty_more(path);
    }
    INFO(tests::shown(evening.ran));
    REQUIRE_FALSE(evening.disturbed);
    const auto& take = evening.take;
    CHECK(take.info->decisions().size() > 14);
    CHECK(take.info->machine->late_strokes == 0);
    // A bar is counted in; the last notes of who stops are cut off where he stops.
    const auto until = Seconds(0.6) + take.end - Seconds(0.1);
    const auto frames = static_cast<std::size_t>(until.count() * 48000);
    CHECK(frames > std::size_t{8} * 48000);
    CHECK(first_other(evening.heard, rendered(path), frames) == std::nullopt);
}
