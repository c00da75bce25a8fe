#include "chart_line.hpp"

#include <string_view>

namespace compline::chart {

namespace {

bool stands_at(const SourceText& source, std::size_t offset, std::string_view text) {
    return offset <= source.readable().size() &&
           std::string_view(source.readable()).substr(offset, text.size()) == text;
}

char first_character(const YamlNode& node, const SourceText& source) {
    return node.offset < source.readable().size() ? source.readable()[node.offset] : '\0';
}

std::vector<std::string> split_lines(const std::string& text) {
    std::vector<std::string> lines(1);
    for (const char c : text) {
        if (c == '\n') {
            lines.emplace_back();
        } else {
            lines.back() += c;
        }
    }
    return lines;
}

/// A literal block scalar keeps its lines but for the indentation, so each is the end of its line
/// in the file.
std::vector<ChartLine> block_lines(const YamlNode& node, const SourceText& source) {
    std::vector<ChartLine> lines;
    std::size_t index = source.line_index(node.offset);
    for (auto& text : split_lines(node.text)) {
        if (++index >= source.lines()) break;
        const auto line = source.line(index);
        const bool verbatim = line.size() >= text.size();
        const std::size_t indent = verbatim ? line.size() - text.size() : 0;
        lines.push_back({std::move(text), source.line_start(index) + indent, verbatim});
    }
    return lines;
}

std::vector<ChartLine> text_lines(const YamlNode& node, const SourceText& source) {
    const std::size_t start = node.offset + (node.plain ? 0 : 1);
    if (stands_at(source, start, node.text)) return {{node.text, start, true}};
    std::vector<ChartLine> lines;
    for (auto& text : split_lines(node.text))
        lines.push_back({std::move(text), node.offset, false});
    return lines;
}

}  // namespace

std::vector<ChartLine> chart_lines(const YamlNode& node, const SourceText& source,
                                   ProblemList& problems) {
    const char first = node.plain ? '\0' : first_character(node, source);
    if (first == '|') return block_lines(node, source);
    if (first == '>') {
        problems.add(node.offset,
                     "a block scalar that begins with > loses its line ends: begin it with |");
        return {};
    }
    if (node.plain && !stands_at(source, node.offset, node.text)) {
        problems.add(node.offset,
                     "YAML joins these lines into one, and the bars at their ends with them: write "
                     "| after the colon and the bars on the next lines");
        return {};
    }
    refuse_comment_behind(node, source, problems, true);
    return text_lines(node, source);
}

std::size_t offset_in_text(const YamlNode& node, std::size_t byte, const SourceText& source) {
    const bool block = !node.plain && first_character(node, source) == '|';
    for (const auto& line : block ? block_lines(node, source) : text_lines(node, source)) {
        if (byte <= line.text.size()) return line.offset_at(byte);
        byte -= line.text.size() + 1;
    }
    return node.offset;
}

void refuse_comment_behind(const YamlNode& node, const SourceText& source, ProblemList& problems,
                           bool strict) {
    if (!node.plain || !stands_at(source, node.offset, node.text)) return;
    const std::size_t index = source.line_index(node.offset);
    const auto line = source.line(index);
    const std::size_t end = node.offset + node.text.size() - source.line_start(index);
    const std::size_t hash = line.find_first_not_of(' ', end);
    if (hash == std::string_view::npos || line[hash] != '#') return;
    if (!strict && (hash + 1 == line.size() || line[hash + 1] == ' ')) return;
    problems.add(source.line_start(index) + hash,
                 strict ? "YAML takes the rest of this line for a comment: put the line in quotes, "
                          "or the bars in a block scalar (|); a comment goes on a line of its own"
                        : "YAML takes the rest of this line for a comment: put the value in "
                          "quotes, or a blank after the # of a comment");
}

}  // namespace compline::chart
