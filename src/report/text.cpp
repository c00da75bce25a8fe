#include "faults.hpp"
#include "first_sentence.hpp"
#include "problems.hpp"
#include "suggestion.hpp"
#include "words.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/chart/summary.hpp>
#include <compline/report/columns.hpp>
#include <compline/report/report.hpp>
#include <compline/report/tempi.hpp>
#include <compline/text/for_shell.hpp>
#include <compline/text/printable.hpp>
#include <compline/time/beat_name.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

namespace compline::report {

namespace {

using assess::Verdict;

constexpr int terminal_columns = 80;
constexpr std::size_t terminal_lines = 24;

/// Words that name what stands behind them: "Changes  ".
constexpr std::size_t label_columns = 9;

std::vector<std::string> split_lines(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t from = 0; from < text.size();) {
        const auto end = std::min(text.find('\n', from), text.size());
        lines.push_back(text.substr(from, end - from));
        from = end + 1;
    }
    return lines;
}

std::size_t lines_in(const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

std::string ratio(double value) { return fmt::format("{:.2f}:1", value); }

std::string times_words(const roadmap::RoadMap& map) {
    const auto& way = map.way();
    if (!way.is_uniform()) return "by road map: " + chart::road_map_in_words(way, map.form());
    const auto times = way.stretches.size();
    return times == 1 ? "once through" : fmt::format("{} times through", times);
}

/// What is in time leans on the tempo, where the player asked for no tolerance of his own.
std::string tolerance_words(const practice::Report& report) {
    auto text = fmt::format("in time within {:.0f} ms", report.tolerance().milliseconds());
    if (report.settings.against == assess::Against::beat) text += " of the beat itself";
    const bool leans = !report.settings.tolerance && tempi_played(report.map).size() > 1;
    return leans ? fmt::format("{} at {} bpm", text, plain(report.map.tempo().count())) : text;
}

/// "bars 13-16 of bars 1-32" where these were asked for.
std::string judged_bars(const practice::Report& report) {
    const auto played = bars_words(report.map.way().reach());
    const auto& part = report.settings.part;
    return part ? bars_words(*part) + " of " + played : played;
}

/// A way of many loops is long.
std::string asked_lines(const practice::Report& report) {
    const auto played = fmt::format("{}, {};", judged_bars(report), times_words(report.map));
    const auto wanted = fmt::format("rhythm {}, strictness {},",
                                    assess::rhythm_words(report.settings, report.map.form().chart),
                                    harmony::name_of(report.settings.strictness));
    const auto tolerance = tolerance_words(report);
    const auto judged = wanted + " " + tolerance;
    const auto fits = [](const std::string& line) { return columns_of(line) <= terminal_columns; };
    if (fits(played + " " + judged)) return played + " " + judged + "\n";
    const auto lines = in_lines(played + "\n" + (fits(judged) ? judged : wanted + "\n" + tolerance),
                                terminal_columns);
    return fmt::format("{}\n", fmt::join(lines, "\n"));
}

std::string heading(const practice::Report& report) {
    const auto& map = report.map;
    const auto& chart = map.form().chart;
    const double swing = map.swing().ratio();
    return fmt::format(
        "{}   {}   {}   {}   {}\n{}", chart.title, key_in_words(chart), meter_words(chart.meter),
        tempo_range(map),
        swing == 1.0 || chart.meter.is_compound() ? "straight" : "swing " + ratio(swing),
        asked_lines(report));
}

std::string tempo_line(const roadmap::RoadMap& map) {
    const std::string name = "Tempo    ";
    const auto tempi = tempi_by_time_through(map, terminal_columns - name.size());
    return tempi.empty() ? "" : name + tempi + "\n";
}

std::string totals_line(const assess::Totals& totals) {
    static constexpr std::pair<Verdict, const char*> shown[] = {
        {Verdict::on_time, "on time"},   {Verdict::pushed, "pushed"},
        {Verdict::placed, "placed"},     {Verdict::held, "held"},
        {Verdict::laid_out, "laid out"}, {Verdict::early, "early"},
        {Verdict::late, "late"},         {Verdict::missed, "missed"},
        {Verdict::astray, "astray"}};
    const auto uncertain =
        totals.uncertain > 0 ? fmt::format("; {} uncertain", totals.uncertain) : std::string();
    if (totals.changes == 0) {
        return totals.uncertain > 0 ? "Changes  none for certain" + uncertain + "\n"
                                    : "Changes  none were due\n";
    }
    std::string text = fmt::format("Changes  {}:", totals.changes);
    std::string comma = " ";
    for (const auto& [verdict, words] : shown) {
        if (totals.count(verdict) == 0) continue;
        text += fmt::format("{}{} {}", comma, totals.count(verdict), words);
        comma = ", ";
    }
    const auto tones = fmt::format("tones right in {}", totals.right_tones) + uncertain;
    return text + "; " + tones + "\n";
}

/// "1 +4, 2& -12, 4 none": behind, on each written beat of the rhythm.
std::string per_beat_line(const assess::TimeKeeping& time, time::Meter meter) {
    if (time.per_beat.empty()) return "";
    std::string text;
    for (const auto& written : time.per_beat) {
        const auto mean = written.strums.mean_ms;
        text +=
            fmt::format("{}{} {}", text.empty() ? "" : ", ", time::beat_name(written.in_bar, meter),
                        mean ? fmt::format("{:+.0f}", std::round(*mean) + 0.0) : "none");
    }
    return "         each beat, in ms behind: " + text + "\n";
}

std::string time_line(const assess::TimeKeeping& time, const practice::Report& report) {
    if (time.all.count == 0) return "Time     no chords were heard\n";
    std::string text = fmt::format("Time     {}", plural(time.all.count, "strum", "strums"));
    if (time.on_beats.count > 0) {
        text += fmt::format("; on the beat {}", spread_words(time.on_beats));
    }
    if (time.off_beats.count > 0) {
        text += fmt::format("; off-beats {}", spread_words(time.off_beats));
    }
    text += "\n";
    std::string more;
    if (time.swing_ratio) {
        more += fmt::format("your swing {} (the band's {})", ratio(*time.swing_ratio),
                            ratio(report.map.swing().ratio()));
    }
    if (time.drift_ms_per_bar) {
        more += fmt::format("{}drift {:+.1f} ms a bar in silence", more.empty() ? "" : "; ",
                            *time.drift_ms_per_bar);
    }
    if (time.missing_strums > 0) {
        more += fmt::format("{}{} left out", more.empty() ? "" : "; ",
                            plural(time.missing_strums, "strum", "strums"));
    }
    if (!more.empty()) text += "         " + more + "\n";
    return text + per_beat_line(time, report.map.form().chart.meter);
}

/// Said once, so that laid-back time is style; where it may be a slow hand, that is said too.
std::string place_line(const assess::OwnPlace& place) {
    constexpr double least_ms = 5;
    if (place.uneven && std::fabs(place.uneven->milliseconds()) >= least_ms) {
        const double uneven = std::round(place.uneven->milliseconds());
        return fmt::format(
            "Place    {:.0f} ms {} the beat, unevenly: the beat itself is judged by\n",
            std::fabs(uneven), uneven > 0 ? "behind" : "ahead of");
    }
    const double ms = place.on_beats ? std::round(place.on_beats->milliseconds()) : 0;
    if (std::fabs(ms) < least_ms) return "";
    const auto text = fmt::format("Place    you, or your MIDI pickup, sit {:.0f} ms {} the beat",
                                  std::fabs(ms), ms > 0 ? "behind" : "ahead of");
    if (place.told_apart || ms < 0) return text + "\n";
    return text + ", unless your hand is slow at changes\n";
}

std::string behind_words(double ms) {
    const double whole = std::round(ms);
    if (whole == 0) return "where you left";
    return fmt::format("{:.0f} ms {}", std::fabs(whole), whole > 0 ? "behind" : "ahead");
}

/// How the player kept the time alone, a silence at a time; the first few.
std::string silences_line(const assess::TimeKeeping& time) {
    constexpr std::size_t most = 4;
    std::string text;
    std::size_t named = 0;
    for (const auto& silence : time.silences) {
        if (!silence.came_back_ms || named == most) continue;
        ++named;
        text +=
            fmt::format("{}{} later {}", text.empty() ? "" : ", ",
                        plural(silence.bars, "bar", "bars"), behind_words(*silence.came_back_ms));
    }
    if (text.empty()) return "";
    const auto more = time.silences.size() > named && named == most ? ", ..." : "";
    return "Silence  " + text + more + "\n";
}

std::string kicks_line(const assess::TimeKeeping& time) {
    if (time.kicks.written == 0) return "";
    const auto& caught = time.kicks.caught;
    std::string text = fmt::format("Kicks    {} of {} caught", caught.count, time.kicks.written);
    if (caught.count > 0) text += "; " + spread_words(caught);
    return text + "\n";
}

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
    if (report.assessment.time.all.count > 0 && !report.strings) {
        text = "Heard    on one channel for all strings: which string it was is not known\n" + text;
    }
    if (cleaned.unended > 0) {
        text +=
            fmt::format("Mended   {} without an end, taken to end with what was struck beside\n",
                        plural(cleaned.unended, "note", "notes"));
    }
    return text;
}

/// Which channel is which string; one line says the rest already.
std::string layout(const practice::Report& report) {
    if (!report.strings) return "";
    return fmt::format(", string {} on channel {}", report.strings->low_string_first ? 6 : 1,
                       report.strings->first_channel);
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
    if (machine->late_strokes > 0) {
        text += fmt::format("         the band left out {}: they came too late to be played\n",
                            plural(machine->late_strokes, "stroke", "strokes"));
    }
    if (!machine->input.empty()) {
        text += fmt::format("MIDI     {}{}\n", text::printable(machine->input), layout(report));
    }
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

/// What is too wide for a terminal goes on below, further in.
std::string in_columns(const std::string& text) {
    std::string wrapped;
    for (const auto& line : split_lines(text)) {
        // "Time     14 strums", and what stands below it.
        const bool labelled = line.size() > label_columns && line[label_columns] != ' ' &&
                              line.substr(label_columns - 2, 2) == "  ";
        const std::size_t indent = line.starts_with("  ") && line[2] != ' ' ? 4
                                   : labelled                               ? label_columns
                                                                            : 0;
        wrapped += hanging(line, terminal_columns, indent) + "\n";
    }
    return wrapped;
}

}  // namespace

std::string to_text(const practice::Report& report, Listing listing) {
    const auto faults = faults_of(report);
    const auto head = in_columns(
        first_sentence(report, faults) + "\n\n" + heading(report) + "\n" + tempo_line(report.map) +
        totals_line(report.assessment.totals) + time_line(report.assessment.time, report) +
        place_line(report.assessment.own_place) + silences_line(report.assessment.time) +
        kicks_line(report.assessment.time) + placement_line(report) + heard_line(report) +
        machine_lines(report));
    const auto end = suggestion_text(report);
    // Whether or not the command is there: the same faults are shown.
    constexpr std::size_t of_suggestion = 4;
    const auto taken = lines_in(head) + (end.empty() ? 0 : of_suggestion) + 1;  // an empty line
    const auto room = terminal_lines - std::min(terminal_lines, taken);
    return head + in_columns(problems_text(report, faults, listing, room)) + end;
}

}  // namespace compline::report
