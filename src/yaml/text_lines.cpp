#include <compline/yaml/text_lines.hpp>

#include <string_view>
#include <utility>

namespace compline::yaml {

namespace {

bool stands_at(const SourceText& source, std::size_t offset, std::string_view text) {
    return offset <= source.readable().size() &&
           std::string_view(source.readable()).substr(offset, text.size()) == text;
}

char first_character(const TreeNode& node, const SourceText& source) {
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
std::vector<TextLine> block_lines(const TreeNode& node, const SourceText& source) {
    std::vector<TextLine> lines;
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

std::vector<TextLine> plain_lines(const TreeNode& node, const SourceText& source) {
    const std::size_t start = node.offset + (node.plain ? 0 : 1);
    if (stands_at(source, start, node.text)) return {{node.text, start, true}};
    std::vector<TextLine> lines;
    for (auto& text : split_lines(node.text))
        lines.push_back({std::move(text), node.offset, false});
    return lines;
}

}  // namespace

ScalarForm scalar_form(const TreeNode& node, const SourceText& source) {
    const char first = node.plain ? '\0' : first_character(node, source);
    if (first == '|') return ScalarForm::in_a_block;
    if (first == '>') return ScalarForm::in_a_fold;
    const bool joined = node.plain && !stands_at(source, node.offset, node.text);
    return joined ? ScalarForm::over_lines : ScalarForm::as_it_stands;
}

std::vector<TextLine> lines_of(const TreeNode& node, const SourceText& source) {
    const bool block = scalar_form(node, source) == ScalarForm::in_a_block;
    return block ? block_lines(node, source) : plain_lines(node, source);
}

std::size_t offset_in_text(const TreeNode& node, std::size_t byte, const SourceText& source) {
    for (const auto& line : lines_of(node, source)) {
        if (byte <= line.text.size()) return line.offset_at(byte);
        byte -= line.text.size() + 1;
    }
    return node.offset;
}

std::optional<std::size_t> comment_behind(const TreeNode& node, const SourceText& source,
                                          bool glued) {
    if (!node.plain || !stands_at(source, node.offset, node.text)) return std::nullopt;
    const std::size_t index = source.line_index(node.offset);
    const auto line = source.line(index);
    const std::size_t end = node.offset + node.text.size() - source.line_start(index);
    const std::size_t hash = line.find_first_not_of(' ', end);
    if (hash == std::string_view::npos || line[hash] != '#') return std::nullopt;
    if (glued && (hash + 1 == line.size() || line[hash + 1] == ' ')) return std::nullopt;
    return source.line_start(index) + hash;
}

}  // namespace compline::yaml
