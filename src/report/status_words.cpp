#include "status_words.hpp"

#include "words.hpp"

#include <compline/report/columns.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

namespace compline::report {

namespace {

using roadmap::PlayedBar;
using roadmap::PlayedPlace;

/// What gives way where there is no room: a part of a line, and what stays of it.
struct Shorter {
    std::size_t part;
    std::string text;
};

std::string joined(const std::vector<std::string>& parts, const char* gap) {
    std::string line;
    for (const auto& part : parts) {
        if (part.empty()) continue;
        line += (line.empty() ? "" : gap) + part;
    }
    return line;
}

/// The parts of a line as they fit; what gives way does so in the order given.
std::string fitted(std::vector<std::string> parts, const std::vector<Shorter>& giving_way,
                   int columns) {
    for (std::size_t step = 0;; ++step) {
        for (const char* gap : {"   ", "  "}) {
            auto line = joined(parts, gap);
            if (columns_of(line) <= columns) return line;
        }
        if (step == giving_way.size()) return cut_to_columns(joined(parts, "  "), columns);
        parts.at(giving_way[step].part) = giving_way[step].text;
    }
}

/// "132 bpm"; where another one comes "132, then 126.7 bpm".
std::string tempo_words(const Decided& decided, const PlayedBar& here) {
    const auto then = decided.tempo.value_or(here.tune_tempo);
    const bool same = tempo_number(then) == tempo_number(here.tune_tempo);
    return tempo_number(here.tempo) + (same ? "" : ", then " + tempo_number(then)) + " bpm";
}

/// Who lays out, by rule or by decision. Of a band that was asked not to play nothing is said, and
/// of drums that the player sent out once.
std::string silence_words(const PlayedPlace& place, const PlayedBar& bar, const Decided& decided) {
    const auto out = bar.left_out.with(bar.decided_out);
    if (place.before || place.over || !out.anybody()) return "";
    if (bar.is_silent()) return "(silence)";
    return bar.on.drums && out.drums && !decided.drums_out ? "(drums out)" : "";
}

std::string out_words(const Decided& decided) {
    if (decided.drums_out && decided.bass_out) return "drums, bass out";
    if (decided.drums_out) return "drums out";
    return decided.bass_out ? "bass out" : "";
}

/// "loop 9-12"; while the bars before it are played "then loop 9-12".
std::string loop_words(const Decided& decided, int bar) {
    if (!decided.loop) return "";
    const auto [from, to] = *decided.loop;
    const auto bars = from == to ? fmt::format("{}", from) : fmt::format("{}-{}", from, to);
    return fmt::format("{}loop {}", bar < from || bar > to ? "then " : "", bars);
}

/// A pause comes at a bar line, which may be that after the next one.
std::string pause_words(const Playing& playing, const PlayedPlace& place) {
    if (playing.decided.until_cue) return "until cue";
    if (!playing.decided.paused) return "";
    if (playing.decided.rubato && place.over) return "rubato: go on when you are through";
    if (place.over) return "paused";
    const auto bars = playing.map.bars();
    if (!bars || *bars <= place.number) return "pause with the next bar";
    return fmt::format("pause in {} bars", *bars - place.number + 1);
}

/// What is judged, where that is not all.
std::string judged_words(const Playing& playing) {
    return playing.heard_by == listen::HeardBy::sound ? "by sound: time alone" : "";
}

/// The rows have their letters themselves.
std::string section_shown(const Playing& playing, const PlayedPlace& place) {
    constexpr int widest = 12;
    if (playing.view == View::rows) return "";
    return cut_to_columns(text::printable(playing.map.form().bar(place.bar).section), widest);
}

}  // namespace

std::string status_line(const Playing& playing, const PlayedPlace& place) {
    const auto& map = playing.map;
    const auto& decided = playing.decided;
    const auto here = map.bar(place.number);
    const auto nth = ordinal(place.time_through);
    const auto times = map.times_through();
    const bool counted = times && !decided.paused;  // a pause is no end
    const auto of = counted ? fmt::format(" of {}", *times) : "";
    enum : std::size_t {
        section,
        name,
        time,
        bar,
        tempo,
        loop,
        out,
        silence,
        pause,
        judged,
        refused
    };
    const auto judged_as = judged_words(playing);
    return fitted(
        {section_shown(playing, place), text::printable(map.way().stretch(place.time_through).name),
         nth + (of.empty() ? " time through" : of),
         fmt::format("bar {} of {}", place.bar, map.form().bars.size()), tempo_words(decided, here),
         loop_words(decided, place.bar), out_words(decided), silence_words(place, here, decided),
         pause_words(playing, place), judged_as, decided.refused},
        {{judged, judged_as.empty() ? "" : "time alone"},
         {name, ""},
         {time, nth + (of.empty() ? " time" : of)},
         {bar, fmt::format("bar {}", place.bar)},
         {time, ""},
         {section, ""},
         {bar, ""},
         {pause, decided.until_cue              ? "until cue"
                 : !decided.paused              ? ""
                 : decided.rubato && place.over ? "rubato"
                 : place.over                   ? "paused"
                                                : "pause"},
         {loop, ""},
         {out, ""},
         {silence, ""},
         {judged, ""},
         {tempo, ""}},
        playing.window.columns);
}

std::string notice(const Playing& playing, const PlayedPlace& place) {
    const auto& decided = playing.decided;
    if (decided.paused) return decided.rubato && place.over ? "rubato" : "pause";
    const auto silence = silence_words(place, playing.map.bar(place.number), decided);
    if (!silence.empty()) return silence.substr(1, silence.size() - 2);
    const auto out = out_words(decided);
    if (!out.empty()) return out;
    return decided.until_cue ? "until cue" : loop_words(decided, place.bar);
}

std::string keys_line(const Playing& playing) {
    const auto& decided = playing.decided;
    const bool large = playing.view == View::large;
    enum : std::size_t { space, tempo, loop, players, top, over, view, stop };
    // From the large view, which the rows teach nobody, there must be a way back.
    const auto next_to_go = large ? top : view;
    const auto then = large ? players : top;
    const auto last = large ? view : players;
    return fitted(
        {decided.paused      ? "space: go on"
         : decided.until_cue ? "Enter: go on   space: pause"
                             : "space: pause",
         "↑ ↓: tempo", decided.loop ? "w: whole tune" : "l: loop here", "d b: drums, bass",
         "Home: top", "r: start over", large ? "v: rows" : "v: large", "q: stop"},
        {{over, ""}, {next_to_go, ""}, {then, ""}, {last, ""}, {loop, ""}, {tempo, ""}, {stop, ""}},
        playing.window.columns);
}

}  // namespace compline::report
