#include "bass.hpp"

#include "benches.hpp"

#include <compline/band/bass.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace compline::bench {

namespace {

constexpr int keys = 12;
constexpr int times = 2;

harmony::Spelling higher(const harmony::Spelling& note, int semitones) {
    static constexpr std::array<std::string_view, 12> names = {"C",  "Db", "D",  "Eb", "E",  "F",
                                                               "F#", "G",  "Ab", "A",  "Bb", "B"};
    std::size_t length = 0;
    const auto index = static_cast<std::size_t>((note.pitch_class() + semitones) % 12);
    return *harmony::read_spelling(names.at(index), length);
}

std::vector<band::BassBar> walking_bars(const chart::Form& form, int semitones) {
    std::vector<band::BassBar> bars(form.bars.size());
    for (const auto& span : form.spans) {
        auto chord = span.chord;
        if (chord) {
            chord->root = higher(chord->root, semitones);
            if (chord->bass) chord->bass = higher(*chord->bass, semitones);
        }
        bars[static_cast<std::size_t>(span.bar - 1)].chords.push_back(
            {span.start - form.bar(span.bar).start, span.length, chord});
    }
    return bars;
}

/// What is counted, in notes but where it says otherwise.
struct Figures {
    int notes = 0;
    int starts = 0;  // of chords
    int roots = 0;   // of those
    int moves = 0;   // from one note to the next
    int semitones = 0;
    int small = 0;  // steps and thirds
    int steps = 0;
    int repeats = 0;
    int octaves = 0;
    int turns = 0;
    int zigzags = 0;  // a turn right after a turn
    int settled = 0;
    int lines = 0;
    int range = 0;                         // of lines, added up
    std::map<std::vector<int>, int> bars;  // by intervals from the first note

    [[nodiscard]] int most_common_bar() const {
        int most = 0;
        for (const auto& [shape, count] : bars) most = std::max(most, count);
        return most;
    }
    [[nodiscard]] int all_bars() const {
        int all = 0;
        for (const auto& [shape, count] : bars) all += count;
        return all;
    }
};

void count_motion(const std::vector<int>& line, Figures& figures) {
    for (std::size_t i = 1; i < line.size(); ++i) {
        const int move = line[i] - line[i - 1];
        ++figures.moves;
        figures.semitones += std::abs(move);
        figures.small += move != 0 && std::abs(move) <= 4 ? 1 : 0;
        figures.steps += move != 0 && std::abs(move) <= 2 ? 1 : 0;
        figures.repeats += move == 0 ? 1 : 0;
        figures.octaves += std::abs(move) == 12 ? 1 : 0;
        const bool turns = i >= 2 && move * (line[i - 1] - line[i - 2]) < 0;
        figures.turns += turns ? 1 : 0;
        const bool turned = i >= 3 && (line[i - 1] - line[i - 2]) * (line[i - 2] - line[i - 3]) < 0;
        figures.zigzags += turns && turned ? 1 : 0;
    }
    const auto [low, high] = std::minmax_element(line.begin(), line.end());
    ++figures.lines;
    figures.range += *high - *low;
}

void count_line(const std::vector<band::BassNote>& notes, const std::vector<band::BassBar>& bars,
                time::Ticks bar_length, Figures& figures) {
    std::vector<int> line;
    std::vector<int> shape;
    const std::optional<harmony::Chord>* last = nullptr;
    for (std::size_t i = 0; i < notes.size(); ++i) {
        const int note = notes[i].note.number();
        line.push_back(note);
        ++figures.notes;
        figures.settled +=
            notes[i].note >= band::settled_low && notes[i].note <= band::settled_high ? 1 : 0;
        const auto in_bar = notes[i].at % bar_length;
        const auto bar = static_cast<std::size_t>(notes[i].at / bar_length) % bars.size();
        if (in_bar == time::Ticks(0) && !shape.empty()) {
            ++figures.bars[shape];
            shape.clear();
        }
        shape.push_back(shape.empty() ? 0 : note - line[line.size() - shape.size() - 1]);
        for (const auto& slot : bars[bar].chords) {
            if (slot.start != in_bar || !slot.chord) continue;
            const bool starts = last == nullptr || *last != slot.chord;
            last = &slot.chord;
            if (!starts || i + 1 == notes.size()) continue;
            ++figures.starts;
            const auto bass = slot.chord->bass.value_or(slot.chord->root).pitch_class();
            figures.roots += notes[i].note.pitch_class() == bass ? 1 : 0;
        }
    }
    count_motion(line, figures);
}

void count_chart(const chart::Form& form, int seeds, Figures& figures) {
    for (int key = 0; key < keys; ++key) {
        const auto bars = walking_bars(form, key);
        for (int seed = 1; seed <= seeds; ++seed) {
            band::BassWriter writer(static_cast<std::uint64_t>(seed));
            std::vector<band::BassNote> line;
            for (int time = 0; time < times; ++time) {
                const bool last = time + 1 == times;
                for (auto note :
                     writer.next(bars, last ? std::vector<band::BassBar>{} : bars, std::nullopt)) {
                    note.at += form.length() * time;
                    line.push_back(note);
                }
            }
            count_line(line, bars, form.chart.meter.bar(), figures);
        }
    }
}

double percent(int part, int whole) { return 100.0 * part / std::max(whole, 1); }

void print_row(std::string_view name, const Figures& it) {
    fmt::print(
        "| {:<32} | {:>5.1f} % | {:>5.2f} | {:>5.1f} % | {:>5.1f} % | {:>5.2f} % | {:>5.2f} % | "
        "{:>5.1f} % | {:>5.1f} % | {:>5.1f} % | {:>5.1f} | {:>6} | {:>5.2f} % |\n",
        name, percent(it.roots, it.starts), static_cast<double>(it.semitones) / it.moves,
        percent(it.steps, it.moves), percent(it.small, it.moves), percent(it.repeats, it.moves),
        percent(it.octaves, it.moves), percent(it.turns, it.moves), percent(it.zigzags, it.moves),
        percent(it.settled, it.notes), static_cast<double>(it.range) / it.lines, it.bars.size(),
        percent(it.most_common_bar(), it.all_bars()));
}

}  // namespace

void print_bass(int seeds) {
    fmt::print(
        "walking bass: {} choruses each, 12 keys, seeds 1 to {}; range in semitones; shapes: "
        "bars that differ in their intervals, and how often the commonest comes\n\n",
        times, seeds);
    fmt::print(
        "| {:<32} |   roots |  leap |   steps | to third |  again | octaves |   turns | "
        "zigzags | F1 to C3 | range | shapes | commonest |\n|{:-<34}|",
        "chart", "");
    for (int column = 0; column < 12; ++column) fmt::print("--------:|");
    fmt::print("\n");
    for (const auto& form : demo_forms()) {
        Figures figures;
        count_chart(form, seeds, figures);
        print_row(form.chart.title, figures);
    }
    Figures all;
    for (const auto& form : demo_forms()) count_chart(form, seeds, all);
    print_row("all", all);
}

std::vector<Row> bass_lines(Pace pace) {
    const auto form = aaba();
    const auto bars = walking_bars(form, 0);
    band::BassWriter writer(1);
    const auto took = measure(pace, [&] { keep(writer.next(bars, bars, std::nullopt)); });
    return {{"walking bass, 32 bars", took,
             fmt::format("{:.0f} bars a second",
                         static_cast<double>(bars.size()) / took.fastest().count())}};
}

}  // namespace compline::bench
