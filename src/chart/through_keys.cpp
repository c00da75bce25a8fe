#include <compline/chart/pins.hpp>
#include <compline/chart/through_keys.hpp>
#include <compline/chart/transpose.hpp>
#include <compline/text/phrase.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <numeric>
#include <string>
#include <utility>
#include <vector>

namespace compline::chart {

namespace {

constexpr int octave = 12;
constexpr std::size_t longest_letter = 12;  ///< of a section's name, before its key

struct NamedStep {
    std::string_view name;
    int semitones;
};
constexpr std::array<NamedStep, 13> steps{{{"semitone", 1},
                                           {"half step", 1},
                                           {"whole tone", 2},
                                           {"whole step", 2},
                                           {"minor third", 3},
                                           {"major third", 4},
                                           {"fourth", 5},
                                           {"tritone", 6},
                                           {"fifth", 7},
                                           {"minor sixth", 8},
                                           {"major sixth", 9},
                                           {"minor seventh", 10},
                                           {"major seventh", 11}}};

/// "B flat minor", in letters and blanks, as names of sections and parts are written.
std::string spoken(const Key& key) {
    auto words = key.name(harmony::Accidentals::letters);
    std::string name(1, words.front());
    if (words.size() > 1 && words[1] == 'b') name += " flat";
    if (words.size() > 1 && words[1] == '#') name += " sharp";
    return name + (key.minor ? " minor" : "");
}

WrittenBar written(const Form& form, const FormBar& bar) {
    WrittenBar written;
    for (const auto& span : form.spans_in(bar.number)) {
        written.slots.push_back({span.start - bar.start, span.length, span.chord, span.optional});
    }
    if (!written.slots.empty()) written.slots.back().length -= bar.hold;
    written.kicks = bar.kicks;
    written.hold = bar.hold;
    return written;
}

/// The bars of a passage as sections: one for each playing of a section that it goes through.
std::vector<Section> sections_of(const Form& form, Passage passage) {
    std::vector<Section> sections;
    for (int number = passage.from; number <= passage.to; ++number) {
        const auto& bar = form.bar(number);
        const auto* const before = number > passage.from ? &form.bar(number - 1) : nullptr;
        if (before == nullptr || before->section != bar.section ||
            before->occurrence != bar.occurrence) {
            auto section = form.section_of(bar);
            section.name = section.name.substr(0, longest_letter);
            section.name.erase(section.name.find_last_not_of(' ') + 1);
            if (bar.occurrence > 1) section.name += fmt::format(" {}", bar.occurrence);
            section.bars.clear();
            section.endings.clear();
            sections.push_back(std::move(section));
        }
        sections.back().bars.push_back(written(form, bar));
    }
    return sections;
}

}  // namespace

int read_key_step(std::string_view text) {
    const text::Phrase phrase(text);
    const auto& words = phrase.words();
    const bool up = !words.empty() && text::same_but_for_capitals(words.front().text, "up");
    const bool down = !words.empty() && text::same_but_for_capitals(words.front().text, "down");
    std::string name;
    for (std::size_t i = 1; i < words.size(); ++i) {
        const auto& word = words[i].text;
        if (i == 1 && text::same_but_for_capitals(word, "a")) continue;
        name.append(name.empty() ? "" : " ").append(word);
    }
    const auto* const step = std::find_if(steps.begin(), steps.end(), [&](const NamedStep& known) {
        return text::same_but_for_capitals(name, known.name);
    });
    if ((up || down) && step != steps.end()) return up ? step->semitones : -step->semitones;
    throw text::BadInput("", fmt::format("{} is no way from key to key", text::quoted(text)),
                         "write up or down and an interval, such as \"up a fourth\" or \"down a "
                         "semitone\"");
}

int keys_around(int step) { return octave / std::gcd(octave, std::abs(step)); }

Chart through_keys(const Form& form, Passage passage, int step, std::optional<int> times) {
    const int keys = keys_around(step);
    if (passage.bars() * keys > most_bars) {
        throw text::BadInput("", fmt::format("{} bars in {} keys", passage.bars(), keys),
                             fmt::format("a chart has {} at most: name fewer bars", most_bars));
    }
    Chart base = form.chart;
    base.sections = sections_of(form, passage);
    base.voicings.clear();
    base.cues.clear();
    base.signs = {};
    base.lead_in.reset();
    base.road_map.clear();
    base.written_in.reset();
    Chart all = base;
    all.sections.clear();
    all.form.clear();
    std::vector<std::string> parts;
    for (int n = 0; n < keys; ++n) {
        const auto key = key_apart(base.key, n * step % octave);
        const auto moved = transposed(base, key, highest_fret).chart;
        for (auto section : moved.sections) {
            section.name += " in " + spoken(key);
            section.key = section.key.value_or(key);
            all.form.push_back({section.name, std::nullopt});
            all.sections.push_back(std::move(section));
        }
        const int from = n * passage.bars() + 1;
        parts.push_back(
            fmt::format("in {}: bars={}-{}", spoken(key), from, from + passage.bars() - 1));
    }
    for (int n = 0; n < times.value_or(keys); ++n) {
        all.road_map += (n == 0 ? "" : "; ") + parts[static_cast<std::size_t>(n % keys)];
    }
    return all;
}

}  // namespace compline::chart
