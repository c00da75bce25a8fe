#pragma once

#include "chart_line.hpp"

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
    /// Without a meter (the chart's own is wrong) the symbols are checked and the beats are not.
    BarReader(std::optional<time::Meter> meter, yaml::ProblemList& problems)
        : meter_(meter), problems_(problems) {}

    /// The bars of one section, maybe none. Bars with problems are there too, so that later ones
    /// keep their numbers.
    [[nodiscard]] std::vector<WrittenBar> read_section(const std::vector<yaml::TextLine>& lines);

  private:
    struct Token {
        std::string_view text;   ///< the sign
        std::string_view kicks;  ///< the marks behind it
        std::size_t offset;      ///< in the file
        const yaml::TextLine* line;
        std::size_t byte;  ///< in the line
    };
    using SlotChord = std::optional<harmony::Chord>;  ///< none: N.C.

    /// The line up to a `#` that no symbol holds; reports that.
    [[nodiscard]] std::string_view without_comment(const yaml::TextLine& line);
    void read_line(const yaml::TextLine& line);
    void read_bar(const std::vector<Token>& tokens);
    void read_simile(const Token& token);
    [[nodiscard]] WrittenBar read_beats(const std::vector<Token>& tokens);
    [[nodiscard]] std::optional<SlotChord> read_token(const Token& token);
    [[nodiscard]] std::optional<SlotChord> read_symbol(const Token& token);
    void check_kicks(const std::vector<Token>& tokens);
    [[nodiscard]] bool tokens_fit(const std::vector<Token>& tokens);
    [[nodiscard]] bool has_room(std::size_t place);
    [[nodiscard]] static std::vector<Token> tokens_of(const yaml::TextLine& line, std::size_t from,
                                                      std::size_t to);

    std::optional<time::Meter> meter_;
    yaml::ProblemList& problems_;
    std::vector<WrittenBar> bars_;       ///< of the section being read
    std::optional<SlotChord> previous_;  ///< none: no chord yet, or one that could not be read
    bool previous_was_wrong_ = false;
    int written_ = 0;  ///< bars of all sections
};

}  // namespace compline::chart
