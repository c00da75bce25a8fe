#include <compline/text/utf8.hpp>
#include <compline/yaml/source_text.hpp>

#include <algorithm>

namespace compline::yaml {

std::string_view without_byte_order_mark(std::string_view text) {
    constexpr std::string_view mark = "\xEF\xBB\xBF";
    return text.substr(0, mark.size()) == mark ? text.substr(mark.size()) : text;
}

SourceText::SourceText(std::string_view text) : in_file_(text), readable_(text), starts_{0} {
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '\n') starts_.push_back(i + 1);
    }
}

void SourceText::blank_out(std::size_t offset, std::size_t bytes) {
    readable_.replace(offset, bytes, bytes, ' ');
}

std::size_t SourceText::line_index(std::size_t offset) const {
    const auto after = std::upper_bound(starts_.begin(), starts_.end(), offset);
    return static_cast<std::size_t>(after - starts_.begin()) - 1;
}

SourceText::Place SourceText::place(std::size_t offset) const {
    offset = std::min(offset, in_file_.size());
    const std::size_t index = line_index(offset);
    const auto before = in_file_.substr(starts_[index], offset - starts_[index]);
    return {static_cast<int>(index) + 1, static_cast<int>(text::count_code_points(before)) + 1};
}

std::string_view SourceText::line(std::size_t index) const {
    const std::size_t start = starts_[index];
    const std::size_t end = index + 1 < starts_.size() ? starts_[index + 1] : readable_.size();
    auto text = std::string_view(readable_).substr(start, end - start);
    if (!text.empty() && text.back() == '\n') text.remove_suffix(1);
    if (!text.empty() && text.back() == '\r') text.remove_suffix(1);
    return text;
}

}  // namespace compline::yaml
