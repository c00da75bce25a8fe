#pragma once

#include "option.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace compline::app {

/// A report's page, where one is asked for: --html and --replace.
struct PageFile {
    std::string path;  ///< empty: none
    bool replace = false;

    [[nodiscard]] bool is_asked() const { return !path.empty(); }
};

/// `what`: is done, without a full stop.
[[nodiscard]] std::vector<Option> options_of(PageFile& page,
                                             const char* what = "Write the report as a page too");

/// Before any work. Throws BadInput where something is there that is to be kept, where one of the
/// files that are read would be written over, and for --replace without a page.
void refuse_taken(const PageFile& page, const std::vector<std::string>& read);

/// Writes it, and says where it is. Throws files::FileError.
void save(const PageFile& page, std::string_view html);

}  // namespace compline::app
