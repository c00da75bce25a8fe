#pragma once

#include "measurement.hpp"

#include <string>
#include <vector>

namespace compline::bench {

/// One line of the table: what was done, how long it took, and what that means in use ("1200 x real
/// time").
struct Row {
    std::string work;
    Measurement took;
    std::string means;
};

/// "0.82 us", "3.1 ms", "1.25 s".
[[nodiscard]] std::string spoken(time::Seconds duration);

/// The machine, how busy it is, and the compiler, then the rows; in Markdown, so that it can be
/// pasted into README.
void print_table(const std::vector<Row>& rows);

}  // namespace compline::bench
