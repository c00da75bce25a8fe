#pragma once

// Texts as one line, and no wider than a terminal.

#include "support/catch.hpp"

#include <compline/report/columns.hpp>

#include <sstream>
#include <string>

namespace compline::tests {

/// The text as one line, so that a sentence or a command is found however it is broken.
inline std::string unbroken(const std::string& text) {
    std::string line;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text.compare(i, 2, "\\\n") == 0) continue;
        const char put = text[i] == '\n' ? ' ' : text[i];
        if (put != ' ' || line.empty() || line.back() != ' ') line += put;
    }
    return line;
}

inline void check_width(const std::string& text) {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        INFO(line);
        CHECK(report::columns_of(line) <= report::terminal_columns);
        CHECK((line.empty() || line.back() != ' '));
    }
}

}  // namespace compline::tests
