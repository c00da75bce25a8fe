#include "words.hpp"

#include <compline/report/columns.hpp>
#include <compline/report/practice_command.hpp>
#include <compline/text/for_shell.hpp>
#include <compline/text/printable.hpp>

namespace compline::report {

namespace {

constexpr const char* line_indent = "         ";

std::vector<std::string> all_pieces(const CommandLine& line) {
    std::vector<std::string> all;
    if (!line.command.empty()) all.push_back(line.command);
    if (!line.chart.empty()) all.push_back(shell_word(line.chart, "CHART"));
    for (const auto& piece : line.pieces) {
        if (!piece.empty()) all.push_back(piece);
    }
    for (const auto& option : line.options) {
        const auto value = option.value.empty() ? "" : " " + shell_word(option.value, "...");
        all.push_back(option.name + value);
    }
    return all;
}

}  // namespace

std::string shell_word(const std::string& word, const char* instead) {
    return text::has_control_characters(word) ? instead : text::for_shell(word);
}

std::string tempo_piece(time::Bpm tempo, const chart::Chart& chart) {
    return tempo == chart.tempo ? "" : "--tempo " + plain(tempo.count());
}

std::string CommandLine::in_lines() const {
    std::string text = line_indent + std::string("compline");
    int column = columns_of(text);
    for (const auto& piece : all_pieces(*this)) {
        constexpr int continued = 2;  // " \" at the end
        if (column + 1 + columns_of(piece) + continued > terminal_columns) {
            text += std::string(" \\\n") + line_indent + "   ";
            column = columns_of(line_indent) + 3;
        }
        text += " " + piece;
        column += 1 + columns_of(piece);
    }
    return text + "\n";
}

std::string CommandLine::in_one_line() const {
    std::string text = "compline";
    for (const auto& piece : all_pieces(*this)) text += " " + piece;
    return text;
}

std::string practice_command(const std::string& chart, const std::vector<std::string>& pieces,
                             const std::vector<practice::KeptOption>& options) {
    return CommandLine{"practice", chart, pieces, options}.in_lines();
}

}  // namespace compline::report
