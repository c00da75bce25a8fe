#include "road_map_head.hpp"

#include "road_map_words.hpp"

#include <compline/text/numbers.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/utf8.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <string>
#include <utility>

namespace compline::chart {

namespace {

using PartKind = RoadMapPart::Kind;
using From = RoadMapPart::From;
using Al = RoadMapPart::Al;

constexpr int most_times_of_part = 100;
constexpr int without_a_cue = 4;  ///< times of a vamp for which nobody gives one
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
        if (const auto kind = numbered_kind()) {
            read_numbered(part, *kind);
        } else if (words_.size() == 2 && is(words_[0], "held") && is(words_[1], "ending")) {
            part.kind = PartKind::held_ending;
            part.name = "held ending";
        } else {
            read_chorus(part);
        }
        return part;
    }

  private:
    [[noreturn]] void refuse(std::size_t position, const std::string& words) const {
        throw text::bad_character(road_map_, position, words);
    }

    [[nodiscard]] std::optional<PartKind> numbered_kind() const {
        if (is(words_.front(), "intro")) return PartKind::intro;
        if (is(words_.front(), "tag")) return PartKind::tag;
        if (is(words_.front(), "rit") || is(words_.front(), "rit.")) return PartKind::rit;
        return std::nullopt;
    }

    void read_numbered(RoadMapPart& part, PartKind kind) {
        part.kind = kind;
        part.name = kind == PartKind::intro ? "intro" : kind == PartKind::tag ? "tag" : "rit";
        const std::string advice =
            kind == PartKind::intro ? "write intro and a number of bars, such as intro 4"
            : kind == PartKind::tag
                ? "write tag and how often the last four bars are played in all, "
                  "such as tag 3"
                : "write rit and over how many last bars, such as rit 4";
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

    void read_chorus(RoadMapPart& part) {
        part.al = read_al();
        const auto times = words_.empty() ? std::nullopt : read_times();
        part.until_cue = take("until", "cue");
        if (part.al == Al::end) part.al = read_al();
        if (part.until_cue && part.al != Al::end) {
            refuse(part.position,
                   "until cue and al coda in one part: write the vamp first, and what follows the "
                   "cue as a part of its own");
        }
        part.times = times.value_or(part.until_cue ? without_a_cue : 1);
        if (times && part.al != Al::end) {
            refuse(part.position,
                   "al coda and al fine are for the last time: write the times "
                   "before it as a part of their own, such as head; head al coda");
        }
        part.from = read_from();
        if (words_.empty()) {
            refuse(part.position,
                   "how it goes without what is played: write a name before it, "
                   "such as head al coda or vamp until cue");
        }
        refuse_words_of_the_trade(road_map_, words_);
        part.name = read_name();
    }

    /// Takes two last words off, where they are these.
    bool take(std::string_view first, std::string_view second) {
        const auto count = words_.size();
        if (count < 2 || !is(words_[count - 2], first) || !is(words_[count - 1], second)) {
            return false;
        }
        words_.resize(count - 2);
        return true;
    }

    Al read_al() {
        if (take("al", "coda")) return Al::coda;
        return take("al", "fine") ? Al::fine : Al::end;
    }

    /// D.S. and D.C., which stay the part's name.
    From read_from() {
        const bool segno = is_sign("D.S.", "DS", "dal", "segno");
        const bool capo = is_sign("D.C.", "DC", "da", "capo");
        if (!segno && !capo) return From::top;
        words_.resize(1);
        words_[0].text = segno ? "D.S." : "D.C.";
        signed_ = true;
        return segno ? From::segno : From::top;
    }

    [[nodiscard]] bool is_sign(std::string_view dotted, std::string_view plain,
                               std::string_view first, std::string_view second) const {
        if (words_.size() == 1) return is(words_[0], dotted) || is(words_[0], plain);
        return words_.size() == 2 && is(words_[0], first) && is(words_[1], second);
    }

    /// Takes "x2" off the words; none when there is none.
    std::optional<int> read_times() {
        const text::Word last = words_.back();
        const auto text = last.text;
        const bool by_x = text.size() > 1 && (text[0] == 'x' || text[0] == 'X');
        const auto times = by_x ? text::read_count(text.substr(1)) : std::nullopt;
        if (!times) {
            refuse_other_times();
            return std::nullopt;
        }
        if (*times < 1 || *times > most_times_of_part) {
            refuse(last.offset,
                   fmt::format("{} times through: write x1 to x{}", *times, most_times_of_part));
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
        if (signed_) return std::string(words_.front().text);
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
    bool signed_ = false;  ///< the name is a sign, with its dots
};

}  // namespace

RoadMapPart read_head(std::string_view road_map, std::vector<text::Word> words) {
    return HeadReader(road_map, std::move(words)).read();
}

}  // namespace compline::chart
