// Takes: what was played comes back from its file as it was, whole or cut short.

#include "support/catch.hpp"
#include "support/temporary_folder.hpp"

#include <compline/chart/form.hpp>
#include <compline/chart/transpose.hpp>
#include <compline/midi/smf.hpp>
#include <compline/practice/take_file.hpp>
#include <compline/simulate/chance.hpp>
#include <compline/text/bad_input.hpp>

#include <algorithm>
#include <array>
#include <filesystem>

using namespace compline;
using namespace compline::practice;
using time::Seconds;

namespace {

constexpr const char* chart_text =
    "title: Twelve Steps\n"
    "key: F\n"
    "tempo: 120\n"
    "sections:\n"
    "  A: |\n"
    "    F7 | Bb7 | F7 | Cm7 F7 | Bb7 | Bb7 | F7 | D7 | Gm7 | C7 | F7 | C7\n";

chart::Form form() { return chart::unroll(chart::read_chart(chart_text, "twelve-steps.yaml")); }

/// Of an evening on which everything was asked for that can be.
TakeInfo an_info() {
    TakeInfo info;
    info.program = "compline 1.2.3";
    info.made = "2027-01-05T19:30:00+01:00";
    info.chart_text = chart_text;
    info.chart_hash = "0123456789abcdef";
    info.asked = roadmap::Asked::of({9, 12}, 3);
    info.asked.tempo = time::Bpm(132);
    info.delay = {time::from_milliseconds(7.25), 1.5};
    info.settings.rhythm = assess::read_rhythm("1 2&", time::Meter(4));
    info.settings.strictness = harmony::Strictness::substitutions;
    info.settings.against = assess::Against::beat;
    info.settings.tolerance = time::from_milliseconds(37.5);
    info.settings.pushes = false;
    info.fretboard = {guitar::read_tuning("B1 E2 A2 D3 G3 B3 D4"), 24, 2};
    info.player = "Ada";
    info.ended = true;
    info.machine = Machine{"JACK: system", "ALSA: strings", 48000, 256, 5.333, 0.0417, 1, 2, 3, 4};
    return info;
}

/// The same, as far as it is known before it ends.
TakeInfo begun() {
    TakeInfo info = an_info();
    info.ended = false;
    info.machine.reset();
    return info;
}

roadmap::RoadMap road(double tempo = 132) {
    auto asked = an_info().asked;
    asked.tempo = time::Bpm(tempo);
    asked.count_in_bars = 2;
    return {form(), asked};
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

std::vector<std::uint8_t> written(const Take& take, double tempo = 132) {
    return midi::write_smf(to_file(take, road(tempo)));
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

/// It throws, and says all of these words.
template <typename Act>
bool refused(Act act, const std::vector<std::string>& words) {
    try {
        act();
    } catch (const text::BadInput& error) {
        const std::string what = error.what();
        INFO(what);
        for (const auto& word : words) CHECK(what.find(word) != std::string::npos);
        return true;
    }
    return false;
}

}  // namespace

TEST_CASE("a take comes back from its file within half a tick, at any tempo", "[practice]") {
    for (const double bpm : {30.0, 60.0, 119.0, 132.0, 133.7, 240.0, 400.0}) {
        const Seconds half_tick = time::Bpm(bpm).beat() * (0.5 / take_division) + Seconds(1e-6);
        const Take take = a_take(static_cast<std::uint64_t>(bpm));
        const Take back = read_back(written(take, bpm));
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
    const auto bytes = written(a_take(1));
    CHECK(written(read_back(bytes)) == bytes);
}

TEST_CASE("a take's time zero is its start marker", "[practice]") {
    const Take take = a_take(2);
    for (const double tempo : {31.0, 99.9, 132.0, 400.0}) {
        const Take back = read_back(written(take, tempo));
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
    const Take back = read_back(written(take, 120));
    CHECK(back.messages[0].at.count() == Approx(-4));
}

TEST_CASE("a take knows its own making, with and without a tolerance", "[practice]") {
    CHECK(read_info(to_text(an_info())) == begun());
    TakeInfo plain = begun();
    plain.settings.tolerance.reset();
    REQUIRE(read_info(to_text(plain)).has_value());
    CHECK(*read_info(to_text(plain)) == plain);
    CHECK_FALSE(plain == begun());
}

TEST_CASE("a take knows the key that it was played in, where it is not the chart's", "[practice]") {
    auto chart = chart::read_chart(chart_text, "twelve-steps.yaml");
    const auto key = chart::read_key_for(chart.key, "Bb");
    const auto moved = chart::unroll(chart::transposed(chart, key, 22).chart);
    const auto asked = roadmap::Asked::of({1, 12}, 1);
    const auto info = info_of({moved, asked}, chart_text);
    CHECK(info.key == "Bb");
    const auto read = read_info(to_text(info)).value();
    CHECK(read == info);
    CHECK(form_of(read, "the take").spans[0].chord->symbol() == "B♭7");
    CHECK(in_key_of(read, form()).chart == moved.chart);
    CHECK(info_of({form(), asked}, chart_text).key.empty());
    CHECK(to_text(begun()).find("\"key\"") == std::string::npos);
}

TEST_CASE("a take says that it was heard by sound, and nothing of a MIDI pickup", "[practice]") {
    TakeInfo info = begun();
    CHECK(to_text(info).find("heard") == std::string::npos);
    info.heard = HeardBy::sound;
    CHECK(to_text(info).find("\"heard\":\"sound\"") != std::string::npos);
    CHECK(read_info(to_text(info)) == info);
    CHECK(read_info(to_text(info))->heard == HeardBy::sound);
}

TEST_CASE("a take that was heard by what nobody knows is refused", "[practice]") {
    TakeInfo info = begun();
    info.heard = HeardBy::sound;
    for (const std::string damaged : {"\"sund\"", "7", "[\"sound\"]", "\"\""}) {
        auto text = to_text(info);
        text.replace(text.find("\"sound\""), 7, damaged);
        CHECK(refused([&] { (void)read_info(text); }, {"the take's text: heard"}));
    }
}

TEST_CASE("how the machine bore up comes back, and so does that there was none", "[practice]") {
    CHECK(read_end(end_to_text(an_info().machine)) == an_info().machine);
    CHECK(read_end(end_to_text(std::nullopt)) == std::nullopt);
}

TEST_CASE("a take knows what single strings took, and the round trip it was played with",
          "[practice]") {
    auto info = begun();
    CHECK(to_text(info).find("by_string") == std::string::npos);
    info.delay.by_string = {Seconds(0), time::from_milliseconds(-1.25), time::from_milliseconds(8)};
    CHECK(to_text(info).find(R"("by_string_ms":[0.0,-1.25,8.0])") != std::string::npos);
    CHECK(read_info(to_text(info))->delay == info.delay);
    CHECK_FALSE(info == begun());
    auto machine = an_info().machine;
    CHECK(end_to_text(machine).find("round_trip") == std::string::npos);
    machine->round_trip_ms = 11.354;
    CHECK(read_end(end_to_text(machine)) == machine);
    CHECK_FALSE(machine == an_info().machine);
    const auto spoilt_by = [](std::string text, const std::string& is, const std::string& becomes) {
        return text.replace(text.find(is), is.size(), becomes);
    };
    for (const std::string strings :
         {"[0,-50.5]", "[\"8\"]", "8", "[0,0,0,0,0,0,0,0,1]", "[1e999]"}) {
        INFO(strings);
        CHECK_THROWS_AS(read_info(spoilt_by(to_text(info), "[0.0,-1.25,8.0]", strings)),
                        text::BadInput);
    }
    for (const std::string trip : {"-1", "1001", "\"11\"", "[11]"}) {
        INFO(trip);
        CHECK_THROWS_AS(read_end(spoilt_by(end_to_text(machine), "11.354", trip)), text::BadInput);
    }
}

TEST_CASE("every decision comes back from its text", "[practice]") {
    for (const roadmap::Decision& decision :
         {roadmap::Decision{2, roadmap::NewTempo{time::Bpm(99.75)}},
          roadmap::Decision{9, roadmap::LaysOut{roadmap::everybody}},
          roadmap::Decision{10, roadmap::LaysOut{roadmap::everybody, false}},
          roadmap::Decision{200'001, roadmap::Stopped{}}}) {
        CHECK(read_decision(to_text(decision)) == decision);
    }
}

TEST_CASE("another way, a pause, and who of the band lays out come back from their texts",
          "[practice]") {
    chart::Way way;
    way.stretches = {{{5, 8}, "head", {}, false}, {{5, 8}, "", {}, true}};
    way.goes_on = true;
    auto tune = chart::Way::of({1, 12}, 2);
    tune.held_ending = true;
    for (const roadmap::Decision& decision :
         {roadmap::Decision{4, roadmap::LaysOut{{true, false, true, false}}},
          roadmap::Decision{4, roadmap::LaysOut{{false, true, false, true}, false}},
          roadmap::Decision{9, roadmap::NewWay{way}}, roadmap::Decision{17, roadmap::Paused{}},
          roadmap::Decision{17, roadmap::Waited{100'000, tune}}}) {
        CHECK(read_decision(to_text(decision)) == decision);
    }
}

TEST_CASE("a decision that left the player alone is still read", "[practice]") {
    const auto read = [](const std::string& text) {
        return read_decision("compline:decided " + text).what;
    };
    CHECK(read("{\"from_bar\": 9, \"left_alone\": true}") ==
          decltype(roadmap::Decision::what)(roadmap::LaysOut{roadmap::everybody}));
    CHECK(read("{\"from_bar\": 9, \"left_alone\": false}") ==
          decltype(roadmap::Decision::what)(roadmap::LaysOut{roadmap::everybody, false}));
}

TEST_CASE("a decision that says nothing, or what nobody can do, is refused", "[practice]") {
    const std::string way = "\"way\": [{\"bars\": [1, 4]}]";
    for (const std::string& said :
         {std::string("\"paused\": false"), std::string("\"stopped\": false"),
          std::string("\"lays_out\": [\"piano\"]"), std::string("\"waited_beats\": 4"),
          "\"waited_beats\": 0, " + way, "\"waited_beats\": 100001, " + way,
          std::string("\"way\": []"), std::string("\"thing\": 1")}) {
        INFO(said);
        CHECK_THROWS_AS(read_decision("compline:decided {\"from_bar\": 9, " + said + "}"),
                        text::BadInput);
    }
}

TEST_CASE("a ladder that was asked for, and each of its steps, come back from their texts") {
    using roadmap::LadderStep;
    auto info = begun();
    CHECK(to_text(info).find("ladder") == std::string::npos);
    info.asked.ladder = roadmap::AskedLadder{time::Bpm(96), time::Bpm(132)};
    CHECK(to_text(info).find(R"("ladder_bpm":[96.0,132.0])") != std::string::npos);
    CHECK(read_info(to_text(info))->asked.ladder == info.asked.ladder);
    for (const auto judged : {LadderStep::Judged::clean, LadderStep::Judged::not_clean,
                              LadderStep::Judged::too_little, LadderStep::Judged::not_whole}) {
        for (const auto next :
             {LadderStep::Next::again, LadderStep::Next::faster, LadderStep::Next::slower,
              LadderStep::Next::section, LadderStep::Next::enough}) {
            LadderStep step{3, time::Bpm(96), judged, 9, 8, 7, next, time::Bpm(100), {}};
            CHECK(read_decision(to_text(roadmap::Decision{13, step})) ==
                  roadmap::Decision{13, step});
            step.above = time::Bpm(100);
            CHECK(read_decision(to_text(roadmap::Decision{13, step})) ==
                  roadmap::Decision{13, step});
        }
    }
    const std::string step =
        R"({"from_bar": 5, "ladder": {"time_through": 1, "tempo_bpm": 96, "judged": "clean",
            "due": 4, "struck": 4, "right": 4, "next": "again", "next_bpm": 96}})";
    CHECK(read_decision("compline:decided " + step).from_bar == 5);
    for (const auto& [is, becomes] :
         std::vector<std::pair<std::string, std::string>>{{R"("clean")", R"("spotless")"},
                                                          {R"("again")", R"("upwards")"},
                                                          {R"("right": 4)", R"("right": 5)"},
                                                          {R"("struck": 4)", R"("struck": -1)"},
                                                          {R"("next_bpm": 96)", R"("next_bpm": 9)"},
                                                          {R"("due": 4)", R"("do": 4)"}}) {
        auto damaged = step;
        damaged.replace(damaged.find(is), is.size(), becomes);
        INFO(damaged);
        CHECK_THROWS_AS(read_decision("compline:decided " + damaged), text::BadInput);
    }
    for (const std::string tempi : {"[132, 96]", "[96]", "[96, 500]", "[96, \"fast\"]", "96"}) {
        auto text = to_text(info);
        const std::string is = "[96.0,132.0]";
        INFO(tempi);
        CHECK_THROWS_AS(read_info(text.replace(text.find(is), is.size(), tempi)), text::BadInput);
    }
}

TEST_CASE("decisions come back with a take, when they were made, whole or cut short") {
    Take take = a_take(5);
    take.info->decided = {{Seconds(1.25), {3, roadmap::NewTempo{time::Bpm(144)}}},
                          {Seconds(2.5), {5, roadmap::LaysOut{roadmap::everybody}}}};
    const Take back = read_back(written(take));
    REQUIRE(back.info->decided.size() == 2);
    CHECK(back.info->decided[0].decision == take.info->decided[0].decision);
    CHECK(back.info->decided[0].at.count() == Approx(1.25).margin(3e-5));
    CHECK(back.info->decisions()[1] == take.info->decided[1].decision);

    const tests::TemporaryFolder folder;
    TakeFile file(folder.path() / "x.mid", {begun(), road()}, files::Access::own);
    file.add(take.info->decided[0]);
    const Take cut = read_back(files::load_bytes(file.path()));
    REQUIRE(cut.info->decided.size() == 1);
    CHECK(cut.info->decided[0].decision == take.info->decided[0].decision);
    CHECK_FALSE(cut.info->ended);
}

TEST_CASE("text that is not a take's is passed over", "[practice]") {
    for (const std::string text : {"", "hello", "{", "[]", "3", "{\"schema\": 1}",
                                   "{\"schema\": \"compline.report/2\", \"chart\": \"x\"}"}) {
        INFO(text);
        CHECK_FALSE(with_text(text).info.has_value());
    }
    CHECK(with_text(to_text(an_info())).info.has_value());
}

TEST_CASE("a take's text that cannot be read is refused, with what was found", "[practice]") {
    CHECK(refused([&] { (void)with_text(spoilt("compline.take/2", "compline.take/3")); },
                  {"it is a compline.take/3", "a later one may read it"}));
    CHECK(refused([&] { (void)with_text(spoilt("\"asked\":{", "\"asked\":{,")); },
                  {"the take's text: byte", "it is damaged"}));
    CHECK(refused([&] { (void)with_text(spoilt("[9,12]", "[9,1e999]")); },
                  {"the take's text: it is damaged", "a number in it is too large"}));
    CHECK(refused([&] { (void)with_text(spoilt("\"asked\":{", "\"nobody\":{")); },
                  {"there is no \"asked\""}));
    CHECK(refused([&] { (void)with_text("{\"schema\": \"compline.take/1\"}"); },
                  {"the take's text: there is no \"chart\""}));
}

TEST_CASE("a take's text with impossible numbers is not read as other numbers", "[practice]") {
    const std::vector<std::array<std::string, 3>> pieces{
        {"[9,12]", "[1e300,12]", "asked.way.1.bars.1: 1e+300"},
        {"[9,12]", "[9.5,12]", "asked.way.1.bars.1: 9.5"},
        {"[9,12]", "[9]", "asked.way.1.bars: a list, expected the first bar and the last"},
        {"[9,12]", "[12,9]", "expected the first bar first"},
        {"[9,12]", "[4294967305,4294967308]", "asked.way.1.bars.1: 4294967305"},
        {"\"times\":3", "\"times\":\"3\"", "asked.way.1.times: \"3\""},
        {"\"times\":3", "\"times\":18446744073709551615", "asked.way.1.times"},
        {"\"tempo_bpm\":132.0", "\"tempo_bpm\":null", "there is no \"tempo_bpm\""},
        {"\"tempo_bpm\":132.0", "\"tempo_bpm\":900", "asked.tempo_bpm: 900"},
        {"\"cycles\":1.5", "\"cycles\":-1", "calibration.cycles: -1"},
        {"\"rhythm\":\"1 2&\"", "\"rhythm\":\"often\"", "settings.rhythm: \"often\""},
        {"\"against\":\"beat\"", "\"against\":\"time\"", "settings.against: \"time\""},
        {"\"seed\":1", "\"seed\":-1", "band.seed: -1"}};
    for (const auto& piece : pieces) {
        INFO(piece[1]);
        CHECK(refused([&] { (void)read_info(spoilt(piece[0], piece[1])); }, {piece[2]}));
    }
}

TEST_CASE("the notes of a take can be had alone, whatever it says of itself", "[practice]") {
    midi::File file = to_file(a_take(3), road());
    for (auto& event : file.tracks[0].events) {
        auto* const meta = std::get_if<midi::MetaEvent>(&event.event);
        if (meta != nullptr && meta->type == midi::meta::text) meta->data.resize(100);
    }
    CHECK_THROWS_AS(read_take(file), text::BadInput);
    const Take notes = read_take(file, TakeTexts::ignored);
    CHECK_FALSE(notes.info.has_value());
    CHECK(notes.marked);
    CHECK(notes.messages.size() == a_take(3).messages.size());
    CHECK(notes.interruptions.size() == a_take(3).interruptions.size());
}

TEST_CASE("other texts before a take's own do not hide it", "[practice]") {
    midi::File file = to_file(a_take(3), road());
    auto& events = file.tracks[0].events;
    events.insert(events.begin(), {0, midi::text_event(midi::meta::text, "made by hand")});
    const Take back = read_take(file);
    REQUIRE(back.info.has_value());
    CHECK(*back.info == an_info());
}

TEST_CASE("a take cut short at any byte is read up to there, times and text unchanged",
          "[practice]") {
    const auto bytes = written(a_take(4));
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
        // How it ended is known only when the end is there.
        REQUIRE(*take.info == (take.info->ended ? an_info() : begun()));
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
        if (take.info->ended) last = whole.end;
        REQUIRE(take.end == last);
    }
    CHECK(longest == whole.messages.size());
}

TEST_CASE("interruptions come back with a take, where they were") {
    const Take take = a_take(3);
    const Take again = read_back(written(take));
    REQUIRE(take.interruptions.size() == 4);
    REQUIRE(again.interruptions.size() == 4);
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(again.interruptions[i].count() ==
              Approx(take.interruptions[i].count()).margin(0.00002));
    }
}

TEST_CASE("the cable's coming out and in, and a pedal's own messages, come back with a take") {
    Take take = a_take(3);
    const auto plain = written(take);
    take.cable = {{Seconds(0.5), true}, {Seconds(3.5), false}};
    take.pedal = {{Seconds(0.7), midi::control_change(1, 64, 127)},
                  {Seconds(0.9), midi::program_change(2, 3)}};
    take.info->pedal = {"64=loop here", true};
    const Take again = read_back(written(take));
    REQUIRE(again.cable.size() == 2);
    CHECK(again.cable[0].out);
    CHECK_FALSE(again.cable[1].out);
    CHECK(again.cable[1].at.count() == Approx(3.5).margin(0.00002));
    REQUIRE(again.pedal.size() == 2);
    CHECK(again.pedal[0].message == take.pedal[0].message);
    CHECK(again.pedal[1].message == take.pedal[1].message);
    CHECK(again.pedal[0].at.count() == Approx(0.7).margin(0.00002));
    CHECK(again.messages.size() == take.messages.size());
    CHECK(*again.info == *take.info);
    take.info->pedal.own_port = false;
    CHECK_FALSE(*again.info == *take.info);
    // Who has neither has a take as it always was.
    take.cable.clear();
    take.pedal.clear();
    take.info->pedal = {};
    CHECK(written(take) == plain);
}

TEST_CASE("what a pedal sent that is damaged is refused") {
    for (const char* bytes : {"", "176 64", "176 64 127 1", "300 64 127", "64 127", "x"}) {
        auto file = to_file(a_take(3), road());
        file.tracks[1].add(file.tracks[1].end,
                           midi::text_event(midi::meta::text, pedal_text + std::string(bytes)));
        CHECK_THROWS_WITH(
            read_take(file),
            "the take's text: what came from the pedal is damaged: it is one MIDI message");
    }
}

TEST_CASE("a pedal in a take that is being played moves nothing of the guitar's") {
    const tests::TemporaryFolder folder;
    const auto path = folder.path() / "evening.mid";
    TakeFile file(path, {begun(), road()}, files::Access::own);
    file.add({Seconds(1), midi::note_on(1, 60, 80)});
    file.add_pedal({Seconds(1.5), midi::control_change(1, 64, 127)});
    file.add({Seconds(1.2), midi::note_off(1, 60)});
    const auto take = read_back(files::load_bytes(path));
    REQUIRE(take.messages.size() == 2);
    CHECK(take.messages[1].at.count() == Approx(1.2).margin(0.00002));
    CHECK(take.pedal.size() == 1);
}

TEST_CASE("hours of silence fit between two notes of a take, whole or cut short") {
    const tests::TemporaryFolder folder;
    Take take;
    take.info = an_info();
    take.messages = {{Seconds(1), midi::note_on(1, 60, 80)},
                     {Seconds(20000), midi::note_off(1, 60)}};
    take.end = Seconds(40000);
    const Take again = read_back(written(take, 400));
    REQUIRE(again.messages.size() == 2);
    CHECK(again.messages[1].at.count() == Approx(20000).margin(0.0001));
    CHECK(again.end.count() == Approx(40000).margin(0.0001));

    TakeFile file(folder.path() / "long.mid", {an_info(), road(400)}, files::Access::own);
    for (const auto& timed : take.messages) file.add(timed);
    const Take cut = read_back(files::load_bytes(file.path()));
    REQUIRE(cut.messages.size() == 2);
    CHECK(cut.messages[1].at.count() == Approx(20000).margin(0.0001));
}

TEST_CASE("a take says all that was asked of the band, so that it can be played again") {
    TakeInfo info = begun();
    auto& asked = info.asked;
    asked.way.stretches = {
        {{9, 12}, "intro", {}},
        {{1, 12}, "head", {chart::Feel::bossa, {}, chart::Bass::roots, true}},
        {{1, 12}, "solo", {{}, chart::Drums::hats, {}, false, chart::Phrasing::breathing}},
        {{1, 12}, "solo", {{}, chart::Drums::hats, {}, false, chart::Phrasing::breathing}},
        {{1, 12}, "head", {}, true}};
    asked.way.held_ending = true;
    asked.manner = {chart::Feel::straight, chart::Drums::ride, {}};
    asked.swing = roadmap::AskedSwing{1.62};
    asked.count_in_bars = 0;
    asked.click = roadmap::Click{{time::Ticks(960), time::Ticks(2880)}, 2};
    asked.silence = roadmap::Silence{3, 1, true, true};
    auto& players = info.players;
    players.hihat_beats = {2, 3};
    players.fills = true;
    players.crash = true;
    players.seed = 987654;
    players.melody = {{time::Beats(0.3), time::Beats(1.0 / 3), harmony::MidiNote(61), 99}};
    asked.melody = true;
    info.stage.seat(band::Chair::bass).behind = time::from_milliseconds(7.5);
    info.stage.seat(band::Chair::ride).gain = 0.1F;
    info.stage.seat(band::Chair::hats).pan = -0.3F;
    info.voicings = "shells near=5";
    const auto back = read_info(to_text(info));
    REQUIRE(back);
    CHECK(back->asked == info.asked);
    CHECK(back->players.melody == players.melody);
    CHECK(back->players.hihat_beats == players.hihat_beats);
    CHECK(back->players.seed == players.seed);
    CHECK(back->players.fills);
    CHECK(back->players.crash);
    CHECK(back->stage == info.stage);
    CHECK(*back == info);
    CHECK(map_of(*back, form()).bars() == 4 + 4 * 12);

    info.asked.way = chart::Way::of({1, 12}, std::nullopt);
    info.asked.swing = roadmap::AskedSwing{};
    CHECK(read_info(to_text(info))->asked == info.asked);
    CHECK(map_of(info, form()).goes_on());
}

TEST_CASE("a thousand times through are one line of a take's text") {
    TakeInfo info = begun();
    info.asked.way = chart::Way::of({1, 12}, 1000);
    CHECK(to_text(info).size() < to_text(begun()).size() + 20);
    CHECK(read_info(to_text(info))->asked.way == info.asked.way);
}

TEST_CASE("a take whose road map makes no sense is refused by what it says") {
    TakeInfo info = begun();
    info.asked.way.stretches = {{{9, 12}, "intro", {}},
                                {{1, 12}, "", {chart::Feel::bossa, chart::Drums::hats, {}}}};
    const auto text = to_text(info);
    const auto with = [&](const std::string& from, const std::string& to) {
        auto other = text;
        const auto at = other.find(from);
        REQUIRE(at != std::string::npos);
        return other.replace(at, from.size(), to);
    };
    CHECK(refused([&] { (void)read_info(with("\"bossa\"", "\"samba\"")); },
                  {"asked.way.2.manner.feel: \"samba\""}));
    CHECK(refused([&] { (void)read_info(with("\"hats\"", "\"spoons\"")); }, {"spoons"}));
    CHECK(refused([&] { (void)read_info(with("\"name\":\"intro\"", "\"name\":7")); },
                  {"asked.way.1.name: 7, expected a text"}));
    CHECK(refused([&] { (void)read_info(with("\"way\":[{", "\"way\":[],\"x\":[{")); },
                  {"expected a time through at least"}));
    info.asked.way = chart::Way::of({1, 13}, 2);
    CHECK(refused([&] { (void)map_of(info, form()); },
                  {"the take: bars 1 to 13", "the chart has bars 1 to 12"}));
    info = begun();
    info.decided = {{Seconds(0), {99, roadmap::NewTempo{time::Bpm(100)}}}};
    CHECK(refused([&] { (void)map_of(info, form()); }, {"from bar 99"}));
}

TEST_CASE("a take that is being written can be read at any moment, to its last event") {
    const tests::TemporaryFolder folder;
    const Take whole = a_take(8);
    const auto path = folder.path() / "evening.mid";
    TakeInfo info = begun();
    info.asked.way = chart::Way::of({9, 12}, std::nullopt);
    TakeFile file(path, {info, road()}, files::Access::own);
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
    CHECK(bytes == written(whole));
    CHECK_FALSE(midi::read_smf(bytes).cut_at.has_value());
}

TEST_CASE("a take is never written over another file, and belongs to the player alone") {
    const tests::TemporaryFolder folder;
    const auto path = folder.path() / "evening.mid";
    const Opening opening{an_info(), road()};
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
    TakeFile file(path, {an_info(), road()}, files::Access::own);
    std::filesystem::remove(path);
    const auto bytes = file.finish(a_take(8));
    CHECK(files::load_bytes(path) == bytes);
    CHECK((std::filesystem::status(path).permissions() & std::filesystem::perms::mask) ==
          (std::filesystem::perms::owner_read | std::filesystem::perms::owner_write));
}

TEST_CASE("a file that was put where a take was is not overwritten by it") {
    const tests::TemporaryFolder folder;
    const auto path = folder.path() / "evening.mid";
    TakeFile file(path, {an_info(), road()}, files::Access::own);
    std::filesystem::remove(path);
    files::save_text(path, "somebody else's", files::Existing::keep);
    CHECK_THROWS_AS(file.finish(a_take(8)), files::AlreadyThere);
    CHECK(files::load_text(path) == "somebody else's");
}

TEST_CASE("a take keeps its order when a clock steps back") {
    const tests::TemporaryFolder folder;
    TakeFile file(folder.path() / "x.mid", {an_info(), road()}, files::Access::own);
    file.add({Seconds(1), midi::note_on(1, 60, 80)});
    file.add({Seconds(0.9), midi::note_off(1, 60)});
    const Take take = read_back(files::load_bytes(file.path()));
    REQUIRE(take.messages.size() == 2);
    CHECK(take.messages[1].at == take.messages[0].at);
}

TEST_CASE("the times through of a take's text are counted together") {
    const std::string once = R"({"bars":[9,12],"times":3})";
    CHECK(read_info(spoilt(once, once + "," + once)).has_value());
    CHECK_THROWS_AS(read_info(spoilt(once, R"({"bars":[9,12],"times":20000},)" + once)),
                    text::BadInput);
}
