#include "road_map_part.hpp"

#include "road_map_words.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/phrase.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/utf8.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace compline::chart {

namespace {

using Kind = RoadMapPart::Kind;

constexpr int most_times = 100;
constexpr std::size_t longest_name = 32;

bool is(const text::Word& word, std::string_view name) {
    return text::same_but_for_capitals(word.text, name);
}

bool is_in_a_name(text::CodePoint c) {
    return c.valid &&
           (text::is_letter(c.value) || (c.value >= '0' && c.value <= '9') || c.value == '-');
}

/// The part of a road map before its colon.
class HeadReader {
  public:
    HeadReader(std::string_view road_map, std::vector<text::Word> words)
        : road_map_(road_map), words_(std::move(words)) {}

    [[nodiscard]] RoadMapPart read() {
        RoadMapPart part;
        part.position = words_.front().offset;
        if (is(words_.front(), "intro") || is(words_.front(), "tag")) {
            read_numbered(part);
        } else if (words_.size() == 2 && is(words_[0], "held") && is(words_[1], "ending")) {
            part.kind = Kind::held_ending;
            part.name = "held ending";
        } else {
            part.times = read_times();
            part.name = read_name();
        }
        return part;
    }

  private:
    [[noreturn]] void refuse(std::size_t position, const std::string& words) const {
        throw text::bad_character(road_map_, position, words);
    }

    void read_numbered(RoadMapPart& part) {
        const bool intro = is(words_.front(), "intro");
        part.kind = intro ? Kind::intro : Kind::tag;
        part.name = intro ? "intro" : "tag";
        const std::string advice = intro ? "write intro and a number of bars, such as intro 4"
                                         : "write tag and how often the last four bars are played "
                                           "in all, such as tag 3";
        for (std::size_t i = 1; i < words_.size(); ++i) {
            const auto number = i == 1 ? text::read_count(words_[i].text) : std::nullopt;
            if (!number) {
                refuse(words_[i].offset,
                       fmt::format("{} behind {}: {}", text::quoted(words_[i].text), part.name,
                                   advice));
            }
            part.number = number;
        }
    }

    /// Takes "x2" off the words; 1 when there is none.
    int read_times() {
        const text::Word last = words_.back();
        const auto text = last.text;
        const bool by_x = text.size() > 1 && (text[0] == 'x' || text[0] == 'X');
        const auto times = by_x ? text::read_count(text.substr(1)) : std::nullopt;
        if (!times) {
            refuse_other_times();
            return 1;
        }
        if (*times < 1 || *times > most_times) {
            refuse(last.offset,
                   fmt::format("{} times through: write x1 to x{}", *times, most_times));
        }
        words_.pop_back();
        if (words_.empty()) {
            refuse(last.offset, fmt::format("{} without a name before it: write one such as "
                                            "solo {}",
                                            text::quoted(text), text));
        }
        return *times;
    }

    /// Times in other writings, which would pass for names: "2x", "×2", "x 2".
    void refuse_other_times() const {
        const auto text = words_.back().text;
        const bool ends_in_x = text.back() == 'x' || text.back() == 'X';
        const bool before = ends_in_x && text::read_count(text.substr(0, text.size() - 1));
        const bool sign = text.find("×") != std::string_view::npos;
        const bool apart = words_.size() > 1 && is(words_[words_.size() - 2], "x");
        if (!before && !sign && !apart) return;
        refuse(words_[words_.size() - (apart ? 2 : 1)].offset,
               "how many times through is written with an x before it and no blank, such as solo "
               "x2");
    }

    [[nodiscard]] std::string read_name() const {
        std::string name;
        for (const auto& word : words_) {
            check_characters(word);
            name.append(name.empty() ? "" : " ").append(word.text);
        }
        if (words_.size() > 1) refuse_manner(words_.back());
        const auto near = text::nearest(name, {"held ending"});
        if (near) {
            refuse(words_.front().offset,
                   fmt::format("{} cannot name a part: did you mean held ending?",
                               text::quoted(name)));
        }
        if (text::count_code_points(name) > longest_name) {
            refuse(words_.front().offset, fmt::format("{} is too long for a name: at most {} "
                                                      "characters are read",
                                                      text::quoted(name), longest_name));
        }
        return name;
    }

    void check_characters(const text::Word& word) const {
        if (word.text.find('=') != std::string_view::npos) refuse_without_colon(word, word.text);
        for (std::size_t at = 0; at < word.text.size();) {
            const text::CodePoint c = text::code_point_at(word.text, at);
            if (!is_in_a_name(c)) {
                refuse(word.offset + at,
                       fmt::format("{} in the name of a part: a name is words of letters, digits "
                                   "and hyphens such as head or solo, parts have ; between them",
                                   text::quoted(word.text.substr(at, c.bytes))));
            }
            at += c.bytes;
        }
    }

    /// A word for the manner without the colon before it, which would pass for a name.
    void refuse_manner(const text::Word& word) const {
        if (is(word, "silent")) refuse_without_colon(word, "silent");
        const auto written = as_written_in_a_road_map(word.text);
        if (!written.empty()) refuse_without_colon(word, written);
    }

    [[noreturn]] void refuse_without_colon(const text::Word& word, std::string_view advice) const {
        refuse(word.offset, fmt::format("{} in the name of a part: how it is played stands "
                                        "behind a colon, such as head: {}",
                                        text::quoted(word.text), text::printable(advice)));
    }

    std::string_view road_map_;
    std::vector<text::Word> words_;
};

}  // namespace

RoadMapPart read_road_map_part(const Form& form, std::string_view road_map, std::size_t from,
                               std::size_t to) {
    const std::size_t colon = std::min(road_map.find(':', from), to);
    auto words = text::Phrase(road_map, text::Phrase::Parted::by_blanks, from, colon).words();
    if (words.empty()) {
        throw text::bad_character(
            road_map, std::min(from, road_map.size()),
            colon < to ? "a part without a name: write one before the colon, such as "
                         "head: two-feel"
                       : "a part with nothing in it: write one such as solo x2, or "
                         "delete the ;");
    }
    RoadMapPart part = HeadReader(road_map, std::move(words)).read();
    if (colon == to) return part;
    if (part.kind == Kind::held_ending) {
        throw text::bad_character(road_map, colon, "a colon behind held ending: it stands alone");
    }
    read_manner_of_part(form, road_map, colon + 1, to, part);
    return part;
}

}  // namespace compline::chart
