#include "page_part.hpp"

#include "svg.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>

namespace compline::report {

PageTable::PageTable(const std::string& caption, const std::vector<std::string>& heads)
    : head_("<caption>" + escaped(caption) + "</caption>\n<thead><tr>") {
    for (const auto& head : heads) head_ += "<th scope=\"col\">" + escaped(head) + "</th>";
    head_ += "</tr></thead>\n";
}

void PageTable::row(const std::vector<std::string>& cells) {
    rows_ += "<tr>";
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const auto* const tag = i == 0 ? "th" : "td";
        rows_ += fmt::format("<{0}{1}>{2}</{0}>", tag, i == 0 ? " scope=\"row\"" : "",
                             escaped(cells[i]));
    }
    rows_ += "</tr>\n";
}

std::string PageTable::markup() const {
    return "<table>\n" + head_ + "<tbody>\n" + rows_ + "</tbody>\n</table>\n";
}

std::string markup_of(const PagePart& part) {
    if (part.picture.empty()) return "";
    auto markup = fmt::format(
        "<section class=\"{0}\" aria-labelledby=\"{0}\">\n<h2 id=\"{0}\">{1}</h2>\n"
        "<figure>\n<div role=\"img\" aria-label=\"{2}\">\n{3}</div>\n",
        part.name, escaped(part.heading), escaped(part.says), part.picture);
    if (!part.below.empty()) markup += "<figcaption>" + part.below + "</figcaption>\n";
    markup += "</figure>\n";
    if (!part.table.empty()) {
        markup += "<details><summary>" + escaped(part.heading) + ", as a table</summary>\n" +
                  part.table + "</details>\n";
    }
    return markup + "</section>\n";
}

std::string key_entry(const std::string& sign, const std::string& words) {
    return "<span class=\"key\">" + sign + escaped(words) + "</span>\n";
}

std::string paragraph_markup(const char* name, const std::string& words) {
    if (words.empty()) return "";
    return fmt::format("<p class=\"{}\">{}</p>\n", name, escaped(words));
}

std::string typed_markup(const std::string& line) {
    if (line.empty()) return "";
    std::string markup = "<pre><code>";
    for (std::size_t from = 0; from < line.size();) {
        const auto end = std::min(line.find(" --", from + 1), line.size());
        if (line[from] == ' ') markup += line[from++];
        markup += "<span>" + escaped(line.substr(from, end - from)) + "</span>";
        from = end;
    }
    return markup + "</code></pre>\n";
}

}  // namespace compline::report
