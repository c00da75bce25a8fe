#include "support/bass_rules.hpp"

#include <compline/band/bass.hpp>
#include <compline/harmony/quality.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <initializer_list>
#include <set>
#include <utility>

namespace compline::tests {

namespace {

using chart::Bass;
using chart::Feel;
using time::eighth_note;
using time::Ticks;

constexpr Ticks beat = time::quarter_note;
constexpr Ticks finest{240};

unsigned bit(int pitch_class) { return 1U << ((pitch_class % 12 + 12) % 12); }

/// The fifths that a symbol names, in semitones; more than one where it alters it both ways. An
/// altered chord has none to rest on: its ♭5 is one of its colours.
std::vector<int> fifths_named(const harmony::Chord& chord) {
    auto plain = chord;
    plain.bass.reset();
    const auto root = chord.root.name(harmony::Accidentals::letters);
    const auto quality = plain.symbol(harmony::Accidentals::letters).substr(root.size());
    const auto says = [&](const char* word) { return quality.find(word) != std::string::npos; };
    std::vector<int> fifths;
    if (says("no5")) return fifths;
    if (says("b5") || says("dim")) fifths.push_back(6);
    if (says("#5") || says("aug")) fifths.push_back(8);
    if (fifths.empty() && !says("alt")) fifths.push_back(7);
    return fifths;
}

bool is_walking(const band::BassBar& bar) {
    return bar.bass == Bass::walking && bar.feel != Feel::bossa;
}
bool is_bossa(const band::BassBar& bar) {
    return bar.feel == Feel::bossa && bar.bass != Bass::roots && bar.bass != Bass::off;
}
bool is_two_feel(const band::BassBar& bar) {
    return bar.bass == Bass::two_feel && bar.feel != Feel::bossa;
}

/// Where notes belong in a bar of a manner, whatever its chords: those that must be there, and
/// those that may.
struct Pattern {
    std::vector<Ticks> must;
    std::vector<Ticks> may;
};

/// What a bass walks in: the note that the foot taps, but quarters in 2/2, where the foot taps
/// halves.
Ticks walked(const time::Meter& meter) {
    const auto written = meter.written();
    if (written.below == 8) return beat + eighth_note;
    const auto as_written = *time::Meter::find(written.above, written.below);
    if (meter == as_written) return beat;
    return meter.beats() > as_written.beats() ? eighth_note : beat * 2;
}
bool in_triples(const time::Meter& meter) { return meter.written().below == 8; }
bool is_twice_as_fast(const time::Meter& meter) { return walked(meter) == eighth_note; }
int walked_beats(const time::Meter& meter) { return static_cast<int>(meter.bar() / walked(meter)); }

/// So many beats into the bar; half a beat is of three eighths the last.
Ticks at(double beats, const time::Meter& meter) {
    const auto whole = static_cast<std::int64_t>(beats);
    const Ticks on = walked(meter) * whole;
    if (beats == static_cast<double>(whole)) return on;
    return on + (in_triples(meter) ? eighth_note * 2 : Ticks(walked(meter).count() / 2));
}
Ticks short_note(const time::Meter& meter) { return at(1, meter) - at(0.5, meter); }

/// The third beat of 4/4, the fourth of 5/4 and 6/4, and the first of all; felt twice as fast every
/// quarter, in 6/8 and 9/8 every beat.
bool is_strong_beat(int number, const time::Meter& meter) {
    const int beats = walked_beats(meter);
    if (number == 0) return true;
    if (is_twice_as_fast(meter)) return number % 2 == 0;
    if (in_triples(meter)) return beats < 4 || number == 2;
    if (walked(meter) > beat) return beats == 3 && number == 2;
    return beats >= 4 && number == (beats == 4 ? 2 : 3);
}

std::vector<double> bossa_beats(int beats) {
    switch (beats) {
        case 1:
            return {0, 0.5};
        case 2:
            return {0, 1.5};
        case 3:
            return {0, 1.5, 2};
        case 4:
            return {0, 1.5, 2, 3.5};
        case 5:
            return {0, 1.5, 2, 3, 4.5};
        case 6:
            return {0, 1.5, 2, 3, 4.5, 5};
        case 8:
            return {0, 1.5, 2, 3.5, 4, 5.5, 6, 7.5};
        default:
            return {0, 1.5, 2, 4.5, 5, 6.5, 7, 9.5};
    }
}

/// Of roots: again in the middle of 5/4 and 6/4; in two, where the bar halves.
std::vector<double> long_beats(const band::BassBar& bar) {
    const int beats = walked_beats(bar.meter);
    const bool fast = is_twice_as_fast(bar.meter);
    if (!is_two_feel(bar))
        return beats > 4 && !fast && beats < 7 ? std::vector<double>{0, 3} : std::vector<double>{0};
    if (in_triples(bar.meter)) {
        return beats == 3 ? std::vector<double>{0} : std::vector<double>{0, beats / 2.0};
    }
    if (beats == 2) return {0, 1};
    if (beats == 4) return {0, 2};
    if (beats == 8) return {0, 2, 4, 6};
    if (beats == 10) return {0, 5};
    return beats > 4 ? std::vector<double>{0, 3} : std::vector<double>{0};
}

Pattern pattern_of(const band::BassBar& bar) {
    const auto& meter = bar.meter;
    const int beats = walked_beats(meter);
    Pattern pattern;
    const auto must = [&](double place) { pattern.must.push_back(at(place, meter)); };
    const auto may = [&](double place) { pattern.may.push_back(at(place, meter)); };
    if (bar.bass == Bass::off) return pattern;
    if (is_walking(bar)) {
        for (int i = 0; i < beats; ++i) must(i);
        for (int i = 0; i < beats; ++i) may(i + 0.5);
    } else if (is_bossa(bar) && in_triples(meter)) {
        for (int i = 0; i < beats; ++i) must(i);
        must(beats - 0.5);
    } else if (is_bossa(bar)) {
        for (const double place : bossa_beats(beats)) must(place);
    } else {
        for (const double place : long_beats(bar)) must(place);
        if (!is_two_feel(bar)) return pattern;
        if (in_triples(meter)) {
            for (int i = 0; i < beats; ++i) may(i + 0.5);
        } else if (beats == 4) {
            for (const double place : {0.5, 1.5, 2.5, 3.0, 3.5}) may(place);
        } else if (beats == 8) {
            may(7);
        }
    }
    return pattern;
}

/// All of these, in semitones above a root, are in a set of pitch classes.
bool has_all(unsigned set, int root, std::initializer_list<int> above) {
    return std::all_of(above.begin(), above.end(),
                       [&](int semitones) { return (set & bit(root + semitones)) != 0; });
}

bool leads(int semitones) {
    const int away = std::abs(semitones);
    return away == 1 || away == 2 || away == 5 || away == 7;
}

}  // namespace

/// One hearing of one line.
class Lesson {
  public:
    using Beat = BassTeacher::Beat;
    using Tones = BassTeacher::Tones;

    Lesson(const BassTeacher& teacher, const std::vector<band::BassNote>& line)
        : teacher_(teacher), line_(line), gig_(teacher.gig_) {}

    std::vector<std::string> listen() {
        if (!sound()) return faults_;
        places();
        for (std::size_t i = 0; i < line_.size(); ++i) {
            if (is_seasoning(line_[i])) seasoning(i);
        }
        // What is between the beats is no part of the line.
        line_.erase(std::remove_if(line_.begin(), line_.end(),
                                   [&](const auto& note) { return is_seasoning(note); }),
                    line_.end());
        for (std::size_t i = 0; i < line_.size(); ++i) {
            pitch(i);
            motion(i);
        }
        for (std::size_t bar = 1; bar < gig_.bars.size(); ++bar) again(bar);
        return faults_;
    }

  private:
    template <typename... Args>
    void fault(Ticks where, fmt::format_string<Args...> words, Args&&... args) {
        const auto in_bar = in_bar_of(where);
        const auto* const chord = tones_at(where);
        faults_.push_back(
            fmt::format("bar {} beat {:g} ({}): {}", beat_at(where).bar + 1,
                        1 + static_cast<double>(in_bar.count()) / static_cast<double>(beat.count()),
                        chord == nullptr ? "N.C." : chord->symbol,
                        fmt::format(words, std::forward<Args>(args)...)));
    }

    [[nodiscard]] const Beat& beat_at(Ticks where) const {
        return teacher_.beats_[static_cast<std::size_t>(where / finest)];
    }
    [[nodiscard]] const Tones* tones_at(Ticks where) const {
        if (where < Ticks(0) || where >= end()) return nullptr;
        const auto chord = beat_at(where).chord;
        return chord == BassTeacher::none ? nullptr : &teacher_.chords_[chord];
    }
    [[nodiscard]] bool starts_at(Ticks where) const {
        return where % finest == Ticks(0) && where < end() && beat_at(where).starts;
    }
    [[nodiscard]] const band::BassBar& bar_at(Ticks where) const {
        return gig_.bars[beat_at(where).bar];
    }
    [[nodiscard]] const time::Meter& meter_at(Ticks where) const { return bar_at(where).meter; }
    [[nodiscard]] Ticks line_at(Ticks where) const { return teacher_.lines_[beat_at(where).bar]; }
    [[nodiscard]] Ticks in_bar_of(Ticks where) const { return where - line_at(where); }
    [[nodiscard]] bool is_on_beat(Ticks where) const {
        return in_bar_of(where) % std::min(walked(meter_at(where)), step_at(where)) == Ticks(0);
    }
    /// What chords start on: quarters where the beat is longer, unless it is three eighths.
    [[nodiscard]] Ticks step_at(Ticks where) const {
        const auto& meter = meter_at(where);
        return in_triples(meter) ? walked(meter) : std::min(walked(meter), beat);
    }
    [[nodiscard]] Ticks end() const { return teacher_.lines_.back(); }
    [[nodiscard]] int number(std::size_t i) const { return line_[i].note.number(); }
    [[nodiscard]] unsigned pitch_of(std::size_t i) const { return bit(number(i)); }

    /// The line can be listened to: in order, one note at a time, with length and loudness.
    bool sound() {
        Ticks until(0);
        for (const auto& note : line_) {
            if (note.at < Ticks(0) || note.at + note.length > end()) {
                faults_.emplace_back("a note outside the passage");
                return false;
            }
            if (note.at < until) fault(note.at, "the note before has not ended");
            if (note.length < Ticks(1)) fault(note.at, "a note without length");
            const bool loud_enough = note.velocity >= (note.dead ? 40 : 60);
            if (!loud_enough || note.velocity > 127) fault(note.at, "too soft or too loud");
            until = note.at + note.length;
        }
        return faults_.empty();
    }

    [[nodiscard]] bool is_kick(Ticks where) const {
        const auto& kicks = bar_at(where).kicks;
        return std::find(kicks.begin(), kicks.end(), in_bar_of(where)) != kicks.end();
    }

    [[nodiscard]] Ticks next_beat(Ticks where) const {
        return where - in_bar_of(where) % step_at(where) + step_at(where);
    }

    /// A kick off the beat less than a beat before a chord that starts.
    [[nodiscard]] bool is_ahead(Ticks where) const {
        const Ticks next = next_beat(where);
        return !is_on_beat(where) && starts_at(next) && tones_at(next) != nullptr;
    }

    /// The note comes right before the one that a chord starts with, or a kick ahead of it.
    [[nodiscard]] bool is_before_start(std::size_t i) const {
        if (i + 1 >= line_.size() || is_last(i + 1)) return false;
        const Ticks next = line_[i + 1].at;
        if (starts_at(next))
            return next - line_[i].at <= meter_at(line_[i].at).bar() && !rest_between(i);
        return is_kick(next) && is_ahead(next) && !rest_between(i);
    }

    [[nodiscard]] bool rest_between(std::size_t i) const {
        for (Ticks t = line_[i].at; t < line_[i + 1].at; t += finest) {
            if (tones_at(t) == nullptr || bar_at(t).bass == Bass::off) return true;
        }
        return false;
    }

    /// Struck between two beats for the sake of it.
    [[nodiscard]] bool is_seasoning(const band::BassNote& note) const {
        const auto& bar = bar_at(note.at);
        const Ticks in_beat = in_bar_of(note.at) % walked(bar.meter);
        return in_beat == at(0.5, bar.meter) && !is_kick(note.at) && !is_bossa(bar) &&
               bar.bass != Bass::roots && !starts_at(note.at) && !leads_in(note);
    }

    /// In 6/8, 9/8 and 12/8 the last eighth is a note of the line where it leads into another
    /// chord; the note before once more is seasoning there too.
    [[nodiscard]] bool leads_in(const band::BassNote& note) const {
        const auto& meter = meter_at(note.at);
        const Ticks next = note.at + short_note(meter);
        if (!in_triples(meter) || note.dead || !starts_at(next) || in_bar_of(next) != Ticks(0)) {
            return false;
        }
        const auto before = std::find_if(line_.begin(), line_.end(),
                                         [&](const auto& other) { return other.at >= note.at; });
        return before == line_.begin() || (before - 1)->note != note.note;
    }

    /// Of the note before or of the chord, and it runs into another note on the beat, not the last.
    void seasoning(std::size_t i) {
        const Ticks where = line_[i].at;
        const auto asked = bar_at(where).seasoning;
        if (asked == band::Seasoning::none) fault(where, "seasons a plain bar");
        const bool dead_only = asked == band::Seasoning::dead_notes;
        if (dead_only && !line_[i].dead) fault(where, "a skip note where there is no time for it");
        if (i == 0 || i + 1 >= line_.size() ||
            line_[i + 1].at != where + short_note(meter_at(where)) || is_last(i + 1)) {
            fault(where, "a short note that leads nowhere");
            return;
        }
        if (is_kick(line_[i + 1].at)) fault(where, "a short note blurs a kick");
        const bool again = number(i) == number(i - 1);
        const auto& tones = *tones_at(where);
        const bool own = pitch_of(i) == bit(tones.root) || (pitch_of(i) & tones.fifths) != 0 ||
                         (tones.fifths == 0 && (pitch_of(i) & tones.tones) != 0);
        if (line_[i].dead ? !again : !(again || own)) fault(where, "a strange short note");
        if (number(i) == number(i + 1)) fault(where, "a short note ahead of itself");
        const bool thrice = i >= 2 && again && number(i - 2) == number(i);
        if (thrice) fault(where, "the same note a third time running");
        if (std::abs(number(i + 1) - number(i)) > 7) fault(where, "a short note out of reach");
    }

    void places() {
        std::size_t i = 0;
        for (std::size_t bar = 0; bar < gig_.bars.size(); ++bar) {
            const Ticks line = teacher_.lines_[bar];
            const Ticks bar_end = teacher_.lines_[bar + 1];
            const auto pattern = pattern_of(gig_.bars[bar]);
            std::set<Ticks> must;
            if (gig_.bars[bar].bass != Bass::off) {
                for (const Ticks t : pattern.must) {
                    if (tones_at(line + t) != nullptr) must.insert(t);
                }
                for (Ticks t; t < bar_end - line; t += finest) {
                    if (starts_at(line + t) && tones_at(line + t) != nullptr) must.insert(t);
                }
                for (const Ticks t : gig_.bars[bar].kicks) {
                    if (tones_at(line + t) != nullptr || is_ahead(line + t)) must.insert(t);
                }
            }
            for (; i < line_.size() && line_[i].at < bar_end; ++i) {
                const Ticks t = line_[i].at - line;
                const bool may =
                    std::find(pattern.may.begin(), pattern.may.end(), t) != pattern.may.end() &&
                    tones_at(line + t) != nullptr;
                if (must.erase(t) == 0 && !may) fault(line_[i].at, "a note where none belongs");
                length(i, bar_end);
            }
            for (const Ticks t : must) fault(line + t, "nothing is played");
        }
    }

    void length(std::size_t i, Ticks bar_end) {
        Ticks until = i + 1 < line_.size() ? std::min(line_[i + 1].at, bar_end) : bar_end;
        for (Ticks t = line_[i].at; t < until; t += finest) {
            if (tones_at(t) == nullptr && tones_at(line_[i].at) != nullptr) until = t;
        }
        const auto written = (until - line_[i].at).count();
        const auto share = line_[i].length.count() * 100 / written;
        const bool kick = is_kick(line_[i].at);
        const bool ballad = bar_at(line_[i].at).feel == Feel::ballad;
        const bool seasoned = is_seasoning(line_[i]);
        const int wanted = line_[i].dead ? 25 : kick ? 75 : ballad && !seasoned ? 97 : 90;
        // In a ballad in 6/8 nobody can tell a skip from a lead that stays.
        const bool either =
            seasoned && ballad && in_triples(meter_at(line_[i].at)) && !line_[i].dead;
        if (either ? share < 89 || share > 97 : share < wanted - 1 || share > wanted) {
            fault(line_[i].at, "sounds for {} hundredths of what is written", share);
        }
        const int velocity = line_[i].velocity;
        const bool strong = starts_at(line_[i].at) || in_bar_of(line_[i].at) == Ticks(0);
        if (kick && velocity < 100) fault(line_[i].at, "a kick that nobody hears");
        if (!kick && (velocity > 88 || (strong && velocity < 88))) {
            fault(line_[i].at, "velocity {}", velocity);
        }
    }

    [[nodiscard]] bool is_last(std::size_t i) const { return gig_.ends && i + 1 == line_.size(); }

    void pitch(std::size_t i) {
        const Ticks where = line_[i].at;
        const auto* const tones = tones_at(where);
        if (number(i) < 28 || number(i) > 55) fault(where, "note {} is out of range", number(i));
        if (is_last(i)) {
            last(i);
        } else if (tones == nullptr && !is_kick(where)) {
            return;  // in a rest: named already
        } else if (is_kick(where)) {
            const auto* const meant = is_ahead(where) ? tones_at(next_beat(where)) : tones;
            if (pitch_of(i) != bit(meant->bass)) fault(where, "a kick off the root");
        } else if (starts_at(where)) {
            start(i, *tones);
        } else if (!wrong(i, *tones)) {
            in_manner(i, *tones);
        }
    }

    void in_manner(std::size_t i, const Tones& tones) {
        const Ticks where = line_[i].at;
        if (is_walking(bar_at(where))) {
            walking(i, tones);
        } else if (is_bossa(bar_at(where))) {
            bossa(i, tones);
        } else if (is_two_feel(bar_at(where))) {
            two_feel(i, tones);
        } else if (pitch_of(i) != bit(tones.bass)) {
            fault(where, "not the root");
        }
    }

    void last(std::size_t i) {
        int wanted = 0;
        for (const auto& it : teacher_.beats_) {
            if (it.chord != BassTeacher::none) wanted = teacher_.chords_[it.chord].root;
        }
        wanted = gig_.home.value_or(wanted);
        if (number(i) % 12 != wanted) fault(line_[i].at, "the last note is not home");
    }

    void start(std::size_t i, const Tones& tones) {
        const Ticks where = line_[i].at;
        const bool any_tone =
            is_walking(bar_at(where)) && tones.bass == tones.root && !beat_at(where).fresh;
        if (pitch_of(i) == bit(tones.bass)) return;
        if (!any_tone) fault(where, "not the root");
        if ((pitch_of(i) & tones.tones) == 0) fault(where, "no chord tone where a chord starts");
    }

    /// What is no tone of the chord and may not pass either, wherever it stands.
    bool wrong(std::size_t i, const Tones& tones) {
        if ((pitch_of(i) & tones.tones) != 0) return false;
        if (is_bossa(bar_at(line_[i].at)) && is_before_start(i) && ahead_of(i)) return false;
        const Ticks where = line_[i].at;
        const int way = i + 1 < line_.size() ? number(i + 1) - number(i) : 0;
        const bool leads_on = is_before_start(i) && std::abs(way) == 1;
        const bool rises = way == 1 && (is_before_start(i) || (pitch_of(i + 1) & tones.tones) != 0);
        const auto before = faults_.size();
        if ((pitch_of(i) & tones.never) != 0) {
            fault(where, "a tone that is never played on it");
        } else if ((pitch_of(i) & tones.blue) != 0) {
            if (!rises) fault(where, "the minor third of a dominant");
        } else if ((pitch_of(i) & tones.contradicted) != 0 && !leads_on) {
            fault(where, "a tone that contradicts the chord");
        }
        return faults_.size() != before;
    }

    [[nodiscard]] bool is_strong(Ticks where) const {
        const auto& meter = meter_at(where);
        const Ticks in_bar = in_bar_of(where);
        return in_bar % walked(meter) == Ticks(0) &&
               is_strong_beat(static_cast<int>(in_bar / walked(meter)), meter);
    }

    /// A chord of two beats where there is no time to lead.
    [[nodiscard]] bool is_short(std::size_t i, const Tones& tones) const {
        if (!bar_at(line_[i].at).fast) return false;
        return pitch_of(i) == bit(tones.bass) || is_fifth(i, tones);
    }

    /// Into the note of the next chord.
    void approach(std::size_t i) {
        const Ticks where = line_[i].at;
        const int way = number(i + 1) - number(i);
        if (!leads(way)) fault(where, "no approach: {} semitones", way);
    }

    void walking(std::size_t i, const Tones& tones) {
        const Ticks where = line_[i].at;
        const bool chord_tone = (pitch_of(i) & tones.tones) != 0;
        if (is_strong(where)) {
            if (!chord_tone) fault(where, "no chord tone on a strong beat");
        } else if (is_before_start(i)) {
            if (!is_short(i, tones)) approach(i);
        } else if (!chord_tone && i + 1 < line_.size()) {
            const int way = std::abs(number(i + 1) - number(i));
            if (way != 1 && way != 2) fault(where, "a foreign note that leads nowhere");
        }
    }

    [[nodiscard]] bool is_fifth(std::size_t i, const Tones& tones) const {
        const bool taken = tones.fifths == 0 || (tones.fifths & bit(tones.bass)) != 0;
        if (taken && pitch_of(i) == bit(tones.root)) return true;  // the root takes its turn
        return (pitch_of(i) & tones.fifths & ~bit(tones.bass)) != 0;
    }

    void two_feel(std::size_t i, const Tones& tones) {
        const Ticks where = line_[i].at;
        const auto& meter = meter_at(where);
        const bool root = pitch_of(i) == bit(tones.bass);
        const auto longs = long_beats(bar_at(where));
        const auto found = std::find_if(longs.begin(), longs.end(), [&](double place) {
            return in_bar_of(where) == at(place, meter);
        });
        const auto which = found - longs.begin();
        const bool is_long = found != longs.end();
        const bool halves = walked_beats(meter) % 2 == 0 && walked_beats(meter) % 6 != 0 &&
                            walked_beats(meter) != 10;
        if (is_long && halves && which == 0) {
            if (!root) fault(where, "not the root");
        } else if (is_long && halves && which % 2 == 1) {
            const bool own = (pitch_of(i) & tones.tones) != 0;
            if (!is_fifth(i, tones) && !(own && is_before_start(i))) fault(where, "not the fifth");
        } else if (is_long || (!halves && !in_triples(meter))) {
            if (!root && !is_fifth(i, tones)) fault(where, "neither root nor fifth");
        } else if (is_before_start(i)) {
            approach(i);
        } else if ((pitch_of(i) & tones.tones) == 0) {
            walking(i, tones);
        }
    }

    void bossa(std::size_t i, const Tones& tones) {
        const Ticks where = line_[i].at;
        const auto& meter = meter_at(where);
        const int beats = walked_beats(meter);
        const Ticks in_bar = in_bar_of(where);
        const Ticks half = at(is_twice_as_fast(meter) && beats > 4 ? beats / 2
                              : beats > 4                          ? 3
                              : in_triples(meter) && beats == 4    ? 2
                                                                   : beats,
                              meter);
        const Ticks in_group = in_bar >= half ? in_bar - half : in_bar;
        const auto in = [&](double nth) { return in_group == at(nth, meter); };
        const bool root = pitch_of(i) == bit(tones.bass);
        const bool before_start = is_before_start(i);
        const bool leading = before_start && i + 1 < line_.size() &&
                             (leads(number(i + 1) - number(i)) || ahead_of(i));
        if (in(0)) {
            if (!root) fault(where, "not the root");
            return;
        }
        const bool two = beats == 2 || (beats == 5 && in_bar >= half);
        const bool last_eighth = in_triples(meter) && in_bar == at(beats - 0.5, meter);
        const bool lead_place = in(3.5) || (two && in(1.5)) || (beats == 1 && in(0.5)) ||
                                (beats == 10 && in(4.5)) || last_eighth ||
                                (in(2) && beats != 4 && beats < 8 && !in_triples(meter));
        if (is_fifth(i, tones) || leading || (lead_place && root && !before_start)) return;
        fault(where, "neither the fifth nor ahead of what comes");
    }

    /// Off the beat, and already the note that the next chord starts with.
    [[nodiscard]] bool ahead_of(std::size_t i) const {
        if (is_on_beat(line_[i].at)) return false;
        const Ticks next = line_[i + 1].at;
        return pitch_of(i) == bit(tones_at(starts_at(next) ? next : next_beat(next))->bass);
    }

    void motion(std::size_t i) {
        if (i == 0) return;
        if (std::abs(number(i) - number(i - 1)) > 12) fault(line_[i].at, "a leap over an octave");
        const bool held = bar_at(line_[i].at).bass == Bass::roots;
        if (i >= 2 && !held && number(i) == number(i - 1) && number(i) == number(i - 2)) {
            fault(line_[i].at, "the same note a third time running");
        }
        if (i >= 7) moves(i);
    }

    [[nodiscard]] bool is_given(std::size_t i) const {
        return is_last(i) || is_kick(line_[i].at) || starts_at(line_[i].at);
    }

    /// The eight notes that end here have four pitches and the range of a fourth.
    void moves(std::size_t i) {
        std::array<int, 8> heard{};
        int given = 0;
        for (std::size_t back = 0; back < heard.size(); ++back) {
            const auto j = i - back;
            if (!is_walking(bar_at(line_[j].at))) return;
            if (back > 0 && line_[j + 1].at - line_[j].at > walked(meter_at(line_[j].at))) return;
            heard[back] = number(j);
            given += is_given(j) ? 1 : 0;
        }
        if (given > 4) return;
        std::sort(heard.begin(), heard.end());
        const int range = heard.back() - heard.front();
        const auto pitches = std::unique(heard.begin(), heard.end()) - heard.begin();
        if (pitches < 4 || range < 5) {
            fault(line_[i].at, "eight notes of {} pitches within {} semitones", pitches, range);
        }
    }

    [[nodiscard]] std::pair<std::size_t, std::size_t> notes_in(std::size_t bar) const {
        const auto first = [&](Ticks where) {
            return static_cast<std::size_t>(
                std::lower_bound(line_.begin(), line_.end(), where,
                                 [](const auto& note, Ticks t) { return note.at < t; }) -
                line_.begin());
        };
        return {first(teacher_.lines_[bar]), first(teacher_.lines_[bar + 1])};
    }

    /// Not the bar before once more.
    void again(std::size_t bar) {
        if (!is_walking(gig_.bars[bar]) || !is_walking(gig_.bars[bar - 1])) return;
        const auto [from, to] = notes_in(bar);
        const auto [from_before, to_before] = notes_in(bar - 1);
        if (to - from != to_before - from_before || from == to) return;
        bool same = true;
        bool given = true;
        for (std::size_t i = 0; i < to - from; ++i) {
            same = same && number(from + i) == number(from_before + i);
            given = given && is_given(from + i);
        }
        if (same && !given) fault(line_[from].at, "the same bar again");
    }

    const BassTeacher& teacher_;
    std::vector<band::BassNote> line_;
    const Gig& gig_;
    std::vector<std::string> faults_;
};

/// What the chord's tones forbid or lend: the third of a sus chord, the natural fifth of a
/// diminished one, the minor third of a dominant; the sixth of a major seventh is as good as its
/// own.
void BassTeacher::forbid(Tones& tones, const harmony::Chord& chord) {
    const auto semitones = [&](int above) { return bit(tones.root + above); };
    if (has_all(tones.tones, tones.root, {4, 7, 11}) && (tones.contradicted & semitones(9)) == 0) {
        tones.tones |= semitones(9);
    }
    const auto quality = chord.quality;
    if (harmony::is_suspended(chord)) tones.never |= semitones(4);
    const bool diminished = quality == harmony::Quality::half_diminished ||
                            quality == harmony::Quality::half_diminished_ninth ||
                            quality == harmony::Quality::half_diminished_eleventh;
    if (diminished) tones.never |= semitones(7);
    if (harmony::is_dominant(chord)) tones.blue = semitones(3);
}

BassTeacher::BassTeacher(Gig gig) : gig_(std::move(gig)), lines_{Ticks(0)} {
    for (const auto& bar : gig_.bars) lines_.push_back(lines_.back() + bar.meter.bar());
    std::vector<const harmony::Chord*> seen;
    const std::optional<harmony::Chord>* last = nullptr;
    for (std::size_t bar = 0; bar < gig_.bars.size(); ++bar) {
        const bool seam =
            std::find(gig_.stretches.begin(), gig_.stretches.end(), bar) != gig_.stretches.end();
        for (const auto& slot : gig_.bars[bar].chords) {
            std::size_t chord = none;
            if (slot.chord) {
                const auto known = std::find_if(seen.begin(), seen.end(), [&](const auto* other) {
                    return *other == *slot.chord;
                });
                chord = static_cast<std::size_t>(known - seen.begin());
                if (known == seen.end()) {
                    seen.push_back(&*slot.chord);
                    Tones tones{};
                    tones.symbol = slot.chord->symbol();
                    tones.root = slot.chord->root.pitch_class();
                    tones.bass = slot.chord->bass.value_or(slot.chord->root).pitch_class();
                    for (const auto& degree : harmony::chord_tones(*slot.chord)) {
                        tones.tones |= bit(tones.root + degree.pitch_class());
                    }
                    for (const auto& degree : harmony::contradicted_tones(*slot.chord)) {
                        tones.contradicted |= bit(tones.root + degree.pitch_class());
                    }
                    for (const int fifth : fifths_named(*slot.chord)) {
                        tones.fifths |= bit(tones.root + fifth);
                    }
                    forbid(tones, *slot.chord);
                    tones.tones |= bit(tones.bass);
                    chords_.push_back(tones);
                }
            }
            for (Ticks t; t < slot.length; t += finest) {
                Beat now{chord, bar, false, false};
                const bool first = seam && slot.start + t == Ticks(0);
                const bool rested = last == nullptr || !*last;
                now.starts =
                    t == Ticks(0) && slot.chord && (first || rested || **last != *slot.chord);
                now.fresh = t == Ticks(0) && (first || rested);
                beats_.push_back(now);
            }
            last = &slot.chord;
        }
    }
}

std::vector<std::string> BassTeacher::faults_of(const std::vector<band::BassNote>& line) const {
    return Lesson(*this, line).listen();
}

void BassTeacher::count(const std::vector<band::BassNote>& line, Count& count) const {
    for (std::size_t i = 0; i < line.size(); ++i) {
        const auto& here = beats_[static_cast<std::size_t>(line[i].at / finest)];
        if (!is_walking(gig_.bars[here.bar]) || here.chord == none) continue;
        const int note = line[i].note.number();
        ++count.notes;
        if (note >= 29 && note <= 48) ++count.settled;
        if (note < 33) ++count.low;
        if (!here.starts || line[i].at % finest != Ticks(0) || i + 1 == line.size()) continue;
        ++count.starts;
        if (note % 12 == chords_[here.chord].bass) ++count.roots;
    }
}

std::vector<band::BassBar> bass_bars(const chart::Form& form, chart::Passage passage,
                                     chart::Bass bass, chart::Feel feel) {
    std::vector<band::BassBar> bars;
    for (int number = passage.from; number <= passage.to; ++number) {
        bars.push_back({{}, bass, feel, form.bar(number).kicks});
        bars.back().meter = form.bar(number).meter;
    }
    for (const auto& span : form.spans) {
        if (span.bar < passage.from || span.bar > passage.to) continue;
        bars[static_cast<std::size_t>(span.bar - passage.from)].chords.push_back(
            {span.start - form.bar(span.bar).start, span.length, span.chord});
    }
    return bars;
}

Gig gig_of(time::Meter meter, const std::vector<band::BassBar>& bars, int times,
           std::optional<int> home) {
    Gig gig{{}, {}, true, home};
    for (int time = 0; time < times; ++time) {
        gig.stretches.push_back(gig.bars.size());
        gig.bars.insert(gig.bars.end(), bars.begin(), bars.end());
    }
    for (auto& bar : gig.bars) bar.meter = meter;
    return gig;
}

std::vector<band::BassNote> play(const Gig& gig, std::uint64_t seed) {
    band::BassWriter writer(seed);
    std::vector<band::BassNote> line;
    Ticks start;
    const auto bars = [&](std::size_t from, std::size_t to) {
        return std::vector<band::BassBar>(gig.bars.begin() + static_cast<std::ptrdiff_t>(from),
                                          gig.bars.begin() + static_cast<std::ptrdiff_t>(to));
    };
    const auto begin = [&](std::size_t stretch) {
        return stretch < gig.stretches.size() ? gig.stretches[stretch] : gig.bars.size();
    };
    for (std::size_t i = 0; i < gig.stretches.size(); ++i) {
        for (auto note : writer.next(bars(begin(i), begin(i + 1)), bars(begin(i + 1), begin(i + 2)),
                                     gig.home)) {
            note.at += start;
            line.push_back(note);
        }
        for (const auto& bar : bars(begin(i), begin(i + 1))) start += bar.meter.bar();
    }
    return line;
}

std::vector<std::string> faults_of(const std::vector<band::BassNote>& line, const chart::Form& form,
                                   chart::Passage passage, int times) {
    std::optional<int> home;
    if (passage.to == static_cast<int>(form.bars.size())) home = form.chart.key.tonic.pitch_class();
    auto bars = bass_bars(form, passage);
    for (auto& bar : bars) bar.seasoning = band::Seasoning::skips_and_dead_notes;
    return BassTeacher(gig_of(form.chart.meter, bars, times, home)).faults_of(line);
}

}  // namespace compline::tests
