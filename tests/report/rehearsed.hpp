#pragma once

// A short tune played by hand-written strums, and its report: for the tests of this folder.

#include <compline/assess/assessment.hpp>
#include <compline/listen/listener.hpp>
#include <compline/report/report.hpp>
#include <compline/roadmap/road_map.hpp>
#include <compline/simulate/guitarist.hpp>

#include <string>
#include <utility>
#include <vector>

namespace compline::tests {

/// "x535xx", from string 6 to string 1, frets below ten.
inline guitar::Shape grip(const std::string& frets) {
    guitar::Shape shape;
    for (std::size_t i = 0; i < 6; ++i) {
        if (frets.at(i) != 'x') shape.frets.at(5 - i) = frets.at(i) - '0';
    }
    return shape;
}

/// A strum at a bar and beat (from 1, "2.5" is the off-beat after 2), some ms late, some beats
/// long.
struct Strum {
    int bar;
    double beat;
    std::string frets;
    double late_ms = 0;
    double beats = 1;
};

/// The form some times through, as its chart says.
inline roadmap::RoadMap through(const chart::Form& form, int times = 1) {
    return {form, roadmap::Asked::of(form.whole(), times)};
}

inline std::vector<midi::TimedMessage> play(const std::vector<Strum>& strums,
                                            const roadmap::RoadMap& map) {
    std::vector<simulate::ScriptedStrum> script;
    for (const auto& strum : strums) {
        const auto in_bar = static_cast<std::int64_t>((strum.beat - 1) * 960);
        simulate::ScriptedStrum scripted;
        scripted.at = map.bar(strum.bar).start + time::Ticks(in_bar);
        scripted.lateness = time::from_milliseconds(strum.late_ms);
        scripted.shape = grip(strum.frets);
        scripted.length = map.tempo().beat() * strum.beats;
        script.push_back(scripted);
    }
    return simulate::perform(script, map, guitar::Fretboard::standard());
}

/// Hears and judges, as the program does.
inline practice::Report judged(const roadmap::RoadMap& map,
                               const std::vector<midi::TimedMessage>& messages,
                               const assess::Settings& settings = {}) {
    assess::Performance heard;
    heard.end = map.time_of(map.end());
    auto listened = listen::hear(messages, {}, heard.end);
    heard.notes = std::move(listened.notes);
    auto assessment = assess::assess(map, heard, settings);
    return {map, heard, settings, assessment, listened.cleaned, listened.strings, {}, "", ""};
}

/// The same playing through a MIDI pickup that sends all strings on channel 1.
inline std::vector<midi::TimedMessage> on_one_channel(std::vector<midi::TimedMessage> messages) {
    for (auto& timed : messages) {
        timed.message.status = static_cast<std::uint8_t>(timed.message.status & 0xF0);
    }
    return messages;
}

/// A tune with one fault of each kind, and a push and a held chord that are none.
inline constexpr const char* eight_bars_text =
    "title: Eight Bars for a Clumsy Hand\n"
    "key: C\n"
    "tempo: 132\n"
    "sections:\n"
    "  A: |\n"
    "    Cmaj7 | A7    | Dm7 F6 | Fm7\n"
    "    Bb7   | Cmaj7 | Ebm7   | Dm7 G7\n";

inline chart::Form eight_bars() {
    return chart::unroll(chart::read_chart(eight_bars_text, "eight-bars.yaml"));
}

inline std::vector<Strum> clumsy_hand() {
    return {
        {1, 1, "x324xx", 6, 1.5},   //
        {1, 2.5, "x324xx", 9, 2},   // the off-beat after 2, as swung
        {2, 1, "5x56xx", 62, 1.5},  // late
        {2, 2.5, "5x56xx", 7, 2},   //
        {3, 1, "x5756x", -4, 4},    // Dm7, whose tones hold for F6 in the middle of the bar
        {4, 1, "x8789x", 3, 1.5},   // a finger stays: string 4 fret 7, A, where Fm7 has A flat
        {4, 4.5, "6x67xx", 2, 2},   // Bb7 an off-beat early: a push
        {5, 3, "6x67xx", -12, 2},   //
        {6, 1, "x320xx", 8, 2},     // C, E and G: no seventh
        {6, 3, "x320xx", 5, 2},     //
        {7, 1, "x320xx", 4, 1.5},   // the old chord once more: Eb minor never comes
        {7, 3, "x320xx", 10, 1.5},  //
        {8, 1, "x545xx", -7, 1.5},  // F sharp for F: a major third on Dm7
        {8, 3, "3x34xx", 12, 2},    //
    };
}

inline practice::Report clumsy_report() {
    const auto map = through(eight_bars());
    auto report = judged(map, play(clumsy_hand(), map));
    report.chart_file = "charts/eight-bars.yaml";
    return report;
}

}  // namespace compline::tests
