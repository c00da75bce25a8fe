// compline render: what is written, and what is refused.

#include "app/program.hpp"

#include <compline/midi/smf.hpp>
#include <compline/sound/wav.hpp>

#include <fmt/format.h>

#include <array>
#include <set>

using namespace compline;
using namespace compline::tests;

namespace {

/// Seconds of a MIDI file.
double midi_length(const std::string& path) {
    return midi::flatten(midi::read_smf(files::load_bytes(path)).file).length.count();
}

std::size_t markers_named(const std::string& path, const std::string& name) {
    const auto recording = midi::flatten(midi::read_smf(files::load_bytes(path)).file);
    return static_cast<std::size_t>(std::count_if(
        recording.texts.begin(), recording.texts.end(),
        [&](const auto& text) { return text.type == midi::meta::marker && text.text == name; }));
}

/// render with options after CHART and OUT.
Ran render(const std::string& out, std::vector<std::string> options = {}) {
    options.insert(options.begin(), {"render", blues(), out});
    return run_compline(options);
}

void refuses(const std::vector<std::string>& options, const std::string& words) {
    const TemporaryFolder folder;
    const auto ran = render(folder.file("x.mid").string(), options);
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(ran.out.empty());
    CHECK(contains(ran.err, words));
    CHECK_FALSE(std::filesystem::exists(folder.file("x.mid")));
}

}  // namespace

TEST_CASE("render writes MIDI and says what is in it", "[app]") {
    const TemporaryFolder folder;
    const auto out = folder.file("blues.mid").string();
    const auto ran = render(out);
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(ran.out == out +
                         ": bars 1-12 of Blue Kettle on the Back Stairs, once at 132 bpm, after "
                         "2 bars of count-in\n");
    CHECK(ran.err.empty());
    // The tune's last chord rings for two bars.
    CHECK(midi_length(out) == Approx((2 + 12 + 2) * 4 * 60.0 / 132).epsilon(1e-5));
}

TEST_CASE("render plays the bars, choruses and tempo asked for", "[app]") {
    const TemporaryFolder folder;
    const auto out = folder.file("loop.midi").string();
    const auto ran = render(out, {"--bars", "9-12", "--times", "3", "--tempo", "96.5"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "bars 9-12 of Blue Kettle on the Back Stairs, 3 times at 96.5 bpm"));
    CHECK(midi_length(out) == Approx((4 * 3 + 2) * 4 * 60.0 / 96.5).epsilon(1e-5));
    CHECK(markers_named(out, "Gm7") == 2 * 3);
    CHECK(markers_named(out, "section A") == 0);  // none begins in these bars
    CHECK(render(folder.file("one.mid").string(), {"--bars", "A:4"}).status == 0);
    CHECK(midi_length(folder.file("one.mid").string()) == Approx(3 * 4 * 60.0 / 132).epsilon(1e-5));
}

TEST_CASE("render writes WAV, as long as the music and its ringing", "[app]") {
    const TemporaryFolder folder;
    const auto out = folder.file("two bars.WAV").string();
    const auto ran = render(out, {"--bars", "1-2", "--tempo", "240"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(ran.err.empty());
    const auto wav = sound::read_wav(out);
    CHECK(wav.rate == time::SampleRate(48000));
    const double seconds = static_cast<double>(wav.sound.left.size()) / 48000;
    CHECK(seconds > 4.0);
    CHECK(seconds < 10.0);
    const auto loud = [](float sample) { return std::abs(sample) > 0.05F; };
    CHECK(std::any_of(wav.sound.left.begin(), wav.sound.left.end(), loud));
    CHECK(std::any_of(wav.sound.right.begin(), wav.sound.right.end(), loud));
}

TEST_CASE("render twice gives the same bytes", "[app]") {
    const TemporaryFolder folder;
    for (const std::string ending : {".mid", ".wav"}) {
        const auto one = folder.file("one" + ending).string();
        const auto two = folder.file("two" + ending).string();
        REQUIRE(render(one, {"--bars", "1-2"}).status == 0);
        REQUIRE(render(two, {"--bars", "1-2"}).status == 0);
        CHECK(files::load_bytes(one) == files::load_bytes(two));
    }
}

TEST_CASE("render keeps a file that is there, unless told to replace it", "[app]") {
    const TemporaryFolder folder;
    for (const std::string name : {"x.mid", "x.wav"}) {
        const auto out = text_file(folder, name, "mine");
        const auto ran = render(out, {"--bars", "1"});
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(contains(ran.err, out + " is there already: give another name, or --replace"));
        CHECK(files::load_text(out) == "mine");
        CHECK(render(out, {"--bars", "1", "--replace"}).status == 0);
        CHECK(files::load_text(out) != "mine");
    }
}

TEST_CASE("render writes through no link that leads to nothing, unless told to", "[app]") {
    const TemporaryFolder folder;
    for (const std::string ending : {".mid", ".wav"}) {
        const auto link = folder.file("link" + ending).string();
        const auto behind = folder.file("behind" + ending);
        std::filesystem::create_symlink(behind, link);
        const auto ran = render(link, {"--bars", "1"});
        INFO(shown(ran));
        CHECK(ran.status == 1);
        CHECK(contains(ran.err, link + ": is there already"));
        CHECK(std::filesystem::is_symlink(link));
        CHECK_FALSE(std::filesystem::exists(behind));
        CHECK(render(link, {"--bars", "1", "--replace"}).status == 0);
        CHECK(std::filesystem::is_symlink(link));
        CHECK(std::filesystem::exists(behind));
    }
}

TEST_CASE("render refuses an ending that it does not know", "[app]") {
    for (const std::string out : {"x.mp3", "x", "wav", "x.mid.txt"}) {
        const auto ran = render(out);
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(contains(ran.err, ".wav or .mid"));
    }
}

TEST_CASE("render where nothing can be written is status 1 with the reason", "[app]") {
    const TemporaryFolder folder;
    const auto file = text_file(folder, "file", "");
    for (const std::string ending : {".mid", ".wav"}) {
        const auto nowhere = render(folder.file("no/such/x" + ending).string(), {"--bars", "1"});
        INFO(shown(nowhere));
        CHECK(nowhere.status == 1);
        CHECK(nowhere.out.empty());
        CHECK(contains(nowhere.err, "x" + ending));
        CHECK(contains(nowhere.err, "o such f"));  // No such file or directory, no such folder
        const auto beneath_file = render(file + "/x" + ending, {"--bars", "1"});
        INFO(shown(beneath_file));
        CHECK(beneath_file.status == 1);
        std::filesystem::create_directory(folder.file("dir" + ending));
        const auto a_folder =
            render(folder.file("dir" + ending).string(), {"--bars", "1", "--replace"});
        INFO(shown(a_folder));
        CHECK(a_folder.status == 1);
        CHECK(std::filesystem::is_directory(folder.file("dir" + ending)));
    }
}

TEST_CASE("render refuses tempos, bars and choruses that make no sense", "[app]") {
    for (const std::string tempo :
         {"29", "401", "0", "-120", "nan", "inf", "1e999", "fast", "120x", "", " 120", "++120"}) {
        refuses({"--tempo=" + tempo},
                tempo.empty() ? "--tempo" : "expected a number from 30 to 400");
    }
    refuses({"--bars", "9-99"}, "--bars 9-99: there is no bar 99: the form has 12 bars");
    refuses({"--bars", "9-5"}, "bars 9-5 run backwards: write 5-9");
    refuses({"--bars", "0-4"}, "there is no bar 0");
    refuses({"--bars", "B:1-4"}, "there is no section \"B\"");
    refuses({"--bars", "bridge"}, "there is no section \"bridge\"");
    for (const std::string choruses : {"0", "-1", "101", "1.5", "many", "nan"}) {
        refuses({"--times=" + choruses}, "expected a");
    }
}

TEST_CASE("render refuses hours of music", "[app]") {
    const TemporaryFolder folder;
    const auto ran =
        run_compline({"render", our_chart("three-lamps-on-weir-lane"),
                      folder.file("x.wav").string(), "--tempo", "30", "--times", "100"});
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(contains(ran.err, "that would last 427 minutes; 120 are the most"));
}

TEST_CASE("render of a chart with an odd title writes it as it is", "[app]") {
    const TemporaryFolder folder;
    const auto chart = text_file(folder, "odd.yaml",
                                 "title: \"<b>%s</b> {} 'ü' \\\"$(x)\"\nkey: F\ntempo: 120\n"
                                 "sections:\n  A: F7 | Bb7\n");
    const auto ran = run_compline({"render", chart, folder.file("odd.mid").string()});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "bars 1-2 of <b>%s</b> {} 'ü' \"$(x), once at 120 bpm"));
}

TEST_CASE("a chart that is in free time throughout is rendered, and has no plan", "[app]") {
    const TemporaryFolder folder;
    const auto chart = text_file(folder, "free.yaml",
                                 "title: Fog\nkey: F\ntempo: 120\n"
                                 "sections:\n  A: {tempo: rubato, bars: F7 | Bb7}\n");
    const auto ran = run_compline({"render", chart, folder.file("fog.mid").string()});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "bars 1-2 of Fog, once in free time, after 2 bars of count-in"));
    CHECK(contains(run_compline({"plan", chart}).out,
                   "All of it is in free time, which has no plan of voicings.\n"));
}

TEST_CASE("render says so when the chart cannot be read", "[app]") {
    const TemporaryFolder folder;
    const auto ran =
        run_compline({"render", folder.path().string(), folder.file("x.mid").string()});
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(contains(ran.err, "this is a folder"));
}

namespace {

/// The notes that the guitar strikes, on its channel.
std::vector<std::pair<double, int>> guitar_in(const std::string& path) {
    std::vector<std::pair<double, int>> notes;
    for (const auto& timed : midi::flatten(midi::read_smf(files::load_bytes(path)).file).messages) {
        if (timed.message.channel() != 3 || !timed.message.starts_note()) continue;
        notes.emplace_back(timed.at.count(), timed.message.data1);
    }
    return notes;
}

}  // namespace

TEST_CASE("render with voicings has a guitar that comps by a plan of them", "[app]") {
    const TemporaryFolder folder;
    const auto out = [&](const char* name) { return folder.file(name).string(); };
    const auto ran = render(out("with.mid"), {"--voicings", "shells"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(ran.err.empty());
    const auto notes = guitar_in(out("with.mid"));
    CHECK(notes.size() > 16 * 2);
    CHECK(notes.front().first == Approx(8 * 60.0 / 132).margin(1e-4));
    CHECK(render(out("without.mid")).status == 0);
    CHECK(guitar_in(out("without.mid")).empty());
    CHECK(render(out("again.mid"), {"--voicings", "shells"}).status == 0);
    CHECK(files::load_bytes(out("again.mid")) == files::load_bytes(out("with.mid")));
    CHECK(render(out("other.mid"), {"--voicings", "rootless"}).status == 0);
    CHECK(guitar_in(out("other.mid")) != notes);
}

TEST_CASE("render plays the voicings of the bars and the plan that it plays", "[app]") {
    const TemporaryFolder folder;
    const auto out = [&](const char* name) { return folder.file(name).string(); };
    const std::vector<std::string> guitar{"--voicings", "mixed", "--feel", "ballad"};
    const auto played = [&](const char* name, std::vector<std::string> options) {
        options.insert(options.end(), guitar.begin(), guitar.end());
        CHECK(render(out(name), options).status == 0);
        return guitar_in(out(name));
    };
    const double bar = 4 * 60.0 / 132;
    const auto twice = played("bars.mid", {"--bars", "9-12", "--times", "2"});
    std::array<std::set<std::pair<int, int>>, 2> heard;  // bars and notes
    for (const auto& [at, note] : twice) {
        const int in_all = static_cast<int>(at / bar + 0.01) - 2;
        heard.at(static_cast<std::size_t>(in_all / 4)).emplace(in_all % 4, note);
    }
    CHECK(heard[0] == heard[1]);
    CHECK(heard[0].size() > 12);
    const auto parts = played(
        "plan.mid", {"--road-map", "vamp: bars=9-12; head: silent; vamp: bars=9-12; held ending"});
    const auto in_head = [](double at) {
        const double bars = at / (4 * 60.0 / 132) - 2;
        return bars > 4.1 && bars < 15.9;
    };
    CHECK(parts.back().first == Approx((2 + 20) * bar).margin(0.03));
    for (const auto& note : parts) CHECK_FALSE(in_head(note.first));
}

TEST_CASE("the guitar of a rendered band is heard, and mixed like the others", "[app]") {
    const TemporaryFolder folder;
    const auto out = folder.file("guitar.wav").string();
    const std::vector<std::string> alone{
        "--bars", "1-2", "--mix", "drums=off,bass=off,count=off", "--voicings", "shells"};
    REQUIRE(render(out, alone).status == 0);
    const auto loudest = [](const std::vector<float>& side) {
        return *std::max_element(side.begin(), side.end());
    };
    const auto guitar = sound::read_wav(out).sound;
    CHECK(loudest(guitar.left) > 0.03F);
    CHECK(loudest(guitar.left) > loudest(guitar.right));
    auto off = alone;
    off[3] += ",guitar=off";
    off.emplace_back("--replace");
    REQUIRE(render(out, off).status == 0);
    CHECK(loudest(sound::read_wav(out).sound.left) == 0.0F);
}

TEST_CASE("render refuses voicings that it does not understand, and bars without a way", "[app]") {
    refuses({"--voicings", "loud"}, "--voicings");
    refuses({"--voicings", "shells near=99"}, "--voicings");
    refuses({"--voicings", "four-note strings=65"}, "bar 1, F7: ");
    refuses({"--voicings", ""}, "nothing between the quotes");
}
