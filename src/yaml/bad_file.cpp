#include <compline/text/printable.hpp>
#include <compline/yaml/bad_file.hpp>

#include <fmt/format.h>

#include <utility>

namespace compline::yaml {

namespace {

std::string message(const std::string& file, const std::vector<Problem>& problems) {
    std::string text;
    for (const auto& problem : problems) {
        if (!text.empty()) text += '\n';
        text += problem.line > 0 ? place_in(file, problem.line, problem.column)
                                 : text::printable(file, file.size());
        text += ": " + problem.what;
    }
    return text;
}

}  // namespace

BadFile::BadFile(const std::string& file, std::vector<Problem> problems)
    : std::runtime_error(message(file, problems)), problems_(std::move(problems)) {}

std::string place_in(const std::string& file, int line, int column) {
    return fmt::format("{}:{}:{}", text::printable(file, file.size()), line, column);
}

}  // namespace compline::yaml
