#include "endings_reader.hpp"

#include "lines_of_bars.hpp"

#include <compline/text/bad_input.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/phrase.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace compline::chart {

namespace {

using Kind = yaml::TreeNode::Kind;

constexpr std::string_view how_to_write =
    "write the times that take it, such as 1, 2 or 1-3, and behind the colon its bars";

std::optional<int> ending_number(std::string_view text) {
    const auto number = text::read_count(text);
    return number && *number >= 1 && *number <= most_endings ? number : std::nullopt;
}

/// "3" or "1-3".
bool add_numbers(std::string_view text, std::vector<int>& numbers) {
    const auto hyphen = std::min(text.find('-'), text.size());
    const auto from = ending_number(text.substr(0, hyphen));
    const auto to = hyphen < text.size() ? ending_number(text.substr(hyphen + 1)) : from;
    if (!from || !to || *from > *to) return false;
    for (int n = *from; n <= *to; ++n) numbers.push_back(n);
    return true;
}

}  // namespace

std::vector<int> EndingsReader::read_numbers(const yaml::TreeNode& key) {
    std::vector<int> numbers;
    if (key.kind == Kind::refused) return numbers;
    const text::Phrase phrase(key.text, text::Phrase::Parted::by_blanks);
    bool good = key.kind == Kind::text && !phrase.words().empty();
    for (const auto& word : phrase.words()) good = good && add_numbers(word.text, numbers);
    if (!good) {
        reading_.problems.add(key.offset, fmt::format("{} does not number an ending: {}",
                                                      text::quoted(key.text), how_to_write));
        return {};
    }
    for (const int n : numbers) {
        if (std::find(taken_.begin(), taken_.end(), n) != taken_.end()) {
            reading_.problems.add(key.offset, fmt::format("there are two endings {}: keep one", n));
        }
        taken_.push_back(n);
    }
    return numbers;
}

void EndingsReader::check_numbers(std::size_t place) const {
    const int most = taken_.empty() ? 0 : *std::max_element(taken_.begin(), taken_.end());
    for (int n = 1; n < most; ++n) {
        if (std::find(taken_.begin(), taken_.end(), n) != taken_.end()) continue;
        reading_.problems.add(place, fmt::format("there is an ending {} and no ending {}: number "
                                                 "them from 1 without a gap",
                                                 most, n));
        return;
    }
}

std::vector<Ending> EndingsReader::read(const yaml::TreeNode& map) {
    if (map.kind == Kind::refused) return {};
    if (map.kind != Kind::map || map.entries.empty()) {
        reading_.problems.add(map.offset, fmt::format("{} where endings were expected: write "
                                                      "{{1: Gm7 C7 | F6 C7, 2: Gm7 C7 | F6}}",
                                                      yaml::kind_name(map)));
        return {};
    }
    std::vector<Ending> endings;
    const auto before = reading_.problems.count();
    for (const auto& [key, value] : map.entries) {
        Ending ending{read_numbers(key), {}};
        const auto problems = reading_.problems.count();
        ending.bars = bars_.read_ending(lines_of_bars(value, key.offset, reading_), body_);
        const bool excused = !reading_.complete || value.kind == Kind::refused ||
                             problems != reading_.problems.count();
        if (ending.bars.empty() && !excused) {
            reading_.problems.add(key.offset, fmt::format("ending {} has no bars: {}",
                                                          text::printable(key.text), how_to_write));
        }
        // One without a number has been complained about.
        if (!ending.numbers.empty()) endings.push_back(std::move(ending));
    }
    if (reading_.problems.count() == before && reading_.complete) check_numbers(map.offset);
    for (auto& ending : endings) std::sort(ending.numbers.begin(), ending.numbers.end());
    std::sort(endings.begin(), endings.end(),
              [](const Ending& a, const Ending& b) { return a.numbers < b.numbers; });
    return endings;
}

}  // namespace compline::chart
