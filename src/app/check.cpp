#include "command.hpp"

#include <compline/chart/summary.hpp>

#include <fmt/format.h>

#include <cstdio>
#include <memory>
#include <vector>

namespace compline::app {

namespace {

/// One line a file on stdout when it reads, its problems on stderr when it does not.
Status check(const std::vector<std::string>& files) {
    Status status = Status::done;
    for (const auto& file : files) {
        try {
            const auto form = load_form(file);
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
    const auto files = std::make_shared<std::vector<std::string>>();
    return {"check",
            "Read charts and say what is wrong in them",
            {needed({"CHART", "", "Chart files", "", file_names(files.get())})},
            [files] { return check(*files); }};
}

}  // namespace compline::app
