#include "../../src/live/quiet_stderr.hpp"
#include "live/jack_server.hpp"
#include "live/stderr_catcher.hpp"
#include "support/catch.hpp"

#include <compline/live/devices.hpp>

#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <thread>

using namespace compline::live;
using compline::tests::JackServer;
using compline::tests::StderrCatcher;

namespace {

/// A server needs a moment to come up, and a port to show; ten seconds are plenty on a busy
/// machine.
bool comes_true(const std::function<bool()>& condition) {
    const auto deadline = std::chrono::steady_clock::now() + std::chrono::seconds(10);
    while (!condition()) {
        if (std::chrono::steady_clock::now() > deadline) return false;
        std::this_thread::sleep_for(std::chrono::milliseconds(50));
    }
    return true;
}

template <class Device>
const Device* device_named(const std::vector<Device>& devices, const std::string& api,
                           const std::string& part_of_name) {
    const auto at = std::find_if(devices.begin(), devices.end(), [&](const Device& device) {
        return device.api == api && device.name.find(part_of_name) != std::string::npos;
    });
    return at == devices.end() ? nullptr : &*at;
}

/// Each API either has devices or says why not, and is called by one name.
template <class Listing>
void check_every_api_answers(const Listing& listing) {
    CHECK(listing.found.size() + listing.empty.size() > 0);
    for (const EmptyApi& api : listing.empty) {
        INFO(api.api << ": " << api.reason);
        CHECK_FALSE(api.api.empty());
        CHECK_FALSE(api.reason.empty());
        CHECK(api.reason.find('\n') == std::string::npos);
        CHECK(device_named(listing.found, api.api, "") == nullptr);
    }
}

void check_default_is_one_an_api(const AudioOutputs& outputs) {
    for (const AudioOutput& output : outputs.found) {
        CHECK(output.channels >= 1);
        const auto defaults = std::count_if(
            outputs.found.begin(), outputs.found.end(),
            [&](const AudioOutput& o) { return o.api == output.api && o.is_default; });
        CHECK(defaults <= 1);
    }
}

}  // namespace

TEST_CASE("every audio API lists its outputs or says why it has none", "[live]") {
    const AudioOutputs outputs = audio_outputs();
    check_every_api_answers(outputs);
    check_default_is_one_an_api(outputs);
}

TEST_CASE("every MIDI API lists its inputs or says why it has none", "[live]") {
    check_every_api_answers(midi_inputs());
}

TEST_CASE("looking for devices writes nothing to stderr and leaves it open", "[live]") {
    const StderrCatcher caught;
    (void)audio_outputs();
    (void)midi_inputs();
    const std::string chatter = caught.text();
    const std::string after = "still here\n";
    const auto written = ::write(STDERR_FILENO, after.data(), after.size());
    CHECK(chatter.empty());
    CHECK(written == static_cast<ssize_t>(after.size()));
    CHECK(caught.text() == after);
}

TEST_CASE("with stderr closed no message lands in a file that a library opens meanwhile",
          "[live]") {
    const int kept = ::dup(STDERR_FILENO);
    ::close(STDERR_FILENO);
    std::string target;
    {
        const QuietStderr quiet;
        target = std::filesystem::read_symlink("/proc/self/fd/2").string();
    }
    const bool closed = ::dup(STDERR_FILENO) < 0;
    ::dup2(kept, STDERR_FILENO);
    ::close(kept);
    CHECK(target == "/dev/null");
    CHECK(closed);
}

TEST_CASE("without a JACK server JACK says that none is running", "[live]") {
    ::setenv("JACK_DEFAULT_SERVER", "compline-test-no-such-server", 1);
    const AudioOutputs outputs = audio_outputs();
    const MidiInputs inputs = midi_inputs();
    ::unsetenv("JACK_DEFAULT_SERVER");
    const auto says_so = [](const EmptyApi& api) {
        return api.api == "JACK" && api.reason.find("no JACK server is running") == 0;
    };
    CHECK(std::any_of(outputs.empty.begin(), outputs.empty.end(), says_so));
    CHECK(std::any_of(inputs.empty.begin(), inputs.empty.end(), says_so));
}

TEST_CASE("a JACK server's output is listed with its channels and rate", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    AudioOutputs outputs;
    const bool listed = comes_true([&] {
        outputs = audio_outputs();
        return device_named(outputs.found, "JACK", "") != nullptr;
    });
    INFO(server.log());
    REQUIRE(listed);
    const AudioOutput* output = device_named(outputs.found, "JACK", "system");
    REQUIRE(output != nullptr);
    CHECK(output->channels == 2);  // what jackd's dummy driver has unless told otherwise
    REQUIRE(output->rate.has_value());
    CHECK(output->rate->hz() == 48000);
    CHECK(output->is_default);
}
