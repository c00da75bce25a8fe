#include "note_reader.hpp"
#include "together.hpp"

#include <compline/listen/listener.hpp>

#include <algorithm>
#include <array>
#include <tuple>
#include <utility>
#include <vector>

namespace compline::listen {

namespace {

constexpr int midi_channels = 16;
/// Notes that must be there on their strings: a flicker may lie beyond the last fret.
constexpr double enough = 0.9;

struct Struck {
    time::Seconds at;
    int channel;
    harmony::MidiNote note;
};

std::vector<Struck> struck_in(std::span<const midi::TimedMessage> messages) {
    std::vector<Struck> struck;
    for (const auto& [at, message] : messages) {
        if (!message.starts_note()) continue;
        struck.push_back({at, message.channel(), harmony::MidiNote(message.data1)});
    }
    return struck;
}

/// How well notes fit strings: how many lie on them, and how far a hand must stretch for what is
/// struck together.
struct StringFit {
    int there = 0;
    int stretch = 0;
};

StringFit fit(const std::vector<Struck>& struck, const Strings& strings,
              const guitar::Fretboard& fretboard) {
    StringFit fit;
    int low = 0;
    int high = 0;
    time::Seconds first{-1e9};
    for (const auto& one : struck) {
        const int string = string_of(strings, one.channel, fretboard.strings());
        const auto fret = string > 0 ? fretboard.fret(string, one.note) : std::nullopt;
        if (!fret) continue;
        ++fit.there;
        if (one.at - first > together) {
            first = one.at;
            low = high = *fret;
        } else if (*fret > 0) {
            const int before = high - low;
            low = low == 0 ? *fret : std::min(low, *fret);
            high = std::max(high, *fret);
            fit.stretch += high - low - before;
        }
    }
    return fit;
}

}  // namespace

std::optional<Strings> find_strings(std::span<const midi::TimedMessage> messages,
                                    const guitar::Fretboard& fretboard) {
    const int string_count = fretboard.strings();
    const int last_first_channel = midi_channels - string_count + 1;
    const auto struck = struck_in(messages);
    std::array<bool, midi_channels + 1> used{};
    for (const auto& one : struck) used[static_cast<std::size_t>(one.channel)] = true;
    const auto first = std::find(used.begin(), used.end(), true);
    const auto last = std::find(used.rbegin(), used.rend(), true).base();
    if (last - first < 2 || last - first > string_count) return std::nullopt;
    const auto lowest = static_cast<int>(first - used.begin());
    const auto highest = static_cast<int>(last - used.begin()) - 1;

    std::optional<Strings> best;
    std::tuple<int, bool, int> least;
    for (int base = 1; base <= last_first_channel; ++base) {
        if (base > lowest || base + string_count <= highest) continue;
        for (const bool low_string_first : {false, true}) {
            const Strings strings{base, low_string_first};
            const auto found = fit(struck, strings, fretboard);
            if (found.there < enough * static_cast<double>(struck.size())) continue;
            // Units count from 1 or end at 16, as a rule.
            const bool usual = base == 1 || base == last_first_channel;
            const std::tuple rank{-found.there, !usual, found.stretch};
            if (best && rank >= least) continue;
            best = strings;
            least = rank;
        }
    }
    return best;
}

}  // namespace compline::listen
