#include "page_file.hpp"

#include "command.hpp"

#include <compline/files/file_io.hpp>

#include <fmt/format.h>

#include <filesystem>
#include <system_error>

namespace compline::app {

std::vector<Option> options_of(PageFile& page, const char* what) {
    return {
        {"--html", "FILE",
         fmt::format("{}, to be looked at on the stand or a phone, or\n"
                     "printed on one sheet.",
                     what),
         "no file", file_name(&page.path)},
        {"--replace", "", "Write over a page that is there.", "it is kept", flag(&page.replace)}};
}

void refuse_taken(const PageFile& page, const std::vector<std::string>& read) {
    if (!page.is_asked()) {
        if (page.replace) throw BadInput("--replace is for a page: give --html too");
        return;
    }
    std::error_code unknown;  // then writing says why
    for (const auto& file : read) {
        if (std::filesystem::equivalent(file, page.path, unknown)) {
            throw BadInput(fmt::format("--html {}: that is what is read: give another name",
                                       files::name_of(page.path)));
        }
    }
    if (!page.replace && std::filesystem::exists(page.path, unknown)) {
        throw BadInput(fmt::format("{} is there already: give another name, or --replace",
                                   files::name_of(page.path)));
    }
}

void save(const PageFile& page, std::string_view html) {
    files::save_text(page.path, html,
                     page.replace ? files::Existing::replace : files::Existing::keep);
    say(fmt::format("The page is in {}", files::name_of(page.path)));
}

}  // namespace compline::app
