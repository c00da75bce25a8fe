#pragma once

#include <string>
#include <vector>

namespace compline::report {

/// A table of a page: what a picture says, for who cannot see it, and with every number.
class PageTable {
  public:
    /// Plain words, escaped here, as are those of the rows.
    PageTable(const std::string& caption, const std::vector<std::string>& heads);
    /// As many cells as there are heads; the first one names the row.
    void row(const std::vector<std::string>& cells);
    [[nodiscard]] bool empty() const { return rows_.empty(); }
    [[nodiscard]] std::string markup() const;

  private:
    std::string head_;
    std::string rows_;
};

/// A picture of a page with its heading, what it shows in words, and the table behind it.
struct PagePart {
    std::string name;     ///< for the style: "strip"
    std::string heading;  ///< plain words
    std::string says;     ///< the picture in a sentence, for a screen reader
    std::string picture;  ///< markup; empty: the part is left out
    std::string below;    ///< markup of words below it
    std::string table;    ///< markup; empty: none
};

/// A section, named for the style and led by its heading: plain words. `inside`: markup. `id`: its
/// own on the page, where several have one name.
[[nodiscard]] std::string section_markup(const std::string& name, const std::string& heading,
                                         const std::string& inside, const std::string& id = "");

/// The picture with what belongs to it, without a heading; nothing where there is none.
[[nodiscard]] std::string figure_markup(const PagePart& part);

/// As a section; nothing where there is no picture.
[[nodiscard]] std::string markup_of(const PagePart& part);

/// A sign and what it stands for, in the line below a picture. `sign`: markup.
[[nodiscard]] std::string key_entry(const std::string& sign, const std::string& words);

/// A paragraph of plain words, named for the style; nothing where there are none.
[[nodiscard]] std::string paragraph_markup(const char* name, const std::string& words);

/// A line to be typed: where it does not fit, it is broken before an option, and never behind the
/// hyphens of one. Nothing where there is none.
[[nodiscard]] std::string typed_markup(const std::string& line);

/// How pages look: by day, by night, on a phone and on one sheet of paper.
[[nodiscard]] const char* page_style();

}  // namespace compline::report
