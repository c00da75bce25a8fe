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

std::string section_markup(const std::string& name, const std::string& heading,
                           const std::string& inside, const std::string& id) {
    return fmt::format(
        "<section class=\"{0}\" aria-labelledby=\"{1}\">\n<h2 id=\"{1}\">{2}</h2>\n{3}</section>\n",
        name, id.empty() ? name : id, escaped(heading), inside);
}

std::string figure_markup(const PagePart& part) {
    if (part.picture.empty()) return "";
    auto markup = fmt::format("<figure>\n<div role=\"img\" aria-label=\"{}\">\n{}</div>\n",
                              escaped(part.says), part.picture);
    if (!part.below.empty()) markup += "<figcaption>" + part.below + "</figcaption>\n";
    markup += "</figure>\n";
    if (part.table.empty()) return markup;
    return markup + "<details><summary>" + escaped(part.heading) + ", as a table</summary>\n" +
           part.table + "</details>\n";
}

std::string markup_of(const PagePart& part) {
    if (part.picture.empty()) return "";
    return section_markup(part.name, part.heading, figure_markup(part));
}

std::string key_entry(const std::string& sign, const std::string& words) {
    return "<span class=\"key\">" + sign + escaped(words) + "</span>\n";
}

std::string paragraph_markup(const char* name, const std::string& words) {
    if (words.empty()) return "";
    const auto named = *name == '\0' ? "" : fmt::format(" class=\"{}\"", name);
    return "<p" + named + ">" + escaped(words) + "</p>\n";
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
