#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

namespace compline::text {

namespace {

constexpr std::size_t longest_list = 13;

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

/// Levenshtein's distance, one row of its table at a time.
std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 0; i < a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i + 1;
        for (std::size_t j = 0; j < b.size(); ++j) {
            const std::size_t replaced = diagonal + (lower(a[i]) == lower(b[j]) ? 0 : 1);
            diagonal = row[j + 1];
            row[j + 1] = std::min({replaced, row[j] + 1, diagonal + 1});
        }
    }
    return row.back();
}

}  // namespace

std::string listed(const std::vector<std::string>& words, std::string_view joint) {
    const std::size_t shown = std::min(words.size(), longest_list);
    const bool cut = shown < words.size();
    std::string out;
    for (std::size_t i = 0; i < shown; ++i) {
        const bool last = i + 1 == shown && !cut;
        if (i > 0) out += last ? fmt::format(" {} ", joint) : ", ";
        out += printable(words[i]);
    }
    return cut ? out + fmt::format(" {} {} more", joint, words.size() - shown) : out;
}

std::optional<std::string> nearest(std::string_view word, const std::vector<std::string>& known) {
    if (word.size() > 40) return std::nullopt;
    const std::size_t allowed = word.size() <= 4 ? 1 : 2;
    std::optional<std::string> best;
    std::size_t best_distance = allowed + 1;
    for (const auto& candidate : known) {
        const std::size_t distance = edit_distance(word, candidate);
        if (distance >= best_distance) continue;
        best_distance = distance;
        best = candidate;
    }
    return best;
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& known) {
    const auto near = nearest(word, known);
    return near ? fmt::format(" (did you mean {}?)", *near) : "";
}

bool has_but_for_capitals(std::string_view text, std::string_view part) {
    return std::search(text.begin(), text.end(), part.begin(), part.end(),
                       [](char x, char y) { return lower(x) == lower(y); }) != text.end() ||
           part.empty();
}

bool same_but_for_capitals(std::string_view a, std::string_view b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](char x, char y) { return lower(x) == lower(y); });
}

}  // namespace compline::text
