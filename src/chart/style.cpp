#include <compline/chart/style.hpp>

#include <algorithm>
#include <array>
#include <cstddef>

namespace compline::chart {

namespace {

// In the order of their values.
constexpr std::array<std::string_view, 4> feels{"swing", "straight", "bossa", "ballad"};
constexpr std::array<std::string_view, 5> drum_styles{"ride", "brushes", "hats", "quarters", "off"};
constexpr std::array<std::string_view, 4> bass_styles{"walking", "two-feel", "roots", "off"};

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool same(std::string_view a, std::string_view b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](char x, char y) { return lower(x) == lower(y); });
}

template <typename Value, std::size_t count>
std::optional<Value> find(const std::array<std::string_view, count>& names, std::string_view name) {
    for (std::size_t i = 0; i < count; ++i) {
        if (same(names[i], name)) return static_cast<Value>(i);
    }
    return std::nullopt;
}

}  // namespace

std::string_view name_of(Feel feel) { return feels[static_cast<std::size_t>(feel)]; }
std::string_view name_of(Drums drums) { return drum_styles[static_cast<std::size_t>(drums)]; }
std::string_view name_of(Bass bass) { return bass_styles[static_cast<std::size_t>(bass)]; }

std::optional<Feel> find_feel(std::string_view name) { return find<Feel>(feels, name); }
std::optional<Drums> find_drums(std::string_view name) { return find<Drums>(drum_styles, name); }
std::optional<Bass> find_bass(std::string_view name) { return find<Bass>(bass_styles, name); }

}  // namespace compline::chart
