#include "time_lines.hpp"

#include "words.hpp"

#include <compline/practice/time_alone.hpp>
#include <compline/time/beat_name.hpp>

#include <fmt/format.h>

#include <cmath>
#include <cstddef>

namespace compline::report {

namespace {

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
    if (time.all.count == 0) {
        return practice::judges_tones(report) ? "Time     no chords were heard\n"
                                              : "Time     no strums were heard\n";
    }
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
        more += fmt::format("your swing {} (the band's {})", ratio_words(*time.swing_ratio),
                            ratio_words(report.map.swing().ratio()));
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
std::string place_line(const practice::Report& report) {
    const auto& place = report.assessment.own_place;
    constexpr double least_ms = 5;
    if (place.uneven && std::fabs(place.uneven->milliseconds()) >= least_ms) {
        const double uneven = std::round(place.uneven->milliseconds());
        return fmt::format(
            "Place    {:.0f} ms {} the beat, unevenly: the beat itself is judged by\n",
            std::fabs(uneven), uneven > 0 ? "behind" : "ahead of");
    }
    const double ms = place.on_beats ? std::round(place.on_beats->milliseconds()) : 0;
    if (std::fabs(ms) < least_ms) return "";
    const char* or_what =
        practice::judges_tones(report) ? "your MIDI pickup" : "your sound on its way in";
    const auto text = fmt::format("Place    you, or {}, sit {:.0f} ms {} the beat", or_what,
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

}  // namespace

std::string ratio_words(double ratio) { return fmt::format("{:.2f}:1", ratio); }

std::string time_lines(const practice::Report& report) {
    const auto& assessment = report.assessment;
    return time_line(assessment.time, report) + place_line(report) +
           silences_line(assessment.time) + kicks_line(assessment.time);
}

}  // namespace compline::report
