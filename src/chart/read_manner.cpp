#include "manner_names.hpp"

#include <compline/chart/read_manner.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/phrase.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>
#include <vector>

namespace compline::chart {

namespace {

constexpr std::string_view plain = "plain";

/// `what`: "a feel".
template <std::size_t count>
[[noreturn]] void refuse(std::string_view text, std::string_view what,
                         const std::array<std::string_view, count>& names,
                         const std::vector<std::string>& more = {}) {
    std::vector<std::string> known(names.begin(), names.end());
    known.insert(known.end(), more.begin(), more.end());
    throw text::BadInput(
        "",
        fmt::format("{} is not {}{}", text::quoted(text), what, text::did_you_mean(text, known)),
        "write " + text::listed(known, "or"));
}

/// "62%", the part of the beat that the long note takes.
std::optional<double> read_share(std::string_view text) {
    const auto percent = text::read_decimal(text.substr(0, text.size() - 1));
    if (!percent) return std::nullopt;
    return *percent < 100 ? *percent / (100 - *percent) : *percent;
}

std::optional<double> read_ratio(std::string_view text) {
    if (!text.empty() && text.back() == '%') return read_share(text);
    const std::size_t colon = text.find(':');
    if (colon == std::string_view::npos) return text::read_decimal(text);
    const auto long_part = text::read_decimal(text.substr(0, colon));
    const auto short_part = text::read_decimal(text.substr(colon + 1));
    if (!long_part || !short_part || *short_part <= 0) return std::nullopt;
    return *long_part / *short_part;
}

}  // namespace

Feel read_feel_name(std::string_view text) {
    if (const auto feel = find_feel(text)) return *feel;
    refuse(text, "a feel", feel_names);
}

Drums read_drums_name(std::string_view text) {
    if (const auto drums = find_drums(text)) return *drums;
    refuse(text, "a way to play the drums", drums_names);
}

BassWish read_bass_wish(std::string_view text) {
    BassWish wish;
    const text::Phrase phrase(text, text::Phrase::Parted::by_either);
    for (const auto& word : phrase.words()) {
        const auto bass = find_bass(word.text);
        const bool asks_plain = !wish.plain && text::same_but_for_capitals(word.text, plain);
        if (!asks_plain && (!bass || wish.bass)) {
            refuse(text, "a way to play the bass", bass_names, {std::string(plain)});
        }
        wish.plain = wish.plain || asks_plain;
        if (!asks_plain) wish.bass = bass;
    }
    if (wish.plain && (wish.bass == Bass::roots || wish.bass == Bass::off)) {
        throw text::BadInput(
            "", text::quoted(text),
            "plain goes with walking or two-feel; roots and off are plain already");
    }
    if (wish.bass || wish.plain) return wish;
    refuse(text, "a way to play the bass", bass_names, {std::string(plain)});
}

Phrasing read_phrasing_name(std::string_view text) {
    if (const auto phrasing = find_phrasing(text)) return *phrasing;
    refuse(text, "a phrasing", phrasing_names);
}

std::optional<double> read_swing_ratio(std::string_view text) {
    if (text == "auto") return std::nullopt;
    const auto ratio = read_ratio(text);
    if (!ratio) {
        throw text::BadInput(
            fmt::format("{} is not a swing: write auto (by tempo), a ratio such as 2:1, the long "
                        "note's share of the beat such as 62%, or a number such as 1.8",
                        text::quoted(text)));
    }
    if (*ratio < 1 || *ratio > 3) {
        throw text::BadInput(
            fmt::format("{} is not a swing the band can play: the long part is 1 to 3 times the "
                        "short one (1 is straight, 3 a dotted eighth), 50% to 75% of the beat",
                        text::quoted(text)));
    }
    return ratio;
}

}  // namespace compline::chart
