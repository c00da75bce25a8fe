#include "support/golden.hpp"

#include "support/catch.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <vector>

namespace compline::tests {

namespace {

constexpr std::size_t context = 3;  // lines shown before a difference
constexpr std::size_t most_shown = 20;

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

/// From the first line that differs to the last: what was expected (-), what came (+).
std::string difference(const std::vector<std::string>& expected,
                       const std::vector<std::string>& found) {
    const std::size_t shorter = std::min(expected.size(), found.size());
    std::size_t head = 0;
    while (head < shorter && expected[head] == found[head]) ++head;
    std::size_t tail = 0;
    while (tail < shorter - head &&
           expected[expected.size() - 1 - tail] == found[found.size() - 1 - tail]) {
        ++tail;
    }
    std::string text = "line " + std::to_string(head + 1) + ":\n";
    for (std::size_t i = head - std::min(head, context); i < head; ++i) {
        text += "  " + expected[i] + "\n";
    }
    const auto show = [&](const std::vector<std::string>& lines, const char* sign) {
        const std::size_t end = std::min(lines.size() - tail, head + most_shown);
        for (std::size_t i = head; i < end; ++i) text += sign + lines[i] + "\n";
    };
    show(expected, "- ");
    show(found, "+ ");
    return text;
}

bool is_to_be_written() {
    const char* set = std::getenv("COMPLINE_WRITE_GOLDEN");
    return set != nullptr && std::string(set) == "1";
}

}  // namespace

void check_golden(const std::string& text, const std::string& relative_path) {
    const auto path = std::filesystem::path(COMPLINE_SOURCE_DIR) / "tests" / relative_path;
    if (is_to_be_written()) {
        std::filesystem::create_directories(path.parent_path());
        std::ofstream(path, std::ios::binary) << text;
        WARN("written anew: " << path);
        return;
    }
    std::ifstream in(path, std::ios::binary);
    const std::string expected{std::istreambuf_iterator<char>(in), {}};
    if (expected == text) {
        SUCCEED();
        return;
    }
    FAIL_CHECK(relative_path << " is not what came out, "
                             << difference(lines_of(expected), lines_of(text)));
}

}  // namespace compline::tests
