// The program of tools/rough_pickup: a clean take in, a rough one out, and the truth beside it.
// Status 0: done. 1: a file cannot be written. 2: bad usage, no clean take, a file that is there.
#include "arguments.hpp"
#include "rough_file.hpp"
#include "truth_json.hpp"

#include <compline/files/file_io.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <cstdio>
#include <exception>
#include <filesystem>
#include <optional>
#include <stdexcept>
#include <string>

using namespace compline;

namespace {

void say(const std::string& text) { fmt::print(stderr, "rough_pickup: {}\n", text); }

bool is_same_file(const std::filesystem::path& a, const std::filesystem::path& b) {
    return std::filesystem::weakly_canonical(a) == std::filesystem::weakly_canonical(b);
}

/// What only goes wrong together, such as a first channel that leaves no room for six.
void check_rates(const simulate::Roughness& roughness) {
    (void)simulate::roughen({}, roughness, 1);
}

/// Before anything is written.
void check_files(const rough::Arguments& asked) {
    if (!asked.truth.empty() && is_same_file(asked.out, asked.truth)) {
        throw text::BadInput(asked.out + ": the take and the truth cannot be one file");
    }
    for (const auto& path : {asked.out, asked.truth}) {
        if (path.empty() || asked.force || !std::filesystem::exists(path)) continue;
        throw text::BadInput(path + ": is there already; --force replaces it");
    }
}

void sum_up(const simulate::RoughTake& take) {
    std::string text =
        fmt::format("{} notes, {} messages", take.truth.size(), take.messages.size());
    for (int n = 0; n < simulate::fault_count; ++n) {
        const auto fault = static_cast<simulate::Fault>(n);
        if (take.count(fault) > 0)
            text += fmt::format(", {} {}", name_of(fault), take.count(fault));
    }
    fmt::print("{}\n", text);
}

void work(const rough::Arguments& asked) {
    check_rates(asked.roughness);
    check_files(asked);
    const auto rough = rough::roughen_file(asked.in, asked.roughness, asked.seed);
    const auto existing = asked.force ? files::Existing::replace : files::Existing::keep;
    files::save_bytes(asked.out, midi::write_smf(rough.file), existing);
    if (!asked.truth.empty()) {
        files::save_text(asked.truth, rough::truth_json(rough.take, asked.seed), existing);
    }
    sum_up(rough.take);
}

}  // namespace

int main(int argc, char** argv) {
    int status = 0;
    const auto asked = rough::read_arguments(argc, argv, status);
    if (!asked) return status;
    try {
        work(*asked);
        return 0;
    } catch (const text::BadInput& error) {
        say(error.what());
        return 2;
    } catch (const std::exception& error) {
        say(error.what());
        return 1;
    }
}
