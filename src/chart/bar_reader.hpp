#pragma once

#include "bar_tokens.hpp"
#include "chart_line.hpp"
#include "kicks.hpp"

#include <compline/chart/chart.hpp>
#include <compline/yaml/problem_list.hpp>

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

namespace compline::chart {

/// Reads the bars of sections: chords, slashes, similes, N.C. and kicks between bar
/// lines.
class BarReader {
  public:
    explicit BarReader(yaml::ProblemList& problems) : problems_(problems) {}

    /// The bars of one section, maybe none. Bars with problems are there too, so that later ones
    /// keep their numbers. Without a meter (the one that is written is wrong) the symbols are
    /// checked and the beats are not.
    [[nodiscard]] std::vector<WrittenBar> read_section(const std::vector<yaml::TextLine>& lines,
                                                       std::optional<time::Meter> meter);

    /// The bars of an ending of that section, which go on from `body`, its bars before them.
    [[nodiscard]] std::vector<WrittenBar> read_ending(const std::vector<yaml::TextLine>& lines,
                                                      const std::vector<WrittenBar>& body);

  private:
    using Token = BarToken;
    using SlotChord = std::optional<harmony::Chord>;  ///< none: N.C.

    /// The line up to a `#` that no symbol holds; reports that.
    [[nodiscard]] std::string_view without_comment(const yaml::TextLine& line);
    void read_line(const yaml::TextLine& line);
    void read_bar(const std::vector<Token>& tokens);
    void read_simile(const Token& token);
    [[nodiscard]] WrittenBar read_beats(const std::vector<Token>& tokens);
    [[nodiscard]] std::optional<SlotChord> read_token(const Token& token);
    [[nodiscard]] std::optional<SlotChord> read_symbol(const Token& token);
    void check_marks(const std::vector<Token>& tokens);
    void check_kicks(const Token& token);
    void check_off_beat(const Token& token);
    void check_hold(const Token& token, bool is_last);
    void append_sign(WrittenBar& bar, const Token& token, time::Ticks start, time::Ticks length);
    void read_lines(const std::vector<yaml::TextLine>& lines);
    [[nodiscard]] bool tokens_fit(const std::vector<Token>& tokens);
    [[nodiscard]] bool has_room(std::size_t place);
    [[nodiscard]] std::vector<Token> tokens_of(const yaml::TextLine& line, std::size_t from,
                                               std::size_t to);

    std::optional<time::Meter> meter_;
    yaml::ProblemList& problems_;
    std::vector<WrittenBar> bars_;       ///< of the section being read
    std::optional<SlotChord> previous_;  ///< none: no chord yet, or one that could not be read
    bool previous_is_optional_ = false;
    bool previous_was_wrong_ = false;
    int written_ = 0;  ///< bars of all sections
};

}  // namespace compline::chart
