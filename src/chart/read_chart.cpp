#include "chart_reader.hpp"

#include <compline/chart/chart.hpp>
#include <compline/yaml/characters.hpp>
#include <compline/yaml/file_reading.hpp>
#include <compline/yaml/problem_list.hpp>
#include <compline/yaml/source_text.hpp>
#include <compline/yaml/tree.hpp>

#include <fmt/format.h>

#include <fstream>
#include <system_error>

namespace compline::chart {

namespace {

[[noreturn]] void refuse_file(const std::string& file, const std::string& what) {
    throw ChartError(file, {{0, 0, what}});
}

void check_size(std::size_t bytes, const std::string& file) {
    if (bytes <= most_bytes) return;
    refuse_file(file, fmt::format("the file is larger than {} bytes: no chart is, is this the "
                                  "right file?",
                                  most_bytes));
}

void check_encoding(std::string_view text, const std::string& file) {
    const auto start = text.substr(0, 2);
    if (start != "\xFF\xFE" && start != "\xFE\xFF") return;
    refuse_file(file, "the file is written in UTF-16: save it as UTF-8");
}

}  // namespace

Chart read_chart(std::string_view yaml, const std::string& file) {
    check_size(yaml.size(), file);
    check_encoding(yaml, file);
    yaml::SourceText source(yaml::without_byte_order_mark(yaml));
    yaml::ProblemList problems(source);
    yaml::check_characters(source, problems);
    const auto tree = yaml::read_tree(source, problems);
    Chart chart = ChartReader({source, problems}).read(tree);
    if (!problems.empty()) throw ChartError(file, problems.in_order());
    return chart;
}

std::string load_chart_text(const std::filesystem::path& path) {
    const std::string file = path.string();
    std::error_code error;
    const auto status = std::filesystem::status(path, error);
    if (status.type() == std::filesystem::file_type::not_found) {
        refuse_file(file, "there is no such file: check the name");
    }
    if (std::filesystem::is_directory(status)) {
        refuse_file(file, "this is a folder: name the chart in it");
    }
    if (!std::filesystem::is_regular_file(status)) {
        refuse_file(file, error ? "the file cannot be read: " + error.message()
                                : "this is no ordinary file: a chart is one");
    }
    std::ifstream stream(path, std::ios::binary);
    if (!stream) refuse_file(file, "the file cannot be opened: check that you may read it");
    // One byte more than allowed is enough to see that there are too many.
    std::string bytes(most_bytes + 1, '\0');
    stream.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    if (stream.bad()) refuse_file(file, "the file cannot be read to its end");
    bytes.resize(static_cast<std::size_t>(stream.gcount()));
    bytes.shrink_to_fit();  // it is kept as long as the chart is played
    return bytes;
}

Chart load_chart(const std::filesystem::path& path) {
    return read_chart(load_chart_text(path), path.string());
}

}  // namespace compline::chart
