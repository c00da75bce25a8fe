#include <compline/chart/road_map_text.hpp>

#include <fmt/format.h>

#include <cstddef>
#include <string>

namespace compline::chart {

namespace {

constexpr std::size_t usual_tag = 2;  ///< stretches beyond the chorus's own ending

std::string times_in_words(std::size_t times) {
    return times == 2 ? "twice" : fmt::format("{} times", times);
}

std::string bars_in_words(Passage passage) {
    return passage.bars() == 1 ? fmt::format("bar {}", passage.from)
                               : fmt::format("bars {}-{}", passage.from, passage.to);
}

/// What is in parentheses behind a name.
std::string details(const Stretch& stretch, const AskedManner& manner, bool bars, bool silent) {
    std::string text;
    for (const auto& word :
         {bars ? bars_in_words(stretch.passage) : "", in_words(manner),
          std::string(silent ? "silent" : ""), std::string(stretch.a_tempo ? "a tempo" : "")}) {
        if (!word.empty()) text += (text.empty() ? "" : ", ") + word;
    }
    return text.empty() ? "" : fmt::format(" ({})", text);
}

/// `times` equal stretches in a row, and the stretch before them if any.
std::string part_in_words(const Stretch& stretch, std::size_t times, const Stretch* before,
                          const Form& form, bool until_stopped) {
    const bool intro = stretch.name == "intro";
    const bool tag = stretch.name == "tag" && before != nullptr;
    const bool part_of_form = !(stretch.passage == form.whole());
    std::string text = stretch.name;
    if (stretch.name.empty()) {
        text = part_of_form ? bars_in_words(stretch.passage) : "the form";
    }
    if (intro) text += fmt::format(" {}", stretch.passage.bars());
    if (stretch.until_cue) {
        text += " until cue";
    } else if (until_stopped) {
        text += " until stopped";
    } else if (tag && times != usual_tag) {
        text += fmt::format(" {}", times_in_words(times + 1));
    } else if (!tag && times > 1) {
        text += fmt::format(" {}", times_in_words(times));
    }
    const bool as_before = tag && before->manner == stretch.manner;
    const bool bars = part_of_form && !intro && !tag && !stretch.name.empty();
    text += details(stretch, as_before ? AskedManner{} : stretch.manner, bars,
                    stretch.silent && !(tag && before->silent));
    return stretch.rit == 0 ? text : text + fmt::format(", rit {}", stretch.rit);
}

}  // namespace

std::string road_map_in_words(const Way& way, const Form& form) {
    const auto& all = way.stretches;
    std::string text;
    for (std::size_t from = 0; from < all.size();) {
        std::size_t to = from + 1;
        while (to < all.size() && all[to] == all[from]) ++to;
        text += text.empty() ? "" : ", ";
        text += part_in_words(all[from], to - from, from > 0 ? &all[from - 1] : nullptr, form,
                              way.goes_on && to == all.size());
        from = to;
    }
    return way.held_ending ? text + ", held ending" : text;
}

}  // namespace compline::chart
