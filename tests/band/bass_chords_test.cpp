#include "support/bass_ear.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"
#include "support/our_forms.hpp"

#include <cstdlib>
#include <functional>

// What a teacher of rhythm sections circles in red, heard over every demo chart in every manner at
// twenty seeds, by an ear of its own (support/bass_ear).

using namespace compline;
using chart::Bass;
using chart::Feel;
using tests::HeardBass;
using time::Ticks;

namespace {

constexpr Ticks beat = time::quarter_note;
constexpr std::uint64_t seeds = 20;

struct Manner {
    const char* name;
    chart::AskedManner asked;
};

std::vector<Manner> manners() {
    return {{"as the chart has it", {}},
            {"walking", {Feel::swing, {}, Bass::walking}},
            {"in two", {Feel::swing, {}, Bass::two_feel}},
            {"a ballad in two", {Feel::ballad, {}, Bass::two_feel}},
            {"a ballad in four", {Feel::ballad, {}, Bass::walking}},
            {"on roots", {Feel::swing, {}, Bass::roots}},
            {"bossa", {Feel::bossa, {}, {}}}};
}

/// The forms in which such things were circled and that are on no demo chart.
std::vector<chart::Form> forms() {
    auto forms = tests::our_forms();
    const auto add = [&](const std::vector<std::string>& bars) {
        forms.push_back(tests::make_form(time::Meter(4), time::Bpm(120), bars));
    };
    add({"Ebmaj9", "Fm7", "Bb13", "Ebmaj9", "Cm7", "Fm7", "Bb7sus4", "Eb6"});
    add({"Dm7b5", "C7alt", "Fm7", "C7alt", "Cm7", "F7", "Csus4", "C"});
    add({"C7", "Dm7", "G7", "Am7", "F13", "Gm7", "C9", "D7"});  // dominants a tone below
    return forms;
}

using Check = std::function<bool(const std::vector<HeardBass>&, std::size_t)>;

/// Each note but the last of all, which may be home over any chord, is right.
void every_note(const char* wrong, const std::vector<Manner>& in, const Check& is_right) {
    for (const auto& form : forms()) {
        for (const auto& manner : in) {
            for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
                const auto line = tests::hear_bass(form, manner.asked, seed, 2);
                for (std::size_t i = 0; i + 1 < line.size(); ++i) {
                    if (is_right(line, i)) continue;
                    CAPTURE(form.chart.title, manner.name, seed, line[i].bar,
                            line[i].in_bar.count(), line[i].symbol, line[i].note, line[i + 1].note);
                    FAIL_CHECK(wrong);
                }
            }
        }
    }
}

/// The next note on a beat; a short one between is passed over.
const HeardBass& next_of(const std::vector<HeardBass>& line, std::size_t i) {
    return line[i + 1].short_one && i + 2 < line.size() ? line[i + 2] : line[i + 1];
}

/// Already the next chord's: a kick or a bossa's last eighth ahead of it.
bool is_ahead(const HeardBass& note) {
    return note.at % beat != Ticks(0) && note.chord_ends - note.at < beat;
}

/// The first beat, the third of 4/4 and the fourth of 5/4.
bool is_strong(const HeardBass& note, int beats) {
    const auto middle = beats == 4 ? beat * 2 : beats == 5 ? beat * 3 : Ticks(0);
    return note.in_bar == Ticks(0) || note.in_bar == middle;
}

const std::vector<Manner> in_four = {{"walking", {Feel::swing, {}, Bass::walking}},
                                     {"a ballad in four", {Feel::ballad, {}, Bass::walking}}};

}  // namespace

TEST_CASE("whatever lasts longer than a beat is a tone of its own chord") {
    every_note("a long note is foreign to its chord", manners(), [](const auto& line, auto i) {
        return line[i].length <= beat || line[i].kick || line[i].rests();
    });
}

TEST_CASE("on strong beats the bass plays a tone of the chord") {
    for (const auto& form : forms()) {
        const int beats = form.chart.meter.beats();
        for (const auto& manner : in_four) {
            for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
                for (const auto& note : tests::hear_bass(form, manner.asked, seed, 2)) {
                    const bool last = note.at + beat >= form.length() * 2;
                    if (last || !is_strong(note, beats) || note.rests()) continue;
                    CAPTURE(form.chart.title, manner.name, seed, note.bar, note.symbol, note.note);
                    FAIL_CHECK("a strong beat has a foreign tone");
                }
            }
        }
    }
}

TEST_CASE("what is foreign to a chord passes by step, or leads on its last quarter") {
    every_note("a foreign note goes nowhere", manners(), [](const auto& line, auto i) {
        if (line[i].rests() || line[i].short_one || is_ahead(line[i])) return true;
        const int way = std::abs(next_of(line, i).note - line[i].note);
        return way == 1 || way == 2 || (line[i].is_last_quarter() && (way == 5 || way == 7));
    });
}

TEST_CASE("what speaks against a chord is heard as a semitone into the next root, or not at all") {
    every_note("a tone that is never played on it", manners(), [](const auto& line, auto i) {
        if (line[i].rests() || line[i].short_one || is_ahead(line[i])) return true;
        if (!line[i].is_one_of(line[i].chord.against)) return true;
        const bool blue = line[i].chord.plain_dominant && line[i].above_root == 3;
        const int way = next_of(line, i).note - line[i].note;
        if (line[i].is_last_quarter()) return way == 1 || (way == -1 && !blue);
        return blue && way == 1;
    });
}

TEST_CASE("a half-diminished chord never has its natural fifth, a sus chord never its third") {
    every_note("the one wrong note", manners(), [](const auto& line, auto i) {
        return is_ahead(line[i]) || line[i].kick || line[i].slash_bass ||
               !line[i].is_one_of(line[i].chord.never);
    });
}

TEST_CASE("a chord of a bar or two is heard first by its root") {
    for (const auto& form : forms()) {
        const auto two_bars = beat * (2 * form.chart.meter.beats());
        for (const auto& manner : in_four) {
            for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
                const auto line = tests::hear_bass(form, manner.asked, seed, 2);
                for (std::size_t i = 0; i + 1 < line.size(); ++i) {
                    const auto& note = line[i];
                    const bool lasts = note.chord_ends - note.chord_starts > two_bars;
                    if (note.at != note.chord_starts || lasts || note.kick) continue;
                    CAPTURE(form.chart.title, manner.name, seed, note.bar, note.symbol);
                    CHECK((note.above_root == 0 || note.slash_bass));
                }
            }
        }
    }
}

TEST_CASE("a diminished chord is passed through a whole tone above its tones, not below its root") {
    every_note("another chord's root, or a step back", in_four, [](const auto& line, auto i) {
        const auto& symbol = line[i].symbol;
        if (symbol.find("dim") == std::string::npos || line[i].short_one) return true;
        const bool foreign = line[i].above_root % 3 == 1 || line[i].above_root == 11;
        const int way = std::abs(next_of(line, i).note - line[i].note);
        return !foreign || (line[i].is_last_quarter() && way == 1);
    });
}

TEST_CASE("in two and in ballads a chord of two beats has its root, as the one half note it has") {
    const std::vector<Manner> in_two = {{"in two", {Feel::swing, {}, Bass::two_feel}},
                                        {"a ballad", {Feel::ballad, {}, Bass::two_feel}}};
    every_note("a half note off the root", in_two, [](const auto& line, auto i) {
        if (line[i].chord_ends - line[i].chord_starts > beat * 2 || line[i].length <= beat) {
            return true;
        }
        return line[i].slash_bass || line[i].above_root == 0;
    });
}
