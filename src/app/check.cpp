#include "command.hpp"
#include "key_wish.hpp"

#include <compline/chart/summary.hpp>

#include <fmt/format.h>

#include <cstdio>
#include <memory>
#include <vector>

namespace compline::app {

namespace {

struct CheckOptions {
    std::vector<std::string> files;
    KeyWish key;
};

/// One line a file on stdout when it reads, its problems on stderr when it does not.
Status check(const CheckOptions& options) {
    Status status = Status::done;
    for (const auto& file : options.files) {
        try {
            const auto form = load_chart(file, options.key).form;
            const auto line = fmt::format("{}: {}\n", spoken_name(file), chart::summary(form));
            // A stdout that fails is no reason not to read the others; main() tells of it.
            (void)std::fputs(line.c_str(), stdout);
        } catch (const chart::ChartError& error) {
            std::fflush(stdout);
            say(error.what());
            status = Status::bad_input;
        }
    }
    return status;
}

}  // namespace

ProgramCommand check_command() {
    const auto options = std::make_shared<CheckOptions>();
    const std::vector<Option> charts = {
        needed({"CHART", "", "Chart files", "", file_names(&options->files)})};
    return {"check", "Read charts and say what is wrong in them",
            joined({charts, options_of(options->key)}), [options] { return check(*options); }};
}

}  // namespace compline::app
