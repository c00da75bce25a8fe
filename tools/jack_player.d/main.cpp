// The program of tools/jack_player: a take in, exact MIDI out, and what was heard into a WAV file.
// Status 0: all sent. 1: it could not (no server, no click, messages late). 2: bad usage or take.
#include "arguments.hpp"
#include "jack_player.hpp"
#include "take_script.hpp"

#include <compline/sound/wav.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <cstdio>
#include <exception>
#include <functional>
#include <optional>
#include <stdexcept>
#include <string>
#include <thread>

using namespace compline;

namespace {

constexpr time::Seconds after_take(1);

volatile std::sig_atomic_t interrupted = 0;

void say(const std::string& text) { fmt::print(stderr, "jack_player: {}\n", text); }

/// False: interrupted, or the server is gone, or it did not come true in time.
bool comes_true(const jack::JackPlayer& player, time::Seconds longest,
                const std::function<bool()>& condition) {
    using Clock = std::chrono::steady_clock;
    const auto deadline = Clock::now() + std::chrono::duration<double>(longest.count());
    while (!condition()) {
        if (interrupted != 0 || player.server_gone() || Clock::now() > deadline) return false;
        std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
    return true;
}

[[noreturn]] void give_up(const jack::JackPlayer& player, const std::string& what) {
    if (interrupted != 0) throw std::runtime_error("interrupted");
    if (player.server_gone()) throw std::runtime_error("the JACK server is gone");
    throw std::runtime_error(what);
}

/// A take's length is what the file says: it may be years.
time::Seconds length_of(const jack::Arguments& asked, const jack::LoadedTake& loaded) {
    if (asked.length) return *asked.length;
    const auto length = asked.count_in.value_or(loaded.lead) + loaded.take.end + after_take;
    if (length <= jack::longest) return length;
    throw text::BadInput(
        fmt::format("{}: the take is {:.0f} s long; say by --seconds how much of it to play",
                    asked.take, loaded.take.end.count()));
}

void connect(jack::JackPlayer& player, const jack::Arguments& asked) {
    if (!asked.from.empty() && !comes_true(player, asked.patience, [&] {
            return player.connect_inputs_from(asked.from);
        })) {
        give_up(player, fmt::format("no audio output has '{}' in its name", asked.from));
    }
    if (!asked.to.empty() &&
        !comes_true(player, asked.patience, [&] { return player.connect_strings_to(asked.to); })) {
        give_up(player, fmt::format("no MIDI input has '{}' in its name", asked.to));
    }
}

/// Interrupted or with the server gone, what there is so far is kept.
void listen(const jack::JackPlayer& player, const jack::Arguments& asked, time::Seconds length) {
    say("waiting for the first click");
    if (!comes_true(player, asked.patience, [&] { return player.clicked(); })) {
        give_up(player, fmt::format("no click came in {} s", asked.patience.count()));
    }
    say(fmt::format("playing and recording for {:.1f} s", length.count()));
    const auto longest = length + length + time::Seconds(10);
    (void)comes_true(player, longest, [&] { return player.all_recorded(); });
}

void save(const jack::JackPlayer& player, sound::WavWriter& file) {
    const auto heard = player.recording();
    file.write(heard.left.data(), heard.right.data(), heard.left.size());
    file.commit();
}

int sum_up(const jack::JackPlayer& player, std::size_t messages) {
    fmt::print(
        "sent {} of {}, late {}, unfit {}, xruns {}, jumps {}, recorded {} frames at {} Hz\n",
        player.sent(), messages, player.late(), player.unfit(), player.xruns(), player.jumps(),
        player.recorded(), player.rate().hz());
    if (player.server_gone()) say("the JACK server is gone; it ended early");
    if (player.late() > 0) say("late messages are before the first click: is --count-in right?");
    const bool all = player.sent() == messages;
    if (!all) say("not all messages were sent");
    return all && !player.server_gone() ? 0 : 1;
}

jack::PlayerOptions options_of(const jack::Arguments& asked, time::Seconds length) {
    jack::PlayerOptions options;
    options.name = asked.name;
    options.room = length;
    return options;
}

int play(const jack::Arguments& asked) {
    const auto loaded = jack::load_take(asked.take);
    const auto length = length_of(asked, loaded);
    jack::JackPlayer player(options_of(asked, length));
    std::optional<sound::WavWriter> file;
    sound::WavFormat format;
    format.existing = files::Existing::replace;
    if (!asked.record.empty()) file.emplace(asked.record, player.rate(), format);
    player.start(jack::script_of(loaded.take, asked.count_in.value_or(loaded.lead), player.rate()));
    connect(player, asked);
    listen(player, asked, length);
    player.disappear();
    if (file) save(player, *file);
    return sum_up(player, loaded.take.messages.size());
}

}  // namespace

int main(int argc, char** argv) {
    int status = 0;
    const auto asked = jack::read_arguments(argc, argv, status);
    if (!asked) return status;
    // libjack's own chatter; what matters is said by us.
    ::jack_set_error_function([](const char*) {});
    ::jack_set_info_function([](const char*) {});
    std::signal(SIGINT, [](int) { interrupted = 1; });
    try {
        return play(*asked);
    } catch (const text::BadInput& error) {
        say(error.what());
        return 2;
    } catch (const std::exception& error) {
        say(error.what());
        return 1;
    }
}
