#include "folder.hpp"

#include <compline/files/file_io.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <fstream>
#include <system_error>

namespace compline::month {

namespace fs = std::filesystem;

namespace {

constexpr const char* takes = "takes";
constexpr const char* charts = "charts";
constexpr const char* truth = "truth.json";

}  // namespace

Folder::Folder(fs::path path) : path_(std::move(path)) {
    for (const auto* name : {takes, charts, truth}) {
        if (!fs::exists(path_ / name)) continue;
        throw text::BadInput(fmt::format("{} is there already: give a folder without it",
                                         files::name_of(path_ / name)));
    }
    fs::create_directories(path_ / takes);
    fs::create_directories(path_ / charts);
}

void Folder::find_free_second(Moment& when) {
    while (!taken_.insert(when.file()).second) when.since_midnight += std::chrono::seconds(1);
}

/// Not synced one by one, as a player's are: of ten thousand that took minutes, and what is lost
/// with the power is made again.
void Folder::add_take(const Moment& when, const std::vector<std::uint8_t>& bytes) const {
    const auto path = path_ / takes / when.file();
    std::ofstream file(path, std::ios::binary);
    std::error_code absent;  // then writing fails
    fs::permissions(path, fs::perms::owner_read | fs::perms::owner_write, absent);
    for (const auto byte : bytes) file.put(static_cast<char>(byte));
    file.close();
    if (!file) throw files::FileError(path, "cannot be written to its end");
}

void Folder::copy_chart(const fs::path& chart) {
    if (!charts_.insert(chart.filename().string()).second) return;
    files::save_text(path_ / charts / chart.filename(), files::load_text(chart),
                     files::Existing::keep);
}

void Folder::add_truth(const std::string& text) const {
    files::save_text(path_ / truth, text, files::Existing::keep);
}

}  // namespace compline::month
