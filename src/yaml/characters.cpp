#include <compline/text/utf8.hpp>
#include <compline/yaml/characters.hpp>

#include <fmt/format.h>

#include <string>

namespace compline::yaml {

namespace {

std::string refusal(text::CodePoint c) {
    if (!c.valid) {
        return fmt::format("the byte {:02X} is not UTF-8 here: save the file as UTF-8",
                           static_cast<unsigned>(c.value));
    }
    if (c.value == '\t') return "a tab: charts are indented and spaced with blanks";
    const char* kind = text::is_control(c.value) ? "control" : "misleading invisible";
    return fmt::format("the {} character {}: delete it", kind, text::code_point_name(c.value));
}

bool is_line_end(std::string_view text, std::size_t at) {
    if (text[at] == '\n') return true;
    return text[at] == '\r' && (at + 1 == text.size() || text[at + 1] == '\n');
}

}  // namespace

void check_characters(SourceText& source, ProblemList& problems) {
    const auto text = source.in_file();
    bool line_is_clean = true;
    for (std::size_t at = 0; at < text.size();) {
        const text::CodePoint c = text::code_point_at(text, at);
        if (text[at] == '\n') line_is_clean = true;
        const bool refused = !c.valid || text::is_misleading(c.value) ||
                             (text::is_control(c.value) && !is_line_end(text, at));
        if (refused) {
            if (line_is_clean) problems.add_and_silence_line(at, refusal(c));
            line_is_clean = false;
            source.blank_out(at, c.bytes);
        }
        at += c.bytes;
    }
}

}  // namespace compline::yaml
