#include "refusals.hpp"

#include "candidates.hpp"
#include "guide_line.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <optional>
#include <set>
#include <utility>

namespace compline::guitar {

namespace {

using harmony::Palette;

/// "5432", from the lowest string up, as players write a string set.
std::string set_name(std::vector<int> strings) {
    std::sort(strings.rbegin(), strings.rend());
    std::string name;
    for (const int string : strings) name += fmt::format("{}", string);
    return name;
}

/// Strings asked for that are not in a set, and strings in it that were not asked for.
int apart(const std::vector<int>& asked, const std::vector<int>& other) {
    const auto absent = [](const std::vector<int>& from, const std::vector<int>& in) {
        return static_cast<int>(std::count_if(from.begin(), from.end(), [&](int string) {
            return std::find(in.begin(), in.end(), string) == in.end();
        }));
    };
    return absent(asked, other) + absent(other, asked);
}

/// All sets of two strings and more: the fewest changes first, then the larger, then the inner.
std::vector<std::vector<int>> sets_near(const std::vector<int>& asked, int strings) {
    std::vector<std::pair<std::array<int, 3>, std::vector<int>>> sets;
    for (unsigned bits = 0; bits < 1U << static_cast<unsigned>(strings); ++bits) {
        std::vector<int> set;
        int outwards = 0;
        for (int string = 1; string <= strings; ++string) {
            if ((bits >> static_cast<unsigned>(string - 1) & 1U) == 0) continue;
            set.push_back(string);
            outwards += std::abs(2 * string - strings - 1);
        }
        if (set.size() < 2) continue;
        sets.push_back({{apart(asked, set), -static_cast<int>(set.size()), outwards}, set});
    }
    std::sort(sets.begin(), sets.end());
    std::vector<std::vector<int>> sorted;
    sorted.reserve(sets.size());
    for (auto& [key, set] : sets) sorted.push_back(std::move(set));
    return sorted;
}

bool has_grip(const ToVoice& item, const Fretboard& fretboard, const VoicingWishes& wishes) {
    const Palette palette(item.change.to, item.change.around, wishes.strictness);
    return GripFinder(fretboard, wishes).find(palette, item.place).size() > 0;
}

/// The nearest string set on which every chord has a grip.
std::optional<std::vector<int>> nearest_set(const ToVoice& item, const std::vector<ToVoice>& all,
                                            const Fretboard& fretboard, VoicingWishes wishes) {
    constexpr std::size_t most_tried = 40;
    auto sets = sets_near(wishes.strings, fretboard.strings());
    sets.resize(std::min(sets.size(), most_tried));
    for (const auto& set : sets) {
        wishes.strings = set;
        if (!has_grip(item, fretboard, wishes)) continue;
        GripFinder finder(fretboard, wishes);
        std::set<std::string> asked;
        const bool holds_all = std::all_of(all.begin(), all.end(), [&](const ToVoice& other) {
            if (other.pinned || !asked.insert(other.change.to.symbol()).second) return true;
            return finder.find(other.palette, other.place).size() > 0;
        });
        if (holds_all) return set;
    }
    return std::nullopt;
}

struct Wish {
    const char* words;
    void (*loosen)(VoicingWishes&);
};
constexpr std::array<Wish, 6> looser = {{
    {"in another style (style)", [](VoicingWishes& w) { w.style = VoicingStyle::mixed; }},
    {"with fingers in place of a pick (right hand)",
     [](VoicingWishes& w) { w.right_hand = RightHand::fingers; }},
    {"with open strings", [](VoicingWishes& w) { w.open_strings = true; }},
    {"on other strings in another style (strings, style)",
     [](VoicingWishes& w) {
         w.strings.clear();
         w.style = VoicingStyle::mixed;
     }},
    {"as a working comper would play it (strictness)",
     [](VoicingWishes& w) { w.strictness = harmony::Strictness::working; }},
    {"when several of your wishes go (strings, style, right hand, strictness, open "
     "strings)",
     [](VoicingWishes& w) {
         w = VoicingWishes();
         w.right_hand = RightHand::fingers;
         w.open_strings = true;
     }},
}};

bool has_guide_line(const std::vector<ToVoice>& all, const Fretboard& fretboard,
                    std::pair<int, int> strings) {
    std::vector<harmony::Chord> chords;
    for (const auto& item : all) {
        if (!item.pinned) chords.push_back(item.change.to);
    }
    const auto line = guide_line(chords, fretboard, strings, std::nullopt);
    return std::none_of(line.begin(), line.end(),
                        [](const Shape& shape) { return shape.places().empty(); });
}

/// "; on 3 and 2 all chords here have theirs (strings)"
std::string guide_strings_that_do(const std::vector<ToVoice>& all, const Fretboard& fretboard,
                                  std::pair<int, int> asked) {
    std::vector<int> highs;
    for (int high = 1; high < fretboard.strings(); ++high) highs.push_back(high);
    std::stable_sort(highs.begin(), highs.end(), [&](int a, int b) {
        return std::abs(a - asked.second) < std::abs(b - asked.second);
    });
    for (const int high : highs) {
        if (!has_guide_line(all, fretboard, {high + 1, high})) continue;
        return fmt::format("; on {} and {} all chords here have theirs (strings)", high + 1, high);
    }
    return ", nor on any other two side by side for all chords here";
}

}  // namespace

std::string place_name(const roadmap::DueChange& change) {
    return change.beat == time::BeatOfBar(1)
               ? fmt::format("bar {}", change.bar)
               : fmt::format("bar {} beat {:g}", change.bar, change.beat.number());
}

std::string wrong_with(const Fretboard& fretboard, const Shape& shape, const Palette& palette) {
    harmony::PitchClasses sounding;
    for (const auto& place : shape.places()) {
        sounding.set(static_cast<std::size_t>(fretboard.note(place).pitch_class()));
    }
    const auto foreign = palette.foreign(sounding);
    for (int tone = 0; tone < 12; ++tone) {
        if (!foreign[static_cast<std::size_t>(tone)]) continue;
        return fmt::format("in which {} does not belong", palette.name(tone).name());
    }
    const auto missing = palette.missing(sounding);
    if (missing.empty()) return "which does not tell it from other chords";
    return fmt::format("which lacks the {}", missing.front().name(harmony::Accidentals::symbols));
}

std::string nothing_for(const ToVoice& item, const std::vector<ToVoice>& all,
                        const Fretboard& fretboard, const VoicingWishes& wishes) {
    const auto where = fmt::format("{}, {}", place_name(item.change), item.change.to.symbol());
    if (!wishes.strings.empty()) {
        if (const auto set = nearest_set(item, all, fretboard, wishes)) {
            return fmt::format(
                "{}: strings {} cannot hold what the chord needs; the nearest strings that can, "
                "with all chords here, are {} (strings)",
                where, set_name(wishes.strings), set_name(*set));
        }
    }
    const auto what = fmt::format("{}: no hand can play what the chord needs", where);
    for (const auto& [words, loosen] : looser) {
        VoicingWishes others = wishes;
        loosen(others);
        if (has_grip(item, fretboard, others)) {
            return fmt::format("{} as you ask for it; there are grips {}", what, words);
        }
    }
    return fmt::format("{} in this tuning, whatever you ask for", what);
}

std::string no_guide_tones_for(const ToVoice& item, const std::vector<ToVoice>& all,
                               const Fretboard& fretboard, std::pair<int, int> strings) {
    return fmt::format("{}, {}: no hand reaches the guide tones on strings {} and {}{}",
                       place_name(item.change), item.change.to.symbol(), strings.first,
                       strings.second, guide_strings_that_do(all, fretboard, strings));
}

}  // namespace compline::guitar
