#include "gear_lines.hpp"

#include "words.hpp"

#include <compline/listen/string_offsets.hpp>
#include <compline/practice/time_alone.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <cmath>

namespace compline::report {

namespace {

std::string placement_line(const practice::Report& report) {
    if (report.placement.empty()) return "";
    return fmt::format("Band     {} ms behind the beat; you are judged by the beat\n",
                       report.placement);
}

std::string heard_line(const practice::Report& report) {
    const auto& cleaned = report.cleaned;
    std::string text;
    const auto add = [&](int n, const char* one, const char* many) {
        if (n > 0) text += (text.empty() ? "" : ", ") + plural(n, one, many);
    };
    add(cleaned.ghosts, "ghost note", "ghost notes");
    add(cleaned.double_triggers, "double trigger", "double triggers");
    add(cleaned.flickers, "flicker", "flickers");
    add(cleaned.lift_offs, "lift-off", "lift-offs");
    add(cleaned.frets_passed, "fret passed in a slide", "frets passed in slides");
    add(cleaned.impossible, "note beyond all notes", "notes beyond all notes");
    if (!text.empty()) text = "Left out " + text + " of the MIDI pickup\n";
    const bool by_midi = practice::judges_tones(report);
    if (by_midi && report.assessment.time.all.count > 0 && !report.strings) {
        text = "Heard    on one channel for all strings: which string it was is not known\n" + text;
    }
    if (cleaned.unended > 0) {
        text +=
            fmt::format("Mended   {} without an end, taken to end with what was struck beside\n",
                        plural(cleaned.unended, "note", "notes"));
    }
    return text;
}

std::string round_trip_words(const practice::DelaysTaken& delays) {
    switch (delays.round_trip) {
        case practice::RoundTripNow::not_known:
            return "no round trip is kept: the take's own stays";
        case practice::RoundTripNow::taken:
            return fmt::format("by its round trip all is {:.1f} ms {}",
                               std::fabs(delays.moved.milliseconds()),
                               delays.moved < time::Seconds(0) ? "earlier" : "later");
        case practice::RoundTripNow::not_said_by_take:
            return "the take does not say what it was played on: no round trip is taken";
        case practice::RoundTripNow::measured_elsewhere:
            return "your round trip was measured on something else: the take's stays";
    }
    return "";
}

/// Those of the settings, where they were asked for.
std::string delays_line(const practice::Report& report) {
    if (!report.delays) return "";
    const auto& delay = report.delays->delay;
    const auto by_string = listen::string_offsets_in_words(delay.by_string);
    return fmt::format("Delays   by your settings: {} ms and {} of the wave{}\n         {}\n",
                       text::to_three_decimals(delay.constant.milliseconds()),
                       delay.cycles == 1 ? "1 cycle" : plain(delay.cycles) + " cycles",
                       by_string.empty() ? "" : ", strings " + by_string,
                       round_trip_words(*report.delays));
}

/// Which channel is which string; one line says the rest already.
std::string layout(const practice::Report& report) {
    if (!report.strings) return "";
    return fmt::format(", string {} on channel {}", report.strings->low_string_first ? 6 : 1,
                       report.strings->first_channel);
}

std::string cable_line(const std::vector<listen::Unheard>& unheard) {
    if (unheard.empty()) return "";
    time::Seconds out{0};
    for (const auto& span : unheard) out += span.to - span.from;
    const auto times = static_cast<int>(unheard.size());
    return fmt::format(
        "         its cable was out {}, {:.0f} s in all; what you played then is not known\n",
        times == 1 ? "once" : plural(times, "time", "times"), std::ceil(out.count()));
}

/// How the machine bore up: always shown, so that a calm evening is known to be one.
std::string machine_lines(const practice::Report& report) {
    const auto& machine = report.machine;
    if (!machine || machine->rate_hz <= 0 || machine->period_frames <= 0) return "";
    const double period_ms = 1000.0 * machine->period_frames / machine->rate_hz;
    const auto interrupted =
        machine->xruns == 0
            ? std::string("never interrupted")
            : fmt::format("interrupted {}", plural(machine->xruns, "time", "times"));
    std::string text = fmt::format(
        "Sound    {}, {} Hz, {} frames (every {:.1f} ms)\n"
        "         {}; the longest callback took {:.1f} % of that\n",
        text::printable(machine->output), machine->rate_hz, machine->period_frames, period_ms,
        interrupted, 100 * machine->worst_callback_ms / period_ms);
    if (machine->round_trip_ms) {
        text += fmt::format(
            "         {:.1f} ms round trip, measured, in place of the system's {:.1f}\n",
            *machine->round_trip_ms, machine->latency_ms);
    }
    if (machine->late_strokes > 0) {
        text += fmt::format("         the band left out {}: they came too late to be played\n",
                            plural(machine->late_strokes, "stroke", "strokes"));
    }
    if (!machine->input.empty()) {
        const auto name = text::printable(machine->input);
        text += practice::judges_tones(report)
                    ? fmt::format("MIDI     {}{}\n", name, layout(report))
                    : fmt::format("Guitar   by sound, {}\n", name);
    }
    text += cable_line(report.heard.unheard);
    if (machine->dropped_events > 0) {
        text += fmt::format("         lost {}: there was no room for them\n",
                            plural(machine->dropped_events, "message", "messages"));
    }
    if (machine->unreadable_bytes > 0) {
        text += fmt::format("         {} made no message: look after cable and interface\n",
                            plural(machine->unreadable_bytes, "byte", "bytes"));
    }
    return text;
}

}  // namespace

std::string gear_lines(const practice::Report& report) {
    return placement_line(report) + delays_line(report) + heard_line(report) +
           machine_lines(report);
}

}  // namespace compline::report
