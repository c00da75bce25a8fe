// The guitar of the band: when it strikes, what it plays, and when it lays out.

#include "support/booking.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"
#include "support/voicings.hpp"

#include <compline/band/comping.hpp>
#include <compline/band/part_writer.hpp>
#include <compline/band/place.hpp>
#include <compline/band/smf.hpp>
#include <compline/chart/road_map_text.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

using namespace compline;
using chart::Feel;
using time::eighth_note;
using time::Ticks;

namespace {

using Bars = std::vector<std::string>;

chart::Form form_of(const Bars& bars, int beats = 4, double bpm = 132) {
    return tests::make_form(time::Meter(beats), time::Bpm(bpm), bars);
}

tests::Booking booking_for(const chart::Form& form, std::optional<Feel> feel = std::nullopt) {
    auto booking = tests::Booking::of(form.whole(), 1, 0);
    booking.asked.manner.feel = feel;
    booking.players.voicings = tests::plan_by_hand(form);
    return booking;
}

std::vector<band::GuitarNote> guitar_of(const chart::Form& form, const tests::Booking& booking) {
    return booking.play(form).guitar;
}

/// Where strums begin, each once.
std::set<Ticks> strums_of(const std::vector<band::GuitarNote>& notes) {
    std::set<Ticks> strums;
    for (const auto& note : notes) strums.insert(note.at);
    return strums;
}

/// "1 2& | 1 3": the strums of each bar.
std::string rhythm(const Bars& bars, std::optional<Feel> feel = std::nullopt, int beats = 4) {
    const auto form = form_of(bars, beats);
    const auto strums = strums_of(guitar_of(form, booking_for(form, feel)));
    std::string text;
    for (std::size_t i = 0; i < bars.size(); ++i) {
        if (i > 0) text += " |";
        for (const auto at : strums) {
            if (at / form.chart.meter.bar() != static_cast<std::int64_t>(i)) continue;
            const auto in_bar = at % form.chart.meter.bar();
            const bool off = in_bar % time::quarter_note != Ticks(0);
            text += fmt::format("{}{}{}", text.empty() ? "" : " ", in_bar / time::quarter_note + 1,
                                off ? "&" : "");
        }
    }
    return text;
}

/// The notes of a strum, from the lowest string on.
std::vector<int> struck_at(const std::vector<band::GuitarNote>& notes, Ticks at) {
    std::vector<int> struck;
    for (const auto& note : notes) {
        if (note.at == at) struck.push_back(note.note.number());
    }
    return struck;
}

std::vector<int> notes_of(const guitar::VoicingPlan& plan, Ticks in_form) {
    std::vector<int> notes;
    for (const auto& place : plan.at(in_form)->grip.shape.places()) {
        notes.push_back(plan.fretboard.note(place).number());
    }
    return notes;
}

constexpr Ticks bar{3840};

roadmap::RoadMap at_120(tests::Booking booking, const chart::Form& form) {
    booking.asked.tempo = time::Bpm(120);
    booking.asked.swing = roadmap::AskedSwing{2};
    return booking.map(form);
}

/// When a string is struck at 120 bpm, swung 2:1.
double time_of(const band::GuitarNote& note) {
    const auto beats = static_cast<double>(note.at / time::quarter_note);
    const bool off = note.at % time::quarter_note != Ticks(0);
    return (beats + (off ? 2.0 / 3 : 0.0)) * 0.5 + note.rolled.count();
}

}  // namespace

TEST_CASE("in a ballad the guitar holds its chords, on strong beats, each up to the next") {
    CHECK(rhythm({"Cm7 F7", "Bb7 Eb7"}, Feel::ballad) == "1 3 | 1 3");
    CHECK(rhythm({"F7", "Bb7"}, Feel::ballad, 3) == "1 | 1");
    const auto form = form_of({"F7", "Bb7 C7", "F7", "F7"}, 4, 66);
    const auto notes = guitar_of(form, booking_for(form, Feel::ballad));
    const auto strums = strums_of(notes);
    for (const int chord : {0, 2, 3, 4, 6}) CHECK(strums.contains(time::quarter_note * 2 * chord));
    for (const auto& note : notes) {
        CHECK(note.at % (time::quarter_note * 2) == Ticks(0));
        const auto next = strums.upper_bound(note.at);
        const auto bar_line = bar * (note.at / bar + 1);
        CHECK(note.at + note.length ==
              (next == strums.end() ? bar_line : std::min(*next, bar_line)));
    }
}

TEST_CASE("nobody comps where nobody plays changes, and what follows comes where it starts") {
    const auto played = rhythm({"N.C.", "F7", "N.C. / F7 /", "N.C."});
    CHECK(played.starts_with(" | 1 "));
    CHECK(played.ends_with(" | 3 |"));
}

TEST_CASE("the guitar plays kicks, and one just before a chord brings that chord") {
    CHECK(rhythm({"F7! / /&! /", "Bb7"}).starts_with("1 3& | "));
    const Bars bars{"F7 / / /&!", "Bb7"};
    CHECK(rhythm(bars).starts_with("1 4& | "));
    CHECK(rhythm(bars).find("| 1") == std::string::npos);
    const auto form = form_of(bars);
    const auto booking = booking_for(form);
    const auto notes = guitar_of(form, booking);
    CHECK(struck_at(notes, Ticks(3360)) == notes_of(*booking.players.voicings, bar));
    const auto kick =
        std::find_if(notes.begin(), notes.end(), [](const auto& n) { return n.at == Ticks(3360); });
    CHECK(kick->velocity > notes.front().velocity);
    CHECK(kick->at + kick->length == bar);
}

TEST_CASE("the guitar plays the plan, chord for chord, its strings from the lowest on") {
    const auto form = form_of({"Dm7", "G7", "C6 A7", "C6 / / A7"});
    auto booking = booking_for(form);
    booking.players.voicings =
        tests::plan_by_hand(form, {{"Dm7", {"x5756x", "x1423x"}}, {"G7", {"xx545x", "xx213x"}}});
    const auto notes = guitar_of(form, booking);
    CHECK(struck_at(notes, Ticks(0)) == std::vector<int>{50, 57, 60, 65});
    std::set<std::vector<int>> heard;
    for (const auto at : strums_of(notes)) {
        const auto struck = struck_at(notes, at);
        heard.insert(struck);
        const bool before_bar = at % bar == bar - eighth_note;
        CHECK((struck == notes_of(*booking.players.voicings, at) ||
               (before_bar && struck == notes_of(*booking.players.voicings, at + eighth_note))));
    }
    CHECK(heard.contains({55, 59, 64}));
    CHECK(notes[0].rolled == time::Seconds(0));
    CHECK(notes[3].rolled > notes[2].rolled);
    CHECK(notes[3].rolled < time::Seconds(0.020));
}

TEST_CASE("no strum rings into the next, nor past its chord") {
    const Bars bars{"Dm7", "G7 Db7", "C6", "%", "N.C.", "A7 / /&! D7!", "F6! /&! N.C. F6"};
    for (const auto feel : {Feel::swing, Feel::straight, Feel::bossa, Feel::ballad}) {
        const auto form = form_of(bars);
        const auto notes = guitar_of(form, booking_for(form, feel));
        const auto strums = strums_of(notes);
        for (const auto& note : notes) {
            const auto next = strums.upper_bound(note.at);
            CHECK(note.length > Ticks(0));
            if (next != strums.end()) CHECK(note.at + note.length <= *next);
            CHECK((note.at + note.length <= bar * 4 || note.at >= bar * 5));
            CHECK(note.at + note.length <= bar * 7);
        }
    }
}

TEST_CASE("the guitar lays out when the band does, and nothing of it rings on") {
    const auto form = form_of({"F7", "Bb7", "C7", "F7"}, 4, 66);
    auto booking = booking_for(form, Feel::ballad);
    booking.asked.silence = roadmap::read_silence("1:1");
    const auto notes = guitar_of(form, booking);
    CHECK(!notes.empty());
    for (const auto& note : notes) {
        CHECK(note.at / bar % 2 == 0);
        CHECK((note.at + note.length - Ticks(1)) / bar % 2 == 0);
    }
    CHECK(tests::silent_bars(booking.map(form)) == std::vector<std::int64_t>{2, 4});
    // Drums alone lay out: guitar and bass play on.
    booking.asked.silence = roadmap::read_silence("1:1 drums");
    std::set<std::int64_t> heard;
    for (const auto at : strums_of(guitar_of(form, booking))) heard.insert(at / bar);
    CHECK(heard.size() == 4);
    auto trading = booking_for(form);
    trading.asked.way = chart::read_road_map(form, "head; trading: silent; head");
    for (const auto& note : guitar_of(form, trading)) CHECK(note.at / (bar * 4) != 1);
}

TEST_CASE("the same voicings come in every time through, and in the bars of a passage") {
    const auto form = form_of({"Dm7", "G7", "C6 A7", "C6 / / A7"});
    auto booking = booking_for(form);
    booking.asked.way = chart::read_road_map(form, "head; vamp x2: bars=2-3; head; tag");
    const auto notes = guitar_of(form, booking);
    std::size_t strums = 0;
    for (const auto at : strums_of(notes)) {
        const auto voicing = [&](Ticks played) {
            const auto place = booking.map(form).place_at(played);
            return notes_of(*booking.players.voicings, bar * (place.bar - 1) + place.in_bar);
        };
        const auto struck = struck_at(notes, at);
        const bool before_bar = at % bar == bar - eighth_note;
        CHECK((struck == voicing(at) || (before_bar && struck == voicing(at + eighth_note))));
        ++strums;
    }
    CHECK(strums > 30);
}

TEST_CASE("a held ending is the tonic, as the plan has it last, and rings") {
    const auto form = form_of({"Dm7", "G7", "C6", "G7"});
    auto booking = booking_for(form);
    booking.asked.way = chart::read_road_map(form, "head; held ending");
    const auto notes = guitar_of(form, booking);
    CHECK(struck_at(notes, bar * 4) == notes_of(*booking.players.voicings, bar * 2));
    CHECK(notes.back().length == bar * 2);
    // A tune without its tonic ends on a shell of it.
    const auto other = form_of({"Dm7", "G7"});
    auto without = booking_for(other);
    without.asked.way = chart::read_road_map(other, "head; held ending");
    CHECK(struck_at(guitar_of(other, without), bar * 2).front() % 12 == 0);
}

TEST_CASE(
    "the last chord is a tonic: in minor a minor one, and rather not one that would lead on") {
    const auto last = [](chart::Form form, bool minor) {
        for (auto& written : form.bars) written.key.minor = minor;
        auto booking = booking_for(form);
        booking.asked.way = chart::read_road_map(form, "head; held ending");
        const auto notes = guitar_of(form, booking);
        const auto end = bar * static_cast<std::int64_t>(form.bars.size());
        return std::pair(struck_at(notes, end), booking);
    };
    const auto has = [](const std::vector<int>& notes, int pitch_class) {
        return std::any_of(notes.begin(), notes.end(),
                           [&](int note) { return note % 12 == pitch_class; });
    };
    const auto [minor, in_minor] = last(form_of({"Cm6", "C7", "Fm7", "G7"}), true);
    CHECK(minor == notes_of(*in_minor.players.voicings, Ticks(0)));
    const auto [none, without] = last(form_of({"C7", "Fm7", "G7", "G7"}), true);
    CHECK(has(none, 3));  // E flat, of a shell
    CHECK_FALSE(has(none, 4));
    const auto [major, in_major] = last(form_of({"Cmaj7", "C7", "F6", "C6/G"}), false);
    CHECK(major == notes_of(*in_major.players.voicings, Ticks(0)));
    const auto [blues, in_blues] = last(form_of({"C7", "F7", "G7", "F7"}), false);
    CHECK(blues == notes_of(*in_blues.players.voicings, Ticks(0)));
}

TEST_CASE("a band that is given no voicings has no guitar") {
    const auto form = form_of({"Dm7", "G7"});
    auto booking = booking_for(form);
    booking.players.voicings.reset();
    CHECK(guitar_of(form, booking).empty());
}

TEST_CASE("the guitar has a chair of its own, to be mixed, moved and laid back") {
    const auto form = form_of({"Dm7", "G7"});
    const auto booking = booking_for(form);
    auto part = booking.play(form);
    part.strokes.clear();
    part.notes.clear();
    const auto map = at_120(booking, form);
    const time::SampleRate rate(48000);
    const auto usual = band::place(part, map, rate, time::Frames(0));
    band::Stage stage;
    band::read_mix("guitar=-6.0206", stage);
    band::read_pan("guitar=0.5", stage);
    band::read_placement("guitar=+10", stage);
    const auto moved = band::place(part, map, rate, time::Frames(0), stage);
    REQUIRE(usual.size() == part.guitar.size());
    REQUIRE(moved.size() == usual.size());
    for (std::size_t i = 0; i < usual.size(); ++i) {
        CHECK(moved[i].gain == Approx(0.5 * usual[i].gain).epsilon(1e-4));
        CHECK(moved[i].pan == 0.5F);
        CHECK(usual[i].pan < 0);
        CHECK((moved[i].at - usual[i].at) == time::Frames(480));
        CHECK(usual[i].stop > usual[i].at);
    }
    CHECK(band::placement_in_words(stage) == "guitar +10");
    // String by string: 4 ms from one to the next; the strum is let go as one.
    CHECK(usual[1].at - usual[0].at == time::Frames(192));
    CHECK(usual[1].stop == usual[0].stop);
}

TEST_CASE("in a MIDI file the guitar has a track and a channel of its own, and is a jazz guitar") {
    const auto form = form_of({"Dm7", "G7"});
    const auto booking = booking_for(form);
    const auto map = at_120(booking, form);
    const auto part = band::arrange(map, booking.players);
    const auto file = band::to_smf(map, part);
    const auto recording = midi::flatten(file);
    CHECK(std::count_if(recording.texts.begin(), recording.texts.end(),
                        [](const auto& text) { return text.text == "Guitar"; }) == 1);
    std::size_t notes = 0;
    int program = -1;
    for (const auto& timed : recording.messages) {
        const auto& message = timed.message;
        if (message.channel() != 3) continue;
        if (message.starts_note()) {
            CHECK(timed.at.count() == Approx(time_of(part.guitar.at(notes))).margin(0.0002));
            CHECK(message.data1 == part.guitar.at(notes).note.number());
            ++notes;
        } else if (!message.ends_note()) {
            program = message.data1;
        }
    }
    CHECK(notes == part.guitar.size());
    CHECK(program == 26);
    CHECK(file.tracks.size() == 4);
    auto alone = part;
    alone.guitar.clear();
    CHECK(band::to_smf(map, alone).tracks.size() == 3);
}

TEST_CASE("a full grip is struck as loud as a small one: softer on each string") {
    const auto form = form_of({"Dm7", "G7"});
    auto booking = booking_for(form, Feel::ballad);
    booking.players.voicings =
        tests::plan_by_hand(form, {{"Dm7", {"xx35xx", "xx13xx"}}, {"G7", {"353433", "131211"}}});
    const auto notes = guitar_of(form, booking);
    CHECK(struck_at(notes, Ticks(0)).size() == 2);
    CHECK(struck_at(notes, bar).size() == 6);
    const auto power = [&](Ticks at) {
        double sum = 0;
        for (const auto& note : notes) {
            if (note.at == at) sum += std::pow(band::gain_of(note.velocity), 2);
        }
        return sum;
    };
    CHECK(power(Ticks(0)) == Approx(power(bar)).epsilon(0.1));
}
