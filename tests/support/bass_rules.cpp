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

Ticks at(double beats) { return Ticks(static_cast<std::int64_t>(beats * 960)); }

Pattern pattern_of(const band::BassBar& bar, time::Meter meter) {
    const int beats = meter.beats();
    Pattern pattern;
    if (bar.bass == Bass::off) return pattern;
    if (is_walking(bar)) {
        for (int i = 0; i < beats; ++i) pattern.must.push_back(beat * i);
        for (int i = 0; i < beats; ++i) pattern.may.push_back(beat * i + eighth_note);
    } else if (is_bossa(bar)) {
        if (beats == 3) pattern.must = {at(0), at(1.5), at(2)};
        if (beats == 4) pattern.must = {at(0), at(1.5), at(2), at(3.5)};
        if (beats == 5) pattern.must = {at(0), at(1.5), at(2), at(3), at(4.5)};
        if (beats == 6) pattern.must = {at(0), at(1.5), at(2), at(3), at(4.5), at(5)};
    } else {
        pattern.must = {at(0)};
        if (beats > 4) pattern.must.push_back(at(3));
        if (beats == 4 && is_two_feel(bar)) {
            pattern.must.push_back(at(2));
            pattern.may = {at(1.5), at(3), at(3.5)};
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
        : teacher_(teacher), line_(line), gig_(teacher.gig_), meter_(gig_.meter) {}

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
        const auto in_bar = where % meter_.bar();
        const auto* const chord = tones_at(where);
        faults_.push_back(
            fmt::format("bar {} beat {:g} ({}): {}", where / meter_.bar() + 1,
                        1 + static_cast<double>(in_bar.count()) / static_cast<double>(beat.count()),
                        chord == nullptr ? "N.C." : chord->symbol,
                        fmt::format(words, std::forward<Args>(args)...)));
    }

    [[nodiscard]] const Beat& beat_at(Ticks where) const {
        return teacher_.beats_[static_cast<std::size_t>(where / beat)];
    }
    [[nodiscard]] const Tones* tones_at(Ticks where) const {
        if (where < Ticks(0) || where >= end()) return nullptr;
        const auto chord = beat_at(where).chord;
        return chord == BassTeacher::none ? nullptr : &teacher_.chords_[chord];
    }
    [[nodiscard]] bool starts_at(Ticks where) const {
        return where % beat == Ticks(0) && where < end() && beat_at(where).starts;
    }
    [[nodiscard]] const band::BassBar& bar_at(Ticks where) const {
        return gig_.bars[beat_at(where).bar];
    }
    [[nodiscard]] Ticks end() const {
        return meter_.bar() * static_cast<std::int64_t>(gig_.bars.size());
    }
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
        return std::find(kicks.begin(), kicks.end(), where % meter_.bar()) != kicks.end();
    }

    /// A kick off the beat less than a beat before a chord that starts.
    [[nodiscard]] bool is_ahead(Ticks where) const {
        const Ticks next = where - where % beat + beat;
        return where % beat != Ticks(0) && starts_at(next) && tones_at(next) != nullptr;
    }

    /// The note comes right before the one that a chord starts with, or a kick ahead of it.
    [[nodiscard]] bool is_before_start(std::size_t i) const {
        if (i + 1 >= line_.size() || is_last(i + 1)) return false;
        const Ticks next = line_[i + 1].at;
        if (starts_at(next)) return next - line_[i].at <= meter_.bar() && !rest_between(i);
        return is_kick(next) && is_ahead(next) && !rest_between(i);
    }

    [[nodiscard]] bool rest_between(std::size_t i) const {
        for (Ticks t = line_[i].at; t < line_[i + 1].at; t += eighth_note) {
            if (tones_at(t) == nullptr || bar_at(t).bass == Bass::off) return true;
        }
        return false;
    }

    /// Struck between two beats for the sake of it.
    [[nodiscard]] bool is_seasoning(const band::BassNote& note) const {
        const auto& bar = bar_at(note.at);
        return note.at % beat == eighth_note && !is_kick(note.at) && !is_bossa(bar) &&
               bar.bass != Bass::roots;
    }

    /// Of the note before or of the chord, and it runs into another note on the beat, not the last.
    void seasoning(std::size_t i) {
        const Ticks where = line_[i].at;
        const auto asked = bar_at(where).seasoning;
        if (asked == band::Seasoning::none) fault(where, "seasons a plain bar");
        const bool dead_only = asked == band::Seasoning::dead_notes;
        if (dead_only && !line_[i].dead) fault(where, "a skip note where there is no time for it");
        if (i == 0 || i + 1 >= line_.size() || line_[i + 1].at != where + eighth_note ||
            is_last(i + 1)) {
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
            const Ticks line = meter_.bar() * static_cast<std::int64_t>(bar);
            const auto pattern = pattern_of(gig_.bars[bar], meter_);
            std::set<Ticks> must;
            if (gig_.bars[bar].bass != Bass::off) {
                for (const Ticks t : pattern.must) {
                    if (tones_at(line + t) != nullptr) must.insert(t);
                }
                for (Ticks t; t < meter_.bar(); t += beat) {
                    if (starts_at(line + t) && tones_at(line + t) != nullptr) must.insert(t);
                }
                for (const Ticks t : gig_.bars[bar].kicks) {
                    if (tones_at(line + t) != nullptr || is_ahead(line + t)) must.insert(t);
                }
            }
            for (; i < line_.size() && line_[i].at < line + meter_.bar(); ++i) {
                const Ticks t = line_[i].at - line;
                const bool may =
                    std::find(pattern.may.begin(), pattern.may.end(), t) != pattern.may.end() &&
                    tones_at(line + t) != nullptr;
                if (must.erase(t) == 0 && !may) fault(line_[i].at, "a note where none belongs");
                length(i, line + meter_.bar());
            }
            for (const Ticks t : must) fault(line + t, "nothing is played");
        }
    }

    void length(std::size_t i, Ticks bar_end) {
        Ticks until = i + 1 < line_.size() ? std::min(line_[i + 1].at, bar_end) : bar_end;
        for (Ticks t = line_[i].at; t < until; t += eighth_note) {
            if (tones_at(t) == nullptr && tones_at(line_[i].at) != nullptr) until = t - t % beat;
        }
        const auto written = (until - line_[i].at).count();
        const auto share = line_[i].length.count() * 100 / written;
        const bool kick = is_kick(line_[i].at);
        const bool ballad = bar_at(line_[i].at).feel == Feel::ballad;
        const bool seasoned = is_seasoning(line_[i]);
        const int wanted = line_[i].dead ? 25 : kick ? 75 : ballad && !seasoned ? 97 : 90;
        if (share < wanted - 1 || share > wanted) {
            fault(line_[i].at, "sounds for {} hundredths of what is written", share);
        }
        const int velocity = line_[i].velocity;
        const bool strong = starts_at(line_[i].at) || line_[i].at % meter_.bar() == Ticks(0);
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
            const auto* const meant = is_ahead(where) ? tones_at(where + beat) : tones;
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

    /// The third beat of 4/4, the fourth of 5/4 and 6/4, and the first of all.
    [[nodiscard]] bool is_strong(Ticks where) const {
        const auto in_bar = where % meter_.bar() / beat;
        const int middle = meter_.beats() == 4 ? 2 : meter_.beats() > 4 ? 3 : 0;
        return where % beat == Ticks(0) && (in_bar == 0 || in_bar == middle);
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
        const Ticks in_bar = where % meter_.bar();
        const bool root = pitch_of(i) == bit(tones.bass);
        if (meter_.beats() != 4) {
            if (!root && !is_fifth(i, tones)) fault(where, "neither root nor fifth");
        } else if (in_bar == at(0)) {
            if (!root) fault(where, "not the root");
        } else if (in_bar == at(2)) {
            const bool own = (pitch_of(i) & tones.tones) != 0;
            if (!is_fifth(i, tones) && !(own && is_before_start(i))) fault(where, "not the fifth");
        } else if (is_before_start(i)) {
            approach(i);
        } else if ((pitch_of(i) & tones.tones) == 0) {
            walking(i, tones);
        }
    }

    void bossa(std::size_t i, const Tones& tones) {
        const Ticks where = line_[i].at;
        const int beats = meter_.beats();
        const Ticks in_group = beats > 4 && where % meter_.bar() >= at(3)
                                   ? where % meter_.bar() - at(3)
                                   : where % meter_.bar();
        const bool root = pitch_of(i) == bit(tones.bass);
        const bool before_start = is_before_start(i);
        const bool leading = before_start && i + 1 < line_.size() &&
                             (leads(number(i + 1) - number(i)) || ahead_of(i));
        if (in_group == at(0)) {
            if (!root) fault(where, "not the root");
            return;
        }
        const bool two = beats == 5 && where % meter_.bar() >= at(3);
        const bool lead_place = in_group == at(3.5) || (two && in_group == at(1.5)) ||
                                (in_group == at(2) && beats != 4);
        if (is_fifth(i, tones) || leading || (lead_place && root && !before_start)) return;
        fault(where, "neither the fifth nor ahead of what comes");
    }

    /// Off the beat, and already the note that the next chord starts with.
    [[nodiscard]] bool ahead_of(std::size_t i) const {
        if (line_[i].at % beat == Ticks(0)) return false;
        const Ticks next = line_[i + 1].at;
        return pitch_of(i) == bit(tones_at(starts_at(next) ? next : next + beat)->bass);
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
            if (back > 0 && (line_[j + 1].at - line_[j].at > beat)) return;
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
        const Ticks from = meter_.bar() * static_cast<std::int64_t>(bar);
        const auto first = [&](Ticks where) {
            return static_cast<std::size_t>(
                std::lower_bound(line_.begin(), line_.end(), where,
                                 [](const auto& note, Ticks t) { return note.at < t; }) -
                line_.begin());
        };
        return {first(from), first(from + meter_.bar())};
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
    time::Meter meter_;
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

BassTeacher::BassTeacher(Gig gig) : gig_(std::move(gig)) {
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
            for (Ticks t; t < slot.length; t += beat) {
                Beat now{chord, bar, false, false};
                const bool first = seam && slot.start + t == Ticks(0);
                const bool rested = last == nullptr || !*last;
                now.starts =
                    t == Ticks(0) && slot.chord && (first || rested || **last != *slot.chord);
                now.fresh = first || rested;
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
        const auto& here = beats_[static_cast<std::size_t>(line[i].at / beat)];
        if (!is_walking(gig_.bars[here.bar]) || here.chord == none) continue;
        const int note = line[i].note.number();
        ++count.notes;
        if (note >= 29 && note <= 48) ++count.settled;
        if (note < 33) ++count.low;
        if (!here.starts || line[i].at % beat != Ticks(0) || i + 1 == line.size()) continue;
        ++count.starts;
        if (note % 12 == chords_[here.chord].bass) ++count.roots;
    }
}

std::vector<band::BassBar> bass_bars(const chart::Form& form, chart::Passage passage,
                                     chart::Bass bass, chart::Feel feel) {
    std::vector<band::BassBar> bars;
    for (int number = passage.from; number <= passage.to; ++number) {
        bars.push_back({{}, bass, feel, form.bar(number).kicks});
    }
    for (const auto& span : form.spans) {
        if (span.bar < passage.from || span.bar > passage.to) continue;
        bars[static_cast<std::size_t>(span.bar - passage.from)].chords.push_back(
            {span.start % form.chart.meter.bar(), span.length, span.chord});
    }
    return bars;
}

Gig gig_of(time::Meter meter, const std::vector<band::BassBar>& bars, int times,
           std::optional<int> home) {
    Gig gig{meter, {}, {}, true, home};
    for (int time = 0; time < times; ++time) {
        gig.stretches.push_back(gig.bars.size());
        gig.bars.insert(gig.bars.end(), bars.begin(), bars.end());
    }
    return gig;
}

std::vector<band::BassNote> play(const Gig& gig, std::uint64_t seed) {
    band::BassWriter writer(gig.meter, seed);
    std::vector<band::BassNote> line;
    const auto bars = [&](std::size_t from, std::size_t to) {
        return std::vector<band::BassBar>(gig.bars.begin() + static_cast<std::ptrdiff_t>(from),
                                          gig.bars.begin() + static_cast<std::ptrdiff_t>(to));
    };
    const auto begin = [&](std::size_t stretch) {
        return stretch < gig.stretches.size() ? gig.stretches[stretch] : gig.bars.size();
    };
    for (std::size_t i = 0; i < gig.stretches.size(); ++i) {
        const Ticks start = gig.meter.bar() * static_cast<std::int64_t>(begin(i));
        for (auto note : writer.next(bars(begin(i), begin(i + 1)), bars(begin(i + 1), begin(i + 2)),
                                     gig.home)) {
            note.at += start;
            line.push_back(note);
        }
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
