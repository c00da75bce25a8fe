#include "manner_names.hpp"

#include <compline/chart/manner.hpp>
#include <compline/text/words.hpp>

#include <algorithm>
#include <array>
#include <cstddef>
#include <vector>

namespace compline::chart {

namespace {

template <typename Value, std::size_t count>
std::optional<Value> find(const std::array<std::string_view, count>& names, std::string_view name) {
    for (std::size_t i = 0; i < count; ++i) {
        if (text::same_but_for_capitals(names[i], name)) return static_cast<Value>(i);
    }
    return std::nullopt;
}

}  // namespace

std::string_view name_of(Feel feel) { return feel_names[static_cast<std::size_t>(feel)]; }
std::string_view name_of(Drums drums) { return drums_names[static_cast<std::size_t>(drums)]; }
std::string_view name_of(Bass bass) { return bass_names[static_cast<std::size_t>(bass)]; }
std::string_view name_of(Phrasing phrasing) {
    return phrasing_names[static_cast<std::size_t>(phrasing)];
}

std::optional<Feel> find_feel(std::string_view name) { return find<Feel>(feel_names, name); }
std::optional<Drums> find_drums(std::string_view name) { return find<Drums>(drums_names, name); }
std::optional<Bass> find_bass(std::string_view name) { return find<Bass>(bass_names, name); }
std::optional<Phrasing> find_phrasing(std::string_view name) {
    return find<Phrasing>(phrasing_names, name);
}

std::string in_words(const AskedManner& manner) {
    std::vector<std::string_view> words;
    if (manner.feel) words.push_back(name_of(*manner.feel));
    if (manner.bass) words.push_back(manner.bass == Bass::off ? "no bass" : name_of(*manner.bass));
    if (manner.plain_bass) words.emplace_back("plain bass");
    if (manner.drums)
        words.push_back(manner.drums == Drums::off ? "no drums" : name_of(*manner.drums));
    if (manner.phrasing) words.push_back(name_of(*manner.phrasing));
    std::string text;
    for (const auto word : words) text.append(text.empty() ? "" : ", ").append(word);
    return text;
}

}  // namespace compline::chart
