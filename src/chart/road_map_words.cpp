#include "road_map_words.hpp"

#include <compline/chart/read_manner.hpp>
#include <compline/chart/road_map_text.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/phrase.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::chart {

namespace {

constexpr std::string_view what_may_stand =
    "write walking, two-feel or roots for the bass, plain for a bass without skip notes, drums=, "
    "bass= or feel= with a name, silent, a tempo, or bars= with bars";

const std::vector<std::string>& keys() {
    static const std::vector<std::string> all = {"drums", "bass", "feel", "bars"};
    return all;
}

/// One word behind a part's colon is read after the other; a passage may hold blanks, so each says
/// where the next begins.
class MannerReader {
  public:
    MannerReader(const Form& form, std::string_view road_map, RoadMapPart& part)
        : form_(form), road_map_(road_map), part_(part) {}

    /// Reads the word that begins at `from`; gives its end, at most `to`.
    std::size_t read(std::size_t from, std::size_t to) {
        const std::size_t end = std::min(road_map_.find_first_of(", \n\r", from), to);
        const auto word = text::word_at(road_map_, from, end);
        if (const auto tempo = end_of_a_tempo(word, to)) {
            part_.a_tempo = true;
            return *tempo;
        }
        if (!word.value) {
            read_bare(word);
        } else if (text::same_but_for_capitals(word.name, "bars")) {
            return read_bars(from, from + word.name.size() + 1, to);
        } else {
            read_pair(word);
        }
        return end;
    }

    /// What could not be seen before all words were read.
    void finish(std::size_t position) const {
        const auto& manner = part_.manner;
        if (!part_.silent || !(manner.drums || manner.bass || manner.plain_bass)) return;
        refuse(position,
               "drums and bass lay out in a part that is silent: delete silent, or what "
               "they should play");
    }

  private:
    [[noreturn]] void refuse(std::size_t position, const std::string& words) const {
        throw text::bad_character(road_map_, position, words);
    }

    /// The two words "a tempo"; gives where they end.
    [[nodiscard]] std::optional<std::size_t> end_of_a_tempo(const text::Word& word,
                                                            std::size_t to) const {
        if (!text::same_but_for_capitals(word.text, "a")) return std::nullopt;
        const auto from = std::min(road_map_.find_first_not_of(" \n\r", word.offset + 1), to);
        const auto end = std::min(road_map_.find_first_of(", \n\r", from), to);
        if (!text::same_but_for_capitals(road_map_.substr(from, end - from), "tempo")) {
            return std::nullopt;
        }
        return end;
    }

    void read_bare(const text::Word& word) {
        const auto written = as_written_in_a_road_map(word.text);
        if (text::same_but_for_capitals(word.text, "silent")) {
            part_.silent = true;
        } else if (text::same_but_for_capitals(word.text, "plain")) {
            set_plain(word.offset);
        } else if (!written.empty() && find_bass(word.text)) {
            set(part_.manner.bass, *find_bass(word.text), "the bass", word.offset);
        } else if (!written.empty()) {
            refuse(word.offset, fmt::format("{} alone does not say what it is for: write {}",
                                            text::quoted(word.text), written));
        } else if (text::same_but_for_capitals(word.text, "off")) {
            refuse(word.offset,
                   "\"off\" alone does not say what is: write drums=off, bass=off, or silent for "
                   "both");
        } else {
            refuse(word.offset,
                   fmt::format("{} says nothing about how a part is played{}: {}",
                               text::quoted(word.text),
                               text::did_you_mean(
                                   word.text, {"walking", "two-feel", "roots", "plain", "silent"}),
                               what_may_stand));
        }
    }

    void read_pair(const text::Word& word) {
        const auto& name = word.name;
        if (word.value->empty()) {
            refuse(value_place(word), fmt::format("nothing behind {}=: {}, without a blank",
                                                  text::printable(name), what_may_stand));
        }
        if (text::same_but_for_capitals(name, "drums")) {
            set(part_.manner.drums, value_of(word, read_drums_name), "the drums", word.offset);
        } else if (text::same_but_for_capitals(name, "bass")) {
            set_bass(value_of(word, read_bass_wish), word.offset);
        } else if (text::same_but_for_capitals(name, "feel")) {
            set(part_.manner.feel, value_of(word, read_feel_name), "the feel", word.offset);
        } else {
            refuse(word.offset, fmt::format("{} is nothing a part has{}: {}",
                                            text::quoted(fmt::format("{}=", name)),
                                            text::did_you_mean(name, keys()), what_may_stand));
        }
    }

    static std::size_t value_place(const text::Word& word) {
        return word.offset + word.name.size() + 1;
    }

    /// A value by its reader, which does not know where it stands.
    template <typename Value>
    Value value_of(const text::Word& word, Value (*reader)(std::string_view)) const {
        try {
            return reader(*word.value);
        } catch (const text::BadInput& error) {
            refuse(value_place(word), error.without_place());
        }
    }

    template <typename Value>
    void set(std::optional<Value>& asked, Value value, std::string_view what,
             std::size_t position) const {
        if (asked) {
            refuse(position, fmt::format("two words for {} of this part: keep one", what));
        }
        asked = value;
    }

    void set_bass(const BassWish& wish, std::size_t position) {
        if (wish.bass) set(part_.manner.bass, *wish.bass, "the bass", position);
        if (wish.plain) set_plain(position);
    }

    void set_plain(std::size_t position) {
        if (part_.manner.plain_bass) refuse(position, "plain twice in this part: keep one");
        part_.manner.plain_bass = true;
    }

    std::size_t read_bars(std::size_t key, std::size_t value, std::size_t to) {
        if (part_.kind != RoadMapPart::Kind::chorus) {
            refuse(key,
                   fmt::format("the bars of {0} are known: write {0} and how many", part_.name));
        }
        if (part_.al != RoadMapPart::Al::end || part_.from != RoadMapPart::From::top) {
            refuse(key, "the signs of the chart say which bars these are: delete bars=");
        }
        if (part_.passage) refuse(key, "two words for the bars of this part: keep one");
        const std::size_t end = end_of_passage(value, to);
        try {
            part_.passage = read_passage(form_, road_map_.substr(value, end - value));
        } catch (const text::BadInput& error) {
            refuse(value, error.without_place());
        }
        return end;
    }

    /// The name of a section may hold blanks; otherwise a passage ends where any word does.
    [[nodiscard]] std::size_t end_of_passage(std::size_t from, std::size_t to) const {
        std::size_t name = 0;
        for (const auto& [section, ending] : form_.chart.form) {
            const auto rest = road_map_.substr(from, to - from);
            const bool whole = rest.size() == section.size() ||
                               (rest.size() > section.size() &&
                                std::string_view(" ,:@#\n\r").find(rest[section.size()]) !=
                                    std::string_view::npos);
            if (whole && rest.starts_with(section)) name = std::max(name, section.size());
        }
        return std::min(road_map_.find_first_of(", \n\r", from + name), to);
    }

    const Form& form_;
    std::string_view road_map_;
    RoadMapPart& part_;
};

}  // namespace

std::string as_written_in_a_road_map(std::string_view word) {
    if (text::same_but_for_capitals(word, "off")) return "";
    if (const auto bass = find_bass(word)) return std::string(name_of(*bass));
    if (const auto drums = find_drums(word)) return fmt::format("drums={}", name_of(*drums));
    if (const auto feel = find_feel(word)) return fmt::format("feel={}", name_of(*feel));
    return "";
}

void read_manner_of_part(const Form& form, std::string_view road_map, std::size_t from,
                         std::size_t to, RoadMapPart& part) {
    MannerReader reader(form, road_map, part);
    const auto next = [&](std::size_t at) {
        return std::min(road_map.find_first_not_of(", \n\r", at), to);
    };
    const std::size_t first = next(from);
    if (first == to) {
        throw text::bad_character(
            road_map, from - 1,
            fmt::format("nothing behind the colon: delete it, or {}", what_may_stand));
    }
    for (std::size_t at = first; at < to;) at = next(reader.read(at, to));
    reader.finish(first);
}

}  // namespace compline::chart
