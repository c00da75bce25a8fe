#pragma once

#include <string>

namespace compline::tests {

/// Compares text with a file of expectations under tests/, such as "report/golden/blues.txt", line
/// by line; a difference fails the test and shows the lines around it. To make the files again
/// after a change that was meant: COMPLINE_WRITE_GOLDEN=1 build/dev/tests/compline_tests
/// "[golden]", then read the difference that git shows.
void check_golden(const std::string& text, const std::string& relative_path);

}  // namespace compline::tests
