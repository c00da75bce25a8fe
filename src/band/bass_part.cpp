#include "bass_part.hpp"

#include "bar_grid.hpp"
#include "ending.hpp"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

namespace compline::band {

namespace {

using time::Ticks;

/// How far the bass sees into the next time through.
constexpr std::size_t bars_in_view = 2;
constexpr double no_time_to_skip = 240;  // bpm
constexpr double no_time_to_lead = 200;  // bpm: two chords a bar, 0.6 s each

/// A skip note is an eighth: over 240 bpm there is no time to sound one.
Seasoning seasoning_at(time::Bpm tempo, const BarGrid& grid) {
    const auto eighths = static_cast<double>(time::eighth_note.count());
    const auto skips = static_cast<double>(grid.short_note.count());
    return tempo.count() * eighths / skips > no_time_to_skip ? Seasoning::dead_notes
                                                             : Seasoning::skips_and_dead_notes;
}

/// The lowest note of the grips that sound in a bar; none where none does.
std::optional<harmony::MidiNote> lowest_of(const guitar::VoicingPlan& plan,
                                           const chart::FormBar& bar,
                                           const std::vector<chart::Slot>& chords) {
    std::optional<harmony::MidiNote> lowest;
    for (const auto& slot : chords) {
        const auto* const voicing = plan.at(bar.start + slot.start);
        if (voicing == nullptr || !slot.chord) continue;
        const auto note = guitar::lowest_note(plan.fretboard, voicing->grip.shape);
        if (note) lowest = std::min(lowest.value_or(*note), *note);
    }
    return lowest;
}

/// The bass itself is silent in the bar that follows within this time through.
bool rests_after(const TimeThrough& time, int bar) {
    return bar < time.passage().to && time.played(bar + 1).left_out.bass;
}

std::vector<BassBar> bass_bars(const TimeThrough& time) {
    const auto& voicings = time.players.voicings;
    const auto passage = time.passage();
    std::vector<BassBar> bars;
    for (int bar = passage.from; bar <= passage.to; ++bar) {
        const auto how = time.manner(bar);
        const auto& here = time.form().bar(bar);
        const BarGrid grid(here.meter);
        BassBar bass{time.played(bar).slots(), how.bass, how.feel, here.kicks};
        bass.meter = here.meter;
        bass.hold = here.hold;
        if (!how.plain_bass && !rests_after(time, bar)) {
            bass.seasoning = seasoning_at(time.tempo(), grid);
        }
        bass.phrase_ends = here.bar_in_section % bars_of_phrase == 0 || time.ends_section(bar);
        const auto walked = time::Beats(grid.pulse).count();
        bass.fast = time.tempo().count() / walked > no_time_to_lead;
        if (voicings) bass.guitar_lowest = lowest_of(*voicings, here, bass.chords);
        bars.push_back(std::move(bass));
    }
    return bars;
}

/// What follows, as far as the bass sees.
std::vector<BassBar> bars_behind(const TimeThrough& time) {
    if (!time.is_last()) {
        auto then = bass_bars({time.map, time.players, time.number + 1});
        then.resize(std::min(then.size(), bars_in_view));
        return then;
    }
    if (time.map.way().held_ending) return {tonic_bar(time.map, time.players.voicings)};
    return {};
}

/// The tonic, where the form ends and nothing follows.
std::optional<int> home_of(const TimeThrough& time) {
    const auto& form = time.form();
    const int last = time.passage().to;
    const bool ends = last == form.whole().to || last == form.last_bar();
    if (!ends || !time.stops_after(last)) return std::nullopt;
    return form.bar(last).key.tonic.pitch_class();
}

}  // namespace

void write_bass(const TimeThrough& time, BassWriter& writer, Part& part) {
    const Ticks start = time.start();
    for (BassNote note : writer.next(bass_bars(time), bars_behind(time), home_of(time))) {
        note.at += start;
        const auto bar = time.map.bar_at(note.at);
        if (bar.left_out.bass) continue;
        const bool rings_on = note.at + note.length > bar.end();
        if (rings_on && rests_after(time, bar.in_form())) note.length = bar.end() - note.at;
        part.notes.push_back(note);
    }
}

}  // namespace compline::band
