#include "support/catch.hpp"
#include "support/comper.hpp"
#include "support/forms.hpp"

#include <compline/simulate/chance.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

using namespace compline;
using harmony::Palette;
using harmony::PitchClasses;
using simulate::Chance;
using tests::Comper;

// Sessions by the hundred, made by chance, of which it is known how each change must be judged.
// Minor and major sevenths move by a semitone or a tritone, so that no grip could be both chords.

namespace {

struct Played {
    int bar = 1;
    double beat = 1;
    std::string grip;
    double late_ms = 0;
    double beats = 1;  ///< how long it rings
};

/// What is played on one chord and what must be said of it.
struct Session {
    std::vector<std::string> bars;  ///< a chord each
    double tempo = 120;
    double swing = 1;
    std::vector<Played> played;
    std::vector<std::string> expected;

    [[nodiscard]] std::string text() const {
        std::string text;
        for (const auto& bar : bars) text += (text.empty() ? "" : " | ") + bar;
        return text;
    }
};

PitchClasses sounding(const std::string& grip) {
    PitchClasses set;
    const auto board = guitar::Fretboard::standard();
    for (const auto& place : tests::shape(grip).places()) {
        set.set(static_cast<std::size_t>(board.note(place).pitch_class()));
    }
    return set;
}

/// In C, where F has its raised eleventh.
Palette palette_of(const std::string& symbol) {
    const auto chord = harmony::read_chord(symbol);
    harmony::Surroundings around;
    around.subdominant = chord.root == harmony::Spelling{harmony::Letter::F};
    return {chord, around, harmony::Strictness::working};
}

int fit(const Palette& palette, const std::string& grip) {
    const auto set = sounding(grip);
    return static_cast<int>(palette.accepted(set).count()) -
           static_cast<int>(palette.foreign(set).count());
}

/// The chord on a root as a seventh with the root on string 5 or 6, from fret 3 on.
std::string grip_of(int root, bool minor, bool on_sixth) {
    const int open = on_sixth ? 4 : 9;
    const int fret = (root - open + 12) % 12 + (on_sixth ? 0 : 1);
    const int up = fret < 4 ? 12 : 0;
    const char* shape = on_sixth ? (minor ? "2x222x" : "2x332x") : (minor ? "x3534x" : "x3545x");
    const int written = on_sixth ? 2 : 4;
    return tests::higher(shape, fret + up - written);
}

/// One string of a grip moved by a fret or two, so that just that tone is foreign and it is still
/// nearer to this chord than to the one before. Nothing where chance does not find one.
std::optional<std::string> spoilt(const std::string& grip, const Palette& here,
                                  const Palette& before, Chance& chance) {
    for (int tries = 0; tries < 60; ++tries) {
        auto shape = tests::shape(grip);
        auto& fret = shape.frets.at(chance.below(6));
        if (!fret) continue;
        *fret += static_cast<int>(chance.below(5)) - 2;
        if (*fret < 3) continue;  // room for a nearest fret below, in any key
        const auto text = shape.text();
        if (here.foreign(sounding(text)).count() != 1) continue;
        if (fit(here, text) > fit(before, text)) return text;
    }
    return std::nullopt;
}

std::string symbol_of(int root, bool minor) {
    constexpr const char* roots[] = {"C",  "Db", "D",  "Eb", "E",  "F",
                                     "F#", "G",  "Ab", "A",  "Bb", "B"};
    return std::string(roots[root]) + (minor ? "m7" : "maj7");
}

/// When a chord comes, and what that is called.
struct Timing {
    double late_ms;
    const char* verdict;
};

/// A habit when it is done more than once, and early when not.
constexpr const char* by_a_beat = "by a beat";

Timing timing(time::Bpm tempo, const time::Swing& swing, bool first, Chance& chance) {
    const double beat = tempo.beat().milliseconds();
    const double short_note = swing.short_note(tempo).milliseconds();
    const double tolerance = assess::auto_tolerance(tempo, swing).milliseconds();
    const auto between = [&](double low, double high) {
        return low + (high - low) * chance.uniform();
    };
    switch (chance.below(first ? 4 : 5)) {
        case 0:
            return {between(tolerance + 1, std::min(beat / 4, beat / 2 - tolerance) - 1), "late"};
        case 1:
            if (tolerance + 2 < short_note / 2 - 1) {
                return {between(-short_note / 2 + 1, -tolerance - 1), "early"};
            }
            [[fallthrough]];
        case 2:
            return {between(-beat / 2, -short_note), "pushed"};
        case 3:
            return {between(-tolerance + 1, tolerance - 1), "on_time"};
        default:
            return {-beat + between(-tolerance + 1, tolerance - 1), by_a_beat};
    }
}

void name_pushes_by_a_beat(std::vector<std::string>& expected) {
    const auto is_one = [](const std::string& word) { return word.starts_with(by_a_beat); };
    const auto count = std::count_if(expected.begin(), expected.end(), is_one);
    for (auto& word : expected) {
        if (is_one(word))
            word.replace(0, std::string(by_a_beat).size(), count > 1 ? "pushed" : "early");
    }
}

/// Eight strums tell nothing of a player: the beat judges.
assess::Settings by_the_beat() {
    assess::Settings settings;
    settings.against = assess::Against::beat;
    return settings;
}

Session session(Chance& chance) {
    Session session;
    session.tempo = 60 + static_cast<double>(chance.below(180));
    session.swing = 1 + 1.6 * chance.uniform();
    const time::Bpm tempo(session.tempo);
    const time::Swing swing(session.swing);
    constexpr int moves[] = {1, 6, 11};
    int root = static_cast<int>(chance.below(12));
    std::string before = symbol_of((root + 6) % 12, true);
    for (int bar = 1; bar <= 8; ++bar) {
        const bool minor = chance.below(2) == 0;
        const auto symbol = symbol_of(root, minor);
        const auto grip = grip_of(root, minor, chance.below(2) == 0);
        session.bars.push_back(symbol);
        const auto kind = chance.below(10);
        const bool just_played = !session.played.empty() && session.played.back().bar == bar - 1;
        // A wrong grip may be right for the next chord (B F A D for Bm7, then Fmaj7 in C).
        const bool would_fit =
            just_played && palette_of(symbol).foreign(sounding(session.played.back().grip)).none();
        if (kind == 0 && just_played && !would_fit) {
            // Forgotten: the chord before rings on.
            session.expected.emplace_back("missed");
            session.played.back().beats = 4 + 2.5;
        } else if (kind <= 1) {
            session.expected.emplace_back("laid_out");
        } else {
            const auto when = timing(tempo, swing, bar == 1, chance);
            const auto wrong = kind == 2
                                   ? spoilt(grip, palette_of(symbol), palette_of(before), chance)
                                   : std::optional<std::string>();
            session.played.push_back(
                {bar, 1, wrong.value_or(grip), when.late_ms, 0.5 + 1.5 * chance.uniform()});
            session.expected.emplace_back(std::string(when.verdict) + (wrong ? "/wrong" : ""));
        }
        before = symbol;
        root = (root + moves[chance.below(3)]) % 12;
    }
    name_pushes_by_a_beat(session.expected);
    return session;
}

/// Played `up` frets higher, `bars` later in time.
Comper perform(chart::Form form, const Session& session, int up = 0, int bars = 0) {
    Comper comper(std::move(form), session.tempo);
    comper.swing(session.swing);
    for (const auto& played : session.played) {
        comper.strum(played.bar + bars, played.beat, tests::higher(played.grip, up), played.late_ms,
                     played.beats);
    }
    return comper;
}

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const auto& word : words) text += (text.empty() ? "" : " ") + word;
    return text;
}

/// Everything that is said of the changes, apart from where they stand and what they are called.
std::string all_said(const std::vector<assess::Change>& changes) {
    std::string text;
    for (const auto& change : changes) {
        const double late = change.lateness ? change.lateness->milliseconds() : 0;
        text +=
            fmt::format("{} {:.2f} {} {} {}/{}/{}", assess::name_of(change.verdict), late + 0.0001,
                        change.beats_in.value_or(-9), assess::name_of(change.tones), change.inside,
                        change.passing, change.outside);
        for (const auto& degree : change.missing) text += " no " + degree.name();
        for (const auto& wrong : change.wrong) {
            text += fmt::format(" {} {} {}", *wrong.string, *wrong.fret - *wrong.nearest_fret,
                                wrong.stuck_finger);
        }
        text += "\n";
    }
    return text;
}

}  // namespace

TEST_CASE("random sessions: every change is judged as it was played") {
    Chance chance(11);
    for (int n = 0; n < 400; ++n) {
        const auto random = session(chance);
        const auto form = tests::form_of(random.text(), "C");
        INFO("session " << n << ": " << random.text() << " at " << random.tempo << ", swing "
                        << random.swing);
        CHECK(perform(form, random).verdicts(by_the_beat()) == joined(random.expected));
    }
}

TEST_CASE("verdicts do not change when tune and player move to another of the twelve keys") {
    Chance chance(12);
    for (int n = 0; n < 40; ++n) {
        const auto random = session(chance);
        const auto form = tests::form_of(random.text(), "C");
        const auto here = all_said(perform(form, random).judged().changes);
        const auto highest = [&] {
            int fret = 0;
            for (const auto& played : random.played) {
                for (const auto& place : tests::shape(played.grip).places()) {
                    fret = std::max(fret, place.fret);
                }
            }
            return fret;
        }();
        // Two frets short of the neck's end, so that the nearest right fret is there too.
        const int last = guitar::Fretboard::standard().frets() - 2;
        for (int up = 1; up < 12 && highest + up <= last; ++up) {
            INFO("session " << n << ": " << random.text() << ", " << up << " higher");
            CHECK(all_said(perform(tests::transposed(form, up), random, up).judged().changes) ==
                  here);
        }
    }
}

TEST_CASE("a blues is judged alike in all twelve keys, sharp ninths, slips and all") {
    const auto form = tests::form_of(
        "F7 | Bb7 | F7 | Cm7 F7 | Bb7 | Bdim7 | F7 | Am7b5 D7b9 | Gm7 | C7 | F7 D7 | Gm7 C7", "F");
    const auto play = [&](int up) {
        Comper comper(tests::transposed(form, up), 132);
        comper.swing(2.58).times(2);
        const auto grip = [&](const char* text) { return tests::higher(text, up); };
        for (int bar = 1; bar <= 24; bar += 12) {
            comper.strum(bar, 1, grip("x8789x")).strum(bar + 1, 1, grip("6x67xx"), 66);
            comper.strum(bar + 2, 1, grip("1x12xx")).strum(bar + 3, 1, grip("x3534x"));
            comper.strum(bar + 3, 2.5, grip("1x12xx"), 0, 2).strum(bar + 4, 1, grip("6x67xx"));
            comper.strum(bar + 5, 1, grip("x2313x")).strum(bar + 6, 1, grip("1x11xx"));
            comper.strum(bar + 7, 1, grip("5x554x")).strum(bar + 7, 3, grip("x5454x"));
            comper.strum(bar + 8, 1, grip("3x333x"), 0, 5).strum(bar + 10, 1, grip("1x12xx"));
            comper.strum(bar + 10, 3, grip("x5453x")).strum(bar + 11, 1, grip("3x333x"));
            comper.strum(bar + 11, 3, grip("x3x31x"));
        }
        return comper;
    };
    CHECK(play(0).verdicts().starts_with(
        "on_time late on_time on_time pushed on_time on_time on_time/wrong on_time on_time on_time "
        "missed on_time"));
    for (int up = 1; up < 12; ++up) {
        INFO(up << " higher");
        CHECK(all_said(play(up).judged().changes) == all_said(play(0).judged().changes));
    }
}

TEST_CASE("verdicts do not change when take and chart move together, bars or choruses later") {
    Chance chance(13);
    for (int n = 0; n < 60; ++n) {
        const auto random = session(chance);
        INFO("session " << n << ": " << random.text());
        // A bar of rest at the end, so that each chorus comes from nowhere.
        const auto form = tests::form_of(random.text() + " | N.C. | N.C.", "C");
        const auto here = all_said(perform(form, random).judged().changes);
        const auto later = tests::form_of("N.C. | N.C. | N.C. | " + random.text(), "C");
        CHECK(all_said(perform(later, random, 0, 3).judged().changes) == here);

        auto second = perform(form, random, 0, 10);
        const auto changes = second.times(2).judged().changes;
        CHECK(all_said({changes.begin() + 8, changes.end()}) == here);
        // A passage of a longer tune is judged as it is there.
        const auto longer = tests::form_of("N.C. | " + random.text() + " | N.C.", "C");
        CHECK(all_said(perform(longer, random).passage(2, 9).judged().changes) == here);
    }
}
