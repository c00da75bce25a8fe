#include <compline/band/band.hpp>
#include <compline/band/part_writer.hpp>

#include <cassert>

namespace compline::band {

namespace {

using chart::Bass;
using chart::Drums;
using chart::Feel;

constexpr double slow_below = 80;
constexpr double fast_above = 260;

template <typename Event>
void append(std::vector<Event>& to, const std::vector<Event>& more) {
    to.insert(to.end(), more.begin(), more.end());
}

}  // namespace

Setup Setup::of(chart::Passage passage, std::optional<int> times_through, int count_in_bars) {
    Setup setup;
    setup.route = chart::Route::of(passage, times_through);
    setup.count_in_bars = count_in_bars;
    return setup;
}

int usual_count_in(time::Bpm tempo) { return tempo.count() < slow_below ? 1 : 2; }

Manner manner_of(const chart::AskedManner& asked, time::Bpm tempo) {
    const bool fast = tempo.count() > fast_above;
    Manner manner;
    manner.feel = asked.feel.value_or(Feel::swing);
    const bool slow = tempo.count() < slow_below || manner.feel == Feel::ballad;
    const bool bossa = manner.feel == Feel::bossa;
    const Drums drums = slow && !bossa   ? Drums::brushes
                        : fast && !bossa ? Drums::quarters
                                         : Drums::ride;
    manner.drums = asked.drums.value_or(drums);
    manner.bass = asked.bass.value_or(slow ? Bass::two_feel : Bass::walking);
    manner.breathing = asked.phrasing == chart::Phrasing::breathing;
    manner.plain_bass = asked.plain_bass;
    manner.feathered = !fast && manner.drums != Drums::quarters;
    return manner;
}

bool lays_out(const Setup& setup, int time_through, std::int64_t bar_played) {
    if (setup.route.stretch(time_through).silent) return true;
    if (!setup.silence) return false;
    const auto& silence = *setup.silence;
    const std::int64_t counted = silence.times_through ? time_through - 1 : bar_played;
    return counted % (silence.playing + silence.silent) >= silence.playing;
}

bool keeps_bass(const Setup& setup, int time_through) {
    return setup.silence && setup.silence->drums_alone && !setup.route.stretch(time_through).silent;
}

std::vector<int> silent_bars(const chart::Form& form, const Setup& setup, time::Bpm tempo,
                             int bars) {
    std::vector<int> silent;
    int time_through = 1;
    std::int64_t next_begins = setup.route.bars_before(2);
    for (int bar = 0; bar < bars; ++bar) {
        if (bar == next_begins) next_begins = setup.route.bars_before(++time_through + 1);
        const auto place = setup.route.place(form.chart.meter.bar() * bar, form.chart.meter);
        if (place.over) break;
        const auto manner = manner_of(
            chart::asked_manner(form, setup.route, time_through, place.bar, setup.manner), tempo);
        const bool out = lays_out(setup, time_through, bar);
        const bool clicks = setup.click && bar % setup.click->every == 0;
        const bool drums = !out && (setup.click ? clicks : manner.drums != Drums::off);
        const bool bass = (!out || keeps_bass(setup, time_through)) && manner.bass != Bass::off;
        const bool guitar = setup.voicings && (!out || keeps_bass(setup, time_through));
        if (!drums && !bass && !guitar) silent.push_back(bar);
    }
    return silent;
}

Part arrange(const chart::Form& form, const Setup& setup, time::Bpm tempo) {
    assert(!setup.route.goes_on);
    PartWriter writer(form, setup, tempo);
    Part part;
    while (const auto time = writer.next()) {
        append(part.strokes, time->strokes);
        append(part.notes, time->notes);
        append(part.melody, time->melody);
        append(part.guitar, time->guitar);
        append(part.kicks, time->kicks);
    }
    return part;
}

}  // namespace compline::band
