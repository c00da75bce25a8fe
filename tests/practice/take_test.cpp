// Takes: what was played comes back from its file as it was, whole or cut short.

#include "support/catch.hpp"
#include "support/temporary_folder.hpp"

#include <compline/midi/smf.hpp>
#include <compline/practice/take.hpp>
#include <compline/simulate/chance.hpp>

#include <algorithm>
#include <filesystem>

using namespace compline;
using namespace compline::practice;
using time::Seconds;

namespace {

TakeInfo an_info() {
    TakeInfo info;
    info.chart_hash = "0123456789abcdef";
    info.tempo_bpm = 132;
    info.route = chart::Route::of({9, 12}, 3);
    info.silent_bars = {4, 5};
    info.delay = {time::from_milliseconds(7.25), 1.5};
    info.rhythm = "1 2&";
    info.strictness = "substitutions";
    info.against = "beat";
    info.tolerance_ms = 37.5;
    info.machine = Machine{"JACK: system", "ALSA: strings", 48000, 256, 5.333, 0.0417, 1, 2, 3, 4};
    return info;
}

/// Notes, bends and controllers at times that fall on no tick, from before bar 1 on.
Take a_take(std::uint64_t seed, int count = 40) {
    simulate::Chance chance(seed);
    Take take;
    take.info = an_info();
    Seconds now(-0.4);
    for (int i = 0; i < count; ++i) {
        now += Seconds(chance.uniform() * 0.3);
        const int channel = 1 + static_cast<int>(chance.below(6));
        const int note = 40 + static_cast<int>(chance.below(40));
        take.messages.push_back({now, midi::note_on(channel, note, 80)});
        if (i % 9 == 4) take.interruptions.push_back(now);
        if (i % 7 == 0) take.messages.push_back({now, midi::pitch_bend(channel, -682)});
        now += Seconds(chance.uniform() * 0.3);
        take.messages.push_back({now, midi::note_off(channel, note)});
    }
    take.end = now + Seconds(1.2345);
    return take;
}

constexpr Seconds two_bars{8 * 60.0 / 132};

std::vector<std::uint8_t> written(const Take& take, time::Bpm tempo, Seconds lead = two_bars) {
    return midi::write_smf(to_file(take, tempo, time::Meter(4), lead));
}

Take read_back(const std::vector<std::uint8_t>& bytes) {
    return read_take(midi::read_smf(bytes).file);
}

Take with_text(const std::string& text) {
    midi::File file;
    file.tracks.resize(1);
    file.tracks[0].add(0, midi::text_event(midi::meta::text, text));
    return read_take(file);
}

/// The text event with one piece of it replaced.
std::string spoilt(const std::string& piece, const std::string& with) {
    auto text = to_text(an_info());
    const auto at = text.find(piece);
    REQUIRE(at != std::string::npos);
    return text.replace(at, piece.size(), with);
}

}  // namespace

TEST_CASE("a take comes back from its file within half a tick, at any tempo", "[practice]") {
    for (const double bpm : {30.0, 60.0, 119.0, 132.0, 133.7, 240.0, 400.0}) {
        const time::Bpm tempo(bpm);
        const Seconds half_tick = tempo.beat() * (0.5 / take_division) + Seconds(1e-6);
        const Take take = a_take(static_cast<std::uint64_t>(bpm));
        const Take back = read_back(written(take, tempo));
        INFO(bpm << " bpm");
        REQUIRE(back.messages.size() == take.messages.size());
        Seconds worst(0);
        for (std::size_t i = 0; i < take.messages.size(); ++i) {
            REQUIRE(back.messages[i].message == take.messages[i].message);
            worst = std::max(worst, time::abs(back.messages[i].at - take.messages[i].at));
        }
        // Zero itself is on a tick too, so two roundings may add up.
        CHECK(worst <= half_tick * 2);
        CHECK(time::abs(back.end - take.end) <= half_tick * 2);
        REQUIRE(back.info.has_value());
        CHECK(*back.info == an_info());
    }
}

TEST_CASE("what a take read from a file gives is the same when it is written and read again",
          "[practice]") {
    const auto bytes = written(a_take(1), time::Bpm(132));
    CHECK(written(read_back(bytes), time::Bpm(132)) == bytes);
}

TEST_CASE("a take's time zero is its start marker", "[practice]") {
    const Take take = a_take(2);
    for (const double lead : {0.5, 2.0, 3.6363, 30.0}) {
        const Take back = read_back(written(take, time::Bpm(132), Seconds(lead)));
        CHECK(back.marked);
        CHECK(back.messages[0].at.count() == Approx(take.messages[0].at.count()).margin(3e-5));
    }
}

TEST_CASE("without a marker time zero is the file's start", "[practice]") {
    midi::File file;
    file.division = 480;
    file.tracks.resize(1);
    file.tracks[0].add(0, midi::text_event(midi::meta::marker, "verse"));
    file.tracks[0].add(240, midi::note_on(1, 60, 80));
    const Take take = read_take(file);
    CHECK_FALSE(take.marked);
    CHECK_FALSE(take.info.has_value());
    REQUIRE(take.messages.size() == 1);
    // An eighth note at 120 bpm, which holds where no tempo is given (SMF 1.0).
    CHECK(take.messages[0].at.count() == Approx(0.25));
}

TEST_CASE("what was played before the file starts is put at its start", "[practice]") {
    Take take;
    take.messages = {{Seconds(-5), midi::note_on(1, 60, 80)}};
    take.end = Seconds(1);
    const Take back = read_back(written(take, time::Bpm(120), Seconds(4)));
    CHECK(back.messages[0].at.count() == Approx(-4));
}

TEST_CASE("a take knows its own making, with and without a tolerance", "[practice]") {
    CHECK(read_info(to_text(an_info())) == an_info());
    TakeInfo plain = an_info();
    plain.tolerance_ms.reset();
    REQUIRE(read_info(to_text(plain)).has_value());
    CHECK(*read_info(to_text(plain)) == plain);
    CHECK_FALSE(plain == an_info());
}

TEST_CASE("a take from before bytes were counted has none that made no message", "[practice]") {
    const auto read = read_info(spoilt(",\"garbled_bytes\":4", ""));
    REQUIRE(read.has_value());
    CHECK(read->machine->unreadable_bytes == 0);
    CHECK(read->machine->late_strokes == 3);
    CHECK_FALSE(read_info(spoilt("\"garbled_bytes\":4", "\"garbled_bytes\":\"4\"")).has_value());
}

TEST_CASE("a take from before it said what it was judged against was judged against own",
          "[practice]") {
    const auto read = read_info(spoilt(",\"against\":\"beat\"", ""));
    REQUIRE(read.has_value());
    CHECK(read->against == "own");
    CHECK_FALSE(read_info(spoilt("\"against\":\"beat\"", "\"against\":1")).has_value());
}

TEST_CASE("text that is not a take's of this schema is passed over", "[practice]") {
    for (const std::string text :
         {"", "hello", "{", "[]", "3", "{\"schema\": 1}", "{\"schema\": \"compline.take/1\"}",
          "{\"schema\": \"compline.report/2\", \"chart\": \"x\"}"}) {
        INFO(text);
        CHECK_FALSE(with_text(text).info.has_value());
    }
    CHECK_FALSE(with_text(spoilt("compline.take/1", "compline.take/2")).info.has_value());
    CHECK(with_text(to_text(an_info())).info.has_value());
}

TEST_CASE("a take's text with impossible numbers is not read as other numbers", "[practice]") {
    for (const auto& [piece, with] : std::vector<std::pair<std::string, std::string>>{
             {"[9,12]", "[1e300,12]"},
             {"[9,12]", "[9.5,12]"},
             {"[9,12]", "[9]"},
             {"[9,12]", "[4294967305,4294967308]"},
             {"\"times_through\":3", "\"times_through\":\"3\""},
             {"\"times_through\":3", "\"times_through\":18446744073709551615"},
             {"\"silent_bars\":[4,5]", "\"silent_bars\":[4,-1e99]"},
             {"\"silent_bars\":[4,5]", "\"silent_bars\":4"},
             {"\"tempo_bpm\":132.0", "\"tempo_bpm\":null"},
         }) {
        INFO(with);
        CHECK_FALSE(read_info(spoilt(piece, with)).has_value());
    }
}

TEST_CASE("other texts before a take's own do not hide it", "[practice]") {
    midi::File file = to_file(a_take(3), time::Bpm(132), time::Meter(4), two_bars);
    auto& events = file.tracks[0].events;
    events.insert(events.begin(), {0, midi::text_event(midi::meta::text, "made by hand")});
    const Take back = read_take(file);
    REQUIRE(back.info.has_value());
    CHECK(*back.info == an_info());
}

TEST_CASE("a take cut short at any byte is read up to there, times and text unchanged",
          "[practice]") {
    const auto bytes = written(a_take(4), time::Bpm(132));
    const Take whole = read_back(bytes);
    // The header, then the conductor's chunk: name, length, body.
    constexpr std::size_t header_end = 14;
    std::size_t body = 0;
    for (std::size_t i = 4; i < 8; ++i) body = body * 256 + bytes[header_end + i];
    const std::size_t conductor_end = header_end + 8 + body;
    std::size_t longest = 0;
    for (std::size_t size = conductor_end; size < bytes.size(); ++size) {
        const std::vector<std::uint8_t> cut(bytes.begin(),
                                            bytes.begin() + static_cast<std::ptrdiff_t>(size));
        const auto read = midi::read_smf(cut);
        INFO("cut at byte " << size);
        REQUIRE(read.cut_at.has_value());
        REQUIRE(*read.cut_at <= size);
        const Take take = read_take(read.file);
        REQUIRE(take.info.has_value());
        REQUIRE(*take.info == an_info());
        REQUIRE(take.marked);
        REQUIRE(take.messages.size() >= longest);
        longest = take.messages.size();
        for (std::size_t i = 0; i < longest; ++i) {
            REQUIRE(take.messages[i].at == whole.messages[i].at);
            REQUIRE(take.messages[i].message == whole.messages[i].message);
        }
        // Nothing after the last whole event was listened to, so nothing there can be judged.
        Seconds last(0);
        if (longest > 0) last = std::max(last, take.messages.back().at);
        if (!take.interruptions.empty()) last = std::max(last, take.interruptions.back());
        REQUIRE(take.end == last);
    }
    CHECK(longest == whole.messages.size());
}

TEST_CASE("interruptions come back with a take, where they were") {
    const Take take = a_take(3);
    const Take again = read_back(written(take, time::Bpm(132)));
    REQUIRE(take.interruptions.size() == 4);
    REQUIRE(again.interruptions.size() == 4);
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(again.interruptions[i].count() ==
              Approx(take.interruptions[i].count()).margin(0.00002));
    }
}

TEST_CASE("hours of silence fit between two notes of a take, whole or cut short") {
    const tests::TemporaryFolder folder;
    Take take;
    take.info = an_info();
    take.messages = {{Seconds(1), midi::note_on(1, 60, 80)},
                     {Seconds(20000), midi::note_off(1, 60)}};
    take.end = Seconds(40000);
    const time::Bpm tempo(400);
    const Take again = read_back(written(take, tempo));
    REQUIRE(again.messages.size() == 2);
    CHECK(again.messages[1].at.count() == Approx(20000).margin(0.0001));
    CHECK(again.end.count() == Approx(40000).margin(0.0001));

    TakeFile file(folder.path() / "long.mid", {an_info(), tempo, time::Meter(4), Seconds(2)},
                  files::Access::own);
    for (const auto& timed : take.messages) file.add(timed);
    const Take cut = read_back(files::load_bytes(file.path()));
    REQUIRE(cut.messages.size() == 2);
    CHECK(cut.messages[1].at.count() == Approx(20000).margin(0.0001));
}

TEST_CASE("a take says by which road map, feel and swing it was played, and where the band stood") {
    TakeInfo info = an_info();
    info.route.stretches = {{{9, 12}, "intro", {}},
                            {{1, 12}, "head", {chart::Feel::bossa, {}, {}}},
                            {{1, 12}, "solo", {{}, chart::Drums::hats, {}}}};
    info.feel = "straight";
    info.drums = "ride";
    info.swing = "62%";
    info.placement = "bass +8";
    info.silent_bars = {4, 5};
    const auto back = read_info(to_text(info));
    REQUIRE(back);
    REQUIRE(back->route.stretches.size() == 3);
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(back->route.stretches[i] == info.route.stretches[i]);
    }
    CHECK_FALSE(back->cut_short);
    CHECK(back->feel == "straight");
    CHECK(back->drums == "ride");
    CHECK(back->swing == "62%");
    CHECK(back->placement == "bass +8");
    CHECK(back->silent_bars == info.silent_bars);
}

TEST_CASE("a take whose road map makes no sense is not taken for one of ours") {
    const auto spoilt = [](const std::string& from, const std::string& to) {
        TakeInfo info = an_info();
        info.route.stretches = {{{9, 12}, "intro", {}},
                                {{1, 12}, "", {chart::Feel::bossa, chart::Drums::hats, {}}}};
        auto text = to_text(info);
        const auto at = text.find(from);
        REQUIRE(at != std::string::npos);
        return read_info(text.replace(at, from.size(), to));
    };
    CHECK(spoilt("\"bossa\"", "\"samba\"") == std::nullopt);
    CHECK(spoilt("\"hats\"", "\"spoons\"") == std::nullopt);
    CHECK(spoilt("\"name\":\"intro\"", "\"name\":7") == std::nullopt);
    CHECK(spoilt("\"route\":[{", "\"route\":[],\"x\":[{") == std::nullopt);
}

TEST_CASE("a take that is cut short knows how often the tune was to be played, if it was to end") {
    TakeInfo info = an_info();
    info.cut_short = true;
    info.machine.reset();
    info.route = chart::Route::of({1, 12}, 2);
    auto back = read_info(to_text(info));
    REQUIRE(back);
    CHECK(back->cut_short);
    CHECK(back->route.times_through() == 2);
    info.route = chart::Route::of({1, 12}, std::nullopt);
    back = read_info(to_text(info));
    REQUIRE(back);
    CHECK(back->route.goes_on);
}

TEST_CASE("a take that is being written can be read at any moment, to its last event") {
    const tests::TemporaryFolder folder;
    const Take whole = a_take(8);
    const auto path = folder.path() / "evening.mid";
    TakeInfo info = an_info();
    info.cut_short = true;
    info.route = chart::Route::of({9, 12}, std::nullopt);
    info.machine.reset();
    TakeFile file(path, {info, time::Bpm(132), time::Meter(4), two_bars}, files::Access::own);
    std::size_t count = 0;
    const auto check = [&](Seconds until) {
        const auto read = midi::read_smf(files::load_bytes(path));
        REQUIRE(read.cut_at.has_value());
        const Take take = read_take(read.file);
        REQUIRE(take.info == info);
        REQUIRE(take.marked);
        REQUIRE(take.messages.size() == count);
        REQUIRE(take.end.count() == Approx(until.count()).margin(0.00002));
    };
    check(Seconds(0));
    for (const auto& timed : whole.messages) {
        file.add(timed);
        ++count;
        if (timed.at > Seconds(0)) check(timed.at);
    }
    file.add_interruption(whole.messages.back().at);
    file.listened_until(whole.end);
    check(whole.end);
    CHECK(read_back(files::load_bytes(path)).interruptions.size() == 1);

    const auto bytes = file.finish(whole);
    CHECK(files::load_bytes(path) == bytes);
    CHECK(bytes == written(whole, time::Bpm(132)));
    CHECK_FALSE(midi::read_smf(bytes).cut_at.has_value());
}

TEST_CASE("a take is never written over another file, and belongs to the player alone") {
    const tests::TemporaryFolder folder;
    const auto path = folder.path() / "evening.mid";
    const Opening opening{an_info(), time::Bpm(132), time::Meter(4), two_bars};
    const TakeFile file(path, opening, files::Access::own);
    CHECK_THROWS_AS(TakeFile(path, opening, files::Access::own), files::FileError);
    CHECK_THROWS_AS(TakeFile(folder.path() / "no" / "x.mid", opening, files::Access::own),
                    files::FileError);
    CHECK((std::filesystem::status(path).permissions() & std::filesystem::perms::mask) ==
          (std::filesystem::perms::owner_read | std::filesystem::perms::owner_write));
}

TEST_CASE("a take that was removed while it was played comes back for the player alone") {
    const tests::TemporaryFolder folder;
    const auto path = folder.path() / "evening.mid";
    TakeFile file(path, {an_info(), time::Bpm(132), time::Meter(4), two_bars}, files::Access::own);
    std::filesystem::remove(path);
    const auto bytes = file.finish(a_take(8));
    CHECK(files::load_bytes(path) == bytes);
    CHECK((std::filesystem::status(path).permissions() & std::filesystem::perms::mask) ==
          (std::filesystem::perms::owner_read | std::filesystem::perms::owner_write));
}

TEST_CASE("a file that was put where a take was is not overwritten by it") {
    const tests::TemporaryFolder folder;
    const auto path = folder.path() / "evening.mid";
    TakeFile file(path, {an_info(), time::Bpm(132), time::Meter(4), two_bars}, files::Access::own);
    std::filesystem::remove(path);
    files::save_text(path, "somebody else's", files::Existing::keep);
    CHECK_THROWS_AS(file.finish(a_take(8)), files::AlreadyThere);
    CHECK(files::load_text(path) == "somebody else's");
}

TEST_CASE("a take keeps its order when a clock steps back") {
    const tests::TemporaryFolder folder;
    TakeFile file(folder.path() / "x.mid", {an_info(), time::Bpm(132), time::Meter(4), Seconds(2)},
                  files::Access::own);
    file.add({Seconds(1), midi::note_on(1, 60, 80)});
    file.add({Seconds(0.9), midi::note_off(1, 60)});
    const Take take = read_back(files::load_bytes(file.path()));
    REQUIRE(take.messages.size() == 2);
    CHECK(take.messages[1].at == take.messages[0].at);
}
