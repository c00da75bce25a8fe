#include "aubio.hpp"

#include "command.hpp"

#include <sstream>

namespace compline::tests {

std::vector<double> aubio_onsets(const std::filesystem::path& file, const std::string& options) {
    const auto result =
        run("aubioonset -B 256 -H 64 -O hfc -s -90 " + options + " " + shell_quote(file.string()));
    std::istringstream lines(result.output);
    std::vector<double> seconds;
    for (double s = 0; lines >> s;) seconds.push_back(s);
    return seconds;
}

}  // namespace compline::tests
