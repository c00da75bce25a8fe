#include "jack_player.hpp"

#include "live/jack_server.hpp"
#include "support/catch.hpp"
#include "support/command.hpp"
#include "support/forms.hpp"
#include "support/temporary_folder.hpp"

#include <compline/files/file_io.hpp>
#include <compline/live/devices.hpp>
#include <compline/midi/smf.hpp>
#include <compline/practice/take.hpp>
#include <compline/sound/wav.hpp>

#include <RtAudio.h>
#include <fmt/format.h>
#include <jack/midiport.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <thread>
#include <vector>

using namespace compline;
using compline::jack::JackError;
using compline::jack::JackPlayer;
using compline::jack::PlayerOptions;
using compline::jack::ScriptedMessage;
using compline::tests::JackServer;
using compline::tests::TemporaryFolder;

namespace {

constexpr time::Seconds plenty(10);  // a busy machine may need long; a quick one is not held up

bool comes_true(const std::function<bool()>& condition) {
    for (int tries = 0; tries < 1000; ++tries) {
        if (condition()) return true;
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
    return false;
}

/// What the click sounds like from its first sample on: whole periods of it are silent, and so is
/// one sample in three.
float click_sound(std::int64_t k) {
    const bool silent = k < 0 || k % 3 == 2 || (k > 2000 && k < 5000);
    return silent ? 0.0F : 0.9F - 0.0001F * static_cast<float>(k % 7000);
}

struct Received {
    std::int64_t frame;  ///< from the first sample of the click
    midi::Message message;
};

/// Stands for the program that the player plays to: it clicks, and knows by its own count of frames
/// when each message came. Before the click it hisses, 66 dB below full scale.
class Band {
  public:
    explicit Band(const JackServer& server) {
        received_.reserve(20'000);
        client_ = ::jack_client_open("band", jack_options_t(JackNoStartServer | JackServerName),
                                     nullptr, server.name().c_str());
        REQUIRE(client_ != nullptr);
        left_ = port("left", JACK_DEFAULT_AUDIO_TYPE, JackPortIsOutput);
        right_ = port("right", JACK_DEFAULT_AUDIO_TYPE, JackPortIsOutput);
        ears_ = port("ears", JACK_DEFAULT_MIDI_TYPE, JackPortIsInput);
        ::jack_set_process_callback(client_, process, this);
        REQUIRE(::jack_activate(client_) == 0);
    }
    ~Band() { close(); }
    Band(const Band&) = delete;
    Band& operator=(const Band&) = delete;

    /// Once somebody hears it, in the middle of a cycle.
    void click() { armed_ = true; }
    /// Takes far too long over its next cycle.
    void stall() { stalling_ = true; }
    [[nodiscard]] bool sees(const std::string& name) const {
        return ::jack_port_by_name(client_, name.c_str()) != nullptr;
    }
    /// All that came; ends the band.
    std::vector<Received> received() {
        close();
        return received_;
    }

  private:
    jack_port_t* port(const char* name, const char* type, unsigned long direction) {
        return ::jack_port_register(client_, name, type, direction, 0);
    }
    void close() {
        if (client_ != nullptr) ::jack_client_close(client_);
        client_ = nullptr;
    }

    static int process(jack_nframes_t frames, void* band) {
        static_cast<Band*>(band)->run_cycle(frames);
        return 0;
    }
    void run_cycle(jack_nframes_t frames) {
        if (stalling_.exchange(false)) ::usleep(100'000);
        if (click_at_ < 0 && armed_ && ::jack_port_connected(left_) > 0) click_at_ = now_ + 1111;
        play(frames);
        hear(frames);
        now_ += frames;
    }
    void play(jack_nframes_t frames) {
        auto* left = static_cast<float*>(::jack_port_get_buffer(left_, frames));
        auto* right = static_cast<float*>(::jack_port_get_buffer(right_, frames));
        for (jack_nframes_t i = 0; i < frames; ++i) {
            const bool before = click_at_ < 0 || now_ + i < click_at_;
            left[i] = before ? 0.0005F : click_sound(now_ + i - click_at_);
            right[i] = left[i] / -2;
        }
    }
    void hear(jack_nframes_t frames) {
        void* buffer = ::jack_port_get_buffer(ears_, frames);
        const auto count = ::jack_midi_get_event_count(buffer);
        for (std::uint32_t i = 0; i < count && received_.size() < received_.capacity(); ++i) {
            jack_midi_event_t event{};
            ::jack_midi_event_get(&event, buffer, i);
            received_.push_back({now_ + event.time - click_at_,
                                 {event.buffer[0], event.buffer[1],
                                  event.size > 2 ? event.buffer[2] : std::uint8_t{0}}});
        }
    }

    jack_client_t* client_ = nullptr;
    jack_port_t* left_ = nullptr;
    jack_port_t* right_ = nullptr;
    jack_port_t* ears_ = nullptr;
    std::atomic<bool> armed_ = false;
    std::atomic<bool> stalling_ = false;
    std::int64_t now_ = 0;
    std::int64_t click_at_ = -1;
    std::vector<Received> received_;
};

PlayerOptions named(const std::string& name, const JackServer& server) {
    PlayerOptions options;
    options.name = name;
    options.server = server.name();
    options.room = time::Seconds(3);
    return options;
}

PlayerOptions by_environment() {
    PlayerOptions options;
    options.name = "no server named";
    return options;
}

enum class First { hears, is_heard };

/// What came of a script that a player played to the band.
struct Outcome {
    bool undisturbed = false;  ///< no cycle was lost
    std::size_t sent = 0;
    std::size_t late = 0;
    std::size_t unfit = 0;
    std::vector<std::int64_t> sent_frames;
    sound::Stereo recording;
    std::vector<Received> received;
};

Outcome play(const JackServer& server, const std::vector<ScriptedMessage>& script,
             First first = First::is_heard, time::Seconds length = time::Seconds(0)) {
    Band band(server);
    JackPlayer player(named("player", server));
    player.start(script);
    if (first == First::is_heard) CHECK(player.connect_strings_to("band:ears"));
    CHECK(player.connect_inputs_from("band:"));
    if (first == First::hears) CHECK(player.connect_strings_to("band:ears"));
    const auto troubles = [&player] { return player.xruns() + player.jumps(); };
    const int before = troubles();
    band.click();
    CHECK(player.wait_for_click(plenty));
    CHECK(player.wait_until_sent(plenty));
    CHECK(player.wait_until_recorded(length, plenty));
    const bool undisturbed = troubles() == before;
    return {undisturbed,          player.sent(),      player.late(),  player.unfit(),
            player.sent_frames(), player.recording(), band.received()};
}

std::vector<ScriptedMessage> note_ons(const std::vector<std::int64_t>& frames) {
    std::vector<ScriptedMessage> script;
    script.reserve(frames.size());
    for (std::size_t i = 0; i < frames.size(); ++i) {
        script.push_back(
            {frames[i], midi::note_on(1 + static_cast<int>(i % 6), static_cast<int>(i % 128), 80)});
    }
    return script;
}

std::vector<std::int64_t> frames_of(const std::vector<ScriptedMessage>& script) {
    std::vector<std::int64_t> frames;
    frames.reserve(script.size());
    for (const auto& message : script) frames.push_back(message.frame);
    return frames;
}

/// One message a period, each further into it than the one before, to its end.
std::vector<ScriptedMessage> spread_over_period(int period) {
    std::vector<std::int64_t> frames;
    frames.reserve(100);
    for (int i = 0; i < 100; ++i) frames.push_back(1000 + i * period + i * period / 100);
    return note_ons(frames);
}

/// All samples are the click's own, silent ones too.
std::string wrong_samples(const sound::Stereo& recording) {
    for (std::size_t i = 0; i < recording.left.size(); ++i) {
        const float sound = click_sound(static_cast<std::int64_t>(i));
        if (recording.left[i] != sound || recording.right[i] != sound / -2) {
            return fmt::format("sample {} is {}, not {}; ", i, recording.left[i], sound);
        }
    }
    return "";
}

/// All messages came, as they were sent, and each as many frames later: 0 or a period.
std::string wrong_messages(const std::vector<Received>& received,
                           const std::vector<ScriptedMessage>& script) {
    if (received.size() != script.size()) return fmt::format("{} came; ", received.size());
    const auto shift = received.empty() ? 0 : received[0].frame - script[0].frame;
    if (shift != 0 && shift != 256) return fmt::format("shifted by {} frames; ", shift);
    for (std::size_t i = 0; i < script.size(); ++i) {
        const auto off = received[i].frame - script[i].frame - shift;
        if (off != 0) return fmt::format("message {} is off by {} frames; ", i, off);
        if (received[i].message != script[i].message)
            return fmt::format("message {} is another; ", i);
    }
    return "";
}

std::string faults(const Outcome& outcome, const std::vector<ScriptedMessage>& script) {
    return wrong_samples(outcome.recording) + wrong_messages(outcome.received, script);
}

/// Checks a script's way to the band and the band's to the recording, to the frame. A machine with
/// other things to do loses cycles, and the server says so: then again.
void check_exact(const JackServer& server, const std::vector<ScriptedMessage>& to_play,
                 const std::vector<ScriptedMessage>& to_hear, First first = First::is_heard,
                 time::Seconds length = time::Seconds(0.2)) {
    for (int tries = 0; tries < 5; ++tries) {
        const Outcome outcome = play(server, to_play, first, length);
        const auto found = faults(outcome, to_hear);
        if (!found.empty() && !outcome.undisturbed) continue;
        INFO(found);
        CHECK(found.empty());
        CHECK(outcome.sent == to_play.size());
        CHECK(outcome.sent_frames == frames_of(to_hear));
        CHECK(outcome.recording.left.size() >= 9'600);
        return;
    }
    WARN("SKIPPED: the machine is too busy; cycles were lost each time");
}

/// With half a second before bar 1: a bar of three.
void save(const practice::Take& take, const std::filesystem::path& path) {
    const auto form = tests::make_form(time::Meter(3), time::Bpm(360), {"F7"});
    auto asked = roadmap::Asked::of(form.whole(), 1);
    asked.count_in_bars = 1;
    const auto file = practice::to_file(take, {form, asked});
    files::save_bytes(path, midi::write_smf(file), files::Existing::replace);
}

#ifdef RTAUDIO_VERSION_MAJOR
unsigned device_called(RtAudio& audio, const std::string& name) {
    for (const unsigned id : audio.getDeviceIds()) {
        if (audio.getDeviceInfo(id).name == name) return id;
    }
    FAIL("no RtAudio device " << name);
    return 0;
}
#else
unsigned device_called(RtAudio& audio, const std::string& name) {
    for (unsigned index = 0; index < audio.getDeviceCount(); ++index) {
        if (audio.getDeviceInfo(index).name == name) return index;
    }
    FAIL("no RtAudio device " << name);
    return 0;
}
#endif

/// Interleaved stereo, as RtAudio wants it unless told otherwise: loud from frame 1000 on.
int loud_after_a_while(void* output, void*, unsigned frames, double, RtAudioStreamStatus,
                       void* position) {
    auto* sample = static_cast<float*>(output);
    auto& now = *static_cast<int*>(position);
    for (unsigned i = 0; i < frames; ++i, ++now) {
        *sample++ = now >= 1000 ? 0.5F : 0.0F;
        *sample++ = now >= 1000 ? -0.25F : 0.0F;
    }
    return 0;
}

}  // namespace

TEST_CASE("the recording starts with the click's first sample and keeps every frame after it",
          "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    check_exact(server, {}, {});
}

TEST_CASE("scripted messages arrive at their exact frames, wherever in a period these lie",
          "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    const auto script = spread_over_period(256);
    const time::Seconds length(28'000.0 / 48'000);
    check_exact(server, script, script, First::is_heard, length);
    check_exact(server, script, script, First::hears, length);
}

TEST_CASE("messages of one cycle and of one frame arrive in order", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    // A strum on the click itself, one on a single frame, one within a cycle; given back to front.
    const auto script = note_ons({0, 1, 2, 5000, 5000, 5000, 5000, 5000, 5000, 8001, 8050, 8051});
    auto shuffled = script;
    std::stable_sort(shuffled.begin(), shuffled.end(),
                     [](const auto& a, const auto& b) { return a.frame > b.frame; });
    check_exact(server, shuffled, script);
}

TEST_CASE("a message before the click is too late, and one too many for a cycle does not fit",
          "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    std::vector<std::int64_t> frames(6000, 2000);
    frames.insert(frames.begin(), {-48'000, -4097});
    frames.push_back(6000);
    const auto outcome = play(server, note_ons(frames));
    CHECK(outcome.late == 2);
    CHECK(outcome.unfit > 0);
    CHECK(outcome.sent > 1000);
    CHECK(outcome.sent + outcome.late + outcome.unfit == frames.size());
    CHECK(outcome.sent_frames.size() == outcome.sent);
    CHECK(outcome.sent_frames.back() == 6000);
    if (outcome.undisturbed) CHECK(outcome.received.size() == outcome.sent);
}

TEST_CASE("a client that takes too long is counted as an xrun", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    Band band(server);
    JackPlayer player(named("player", server));
    player.start();
    REQUIRE(player.connect_inputs_from("band:"));
    band.stall();
    CHECK(comes_true([&player] { return player.xruns() > 0; }));
}

TEST_CASE("RtAudio lists the player as a device and a stream on it is heard", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    JackPlayer player(named("listening player", server));
    player.start();
    RtAudio audio(RtAudio::UNIX_JACK);
    RtAudio::StreamParameters output;
    output.deviceId = device_called(audio, "listening player");
    output.nChannels = 2;
    unsigned frames = 256;
    int position = 0;
    audio.openStream(&output, nullptr, RTAUDIO_FLOAT32, 48000, &frames, loud_after_a_while,
                     &position);
    audio.startStream();
    CHECK(player.wait_for_click(plenty));
    CHECK(player.wait_until_recorded(time::Seconds(0.05), plenty));
    audio.closeStream();
    const auto heard = player.recording();
    REQUIRE(!heard.left.empty());
    CHECK(heard.left[0] == 0.5F);
    CHECK(heard.right[0] == -0.25F);
}

TEST_CASE("a MIDI guitar on a JACK server is listed by its name", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    const JackPlayer guitar(named("six-way pickup", server));
    CHECK(comes_true([] {
        const auto inputs = live::midi_inputs().found;
        return std::any_of(inputs.begin(), inputs.end(), [](const auto& input) {
            return input.api == "JACK" && input.name.find("six-way pickup") != std::string::npos;
        });
    }));
}

TEST_CASE("a player that disappears takes its ports with it and keeps what it heard", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    Band band(server);
    JackPlayer player(named("player", server));
    player.start();
    REQUIRE(player.connect_inputs_from("band:"));
    band.click();
    REQUIRE(player.wait_for_click(plenty));
    CHECK(comes_true([&band] { return band.sees("player:strings"); }));
    player.disappear();
    CHECK(comes_true([&band] { return !band.sees("player:strings"); }));
    CHECK(player.recorded() > 0);
    CHECK_THROWS_AS(player.period(), JackError);
}

TEST_CASE("a server that is killed is noticed, and everybody gets home", "[live]") {
    if (!JackServer::installed()) return;
    JackServer server;
    JackPlayer player(named("player", server));
    player.start();
    CHECK_FALSE(player.server_gone());
    server.kill_hard();
    CHECK(comes_true([&player] { return player.server_gone(); }));
    CHECK_FALSE(player.wait_for_click(plenty));
}

TEST_CASE("several servers run side by side, each at its own rate and period", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer first({128, 44100});
    {
        const JackServer second;
        CHECK(second.name() != first.name());
        CHECK(JackPlayer(by_environment()).rate().hz() == 48000);
        const JackPlayer player(named("player", first));
        CHECK(player.rate().hz() == 44100);
        CHECK(player.period() == 128);
    }
    CHECK(JackPlayer(by_environment()).rate().hz() == 44100);
}

TEST_CASE("a server may be gone long before its test ends", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer still_there({128, 44100});
    JackServer dead;
    dead.kill_hard();
    dead.kill_hard();
    CHECK_THROWS_AS(JackPlayer(named("player", dead)), JackError);
    CHECK(JackPlayer(named("player", still_there)).rate().hz() == 44100);
}

TEST_CASE("the player changes the server's period", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    JackPlayer player(named("player", server));
    player.start();
    player.set_buffer_size(128);
    CHECK(comes_true([&player] { return player.period() == 128; }));
}

TEST_CASE("what a player cannot have is said by name", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    JackPlayer player(named("player", server));
    JackPlayer neighbour(named("neighbour", server));
    player.start();
    neighbour.start();
    CHECK_THROWS_AS(JackPlayer(named("player", server)), JackError);
    CHECK_FALSE(player.connect_strings_to("nobody"));
    CHECK_FALSE(player.connect_inputs_from("nobody"));
    auto nowhere = named("player", server);
    nowhere.server = "compline-test-no-such-server";
    CHECK_THROWS_AS(JackPlayer(nowhere), JackError);
}

TEST_CASE("the player's program plays a take from its count-in on and records the band", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    const TemporaryFolder folder;
    practice::Take take;
    take.messages = {{time::Seconds(-0.1), midi::note_on(1, 60, 80)},
                     {time::Seconds(0), midi::note_on(2, 64, 80)},
                     {time::Seconds(0.125), midi::note_off(2, 64)}};
    take.end = time::Seconds(0.2);
    save(take, folder.file("take.mid"));
    Band band(server);
    band.click();
    const auto done =
        tests::run(COMPLINE_JACK_PLAYER " --from band: --to band:ears --seconds 0.75 --take " +
                   tests::shell_quote(folder.file("take.mid").string()) + " --record " +
                   tests::shell_quote(folder.file("heard.wav").string()));
    INFO(done.output);
    REQUIRE(done.status == 0);
    CHECK(done.output.find("sent 3 of 3, late 0, unfit 0,") != std::string::npos);
    CHECK(done.output.find("recorded 36000 frames at 48000 Hz") != std::string::npos);
    if (done.output.find("xruns 0, jumps 0") != std::string::npos) {
        // Half a second of count-in in the file: bar 1 is 24,000 frames after the click.
        const std::vector<ScriptedMessage> script = {{19'200, midi::note_on(1, 60, 80)},
                                                     {24'000, midi::note_on(2, 64, 80)},
                                                     {30'000, midi::note_off(2, 64)}};
        CHECK(wrong_messages(band.received(), script).empty());
    }
    const auto heard = sound::read_wav(folder.file("heard.wav"));
    REQUIRE(heard.sound.left.size() == 36000);
    CHECK(heard.sound.left[0] == Approx(click_sound(0)).margin(1e-6));
}

TEST_CASE("the player's program says what is wrong with what it was asked for", "[live]") {
    const TemporaryFolder folder;
    practice::Take years;
    years.messages = {{time::Seconds(8'000), midi::note_on(1, 60, 80)},
                      {time::Seconds(16'000), midi::note_off(1, 60)}};
    years.end = time::Seconds(16'000);
    save(years, folder.file("years.mid"));
    files::save_text(folder.file("words.mid"), "four to the bar", files::Existing::replace);
    const auto said = [](const std::string& arguments, int status, const std::string& words) {
        const auto done = tests::run(
            "JACK_DEFAULT_SERVER=compline-test-no-such-server " COMPLINE_JACK_PLAYER " " +
            arguments);
        INFO(done.output);
        CHECK(done.status == status);
        CHECK(done.output.find(words) != std::string::npos);
    };
    const auto words = tests::shell_quote(folder.file("words.mid").string());
    said("--help", 0, "--count-in SECONDS");
    said("", 2, "--take is required");
    said("--take x.mid --seconds nan", 2, "found 'nan', expected seconds, 0 to 14400");
    said("--take x.mid --count-in=-1", 2, "found '-1'");
    said("--take /nowhere/x.mid", 2, "/nowhere/x.mid: No such file");
    said("--take " + words, 2, "words.mid: byte 0");
    const auto years_file = tests::shell_quote(folder.file("years.mid").string());
    said("--take " + years_file, 2, "say by --seconds how much");
    said("--take " + years_file + " --seconds 1", 1, "no JACK server is running");
}
