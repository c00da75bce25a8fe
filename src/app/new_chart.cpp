#include "command.hpp"
#include "quick_chart.hpp"

#include <compline/chart/summary.hpp>
#include <compline/chart/transpose.hpp>
#include <compline/files/file_io.hpp>
#include <compline/text/for_shell.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <cctype>
#include <filesystem>
#include <memory>
#include <optional>

namespace compline::app {

namespace {

constexpr int most_bars = 200;

struct NewOptions {
    std::string name;
    std::string key;
    std::optional<time::Meter> meter;
    int bars = 8;
};

time::Meter read_meter_option(const std::string& text) {
    const auto slash = text.find('/');
    const auto above = text::read_count(text.substr(0, slash));
    const auto below =
        slash == std::string::npos ? std::nullopt : text::read_count(text.substr(slash + 1));
    const auto meter = above && below ? time::Meter::find(*above, *below) : std::nullopt;
    if (meter) return *meter;
    throw BadInput(
        fmt::format("{} is no meter of a chart: write 2/2, 2/4, 3/4, 4/4, 5/4, 6/4, 6/8, "
                    "9/8 or 12/8",
                    text::quoted(text)));
}

/// "minor" belongs to the key's own name: Am.
chart::Key read_new_key(const std::string& text) {
    const chart::Key major{{harmony::Letter::C, 0}, false};
    const chart::Key minor{{harmony::Letter::C, 0}, true};
    const bool is_minor = text.size() > 1 && text.back() == 'm';
    return read_option("--key", text, Echo::name, [&](const auto& key) {
        return chart::read_key_for(is_minor ? minor : major, key);
    });
}

/// "my-own_tune.yaml" is My Own Tune.
std::string title_of(const std::filesystem::path& path) {
    auto title = text::printable(path.stem().string(), std::string::npos);
    bool begins = true;
    for (char& c : title) {
        if (c == '-' || c == '_') c = ' ';
        if (begins) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
        begins = c == ' ';
    }
    return title;
}

/// A folder, or a file that nobody would see.
void refuse_no_name(const std::filesystem::path& path) {
    const auto name = path.filename().string();
    if (!name.empty() && name.front() != '.') return;
    throw BadInput(fmt::format("{} is no name for a chart: write one such as my-blues",
                               text::quoted(path.string())));
}

Status write_new(const NewOptions& options) {
    std::filesystem::path path = options.name;
    refuse_no_name(path);
    if (path.extension() != ".yaml") path += ".yaml";
    NewChart wanted;
    wanted.title = title_of(path);
    if (!options.key.empty()) wanted.key = read_new_key(options.key);
    wanted.meter = options.meter.value_or(wanted.meter);
    wanted.bars = options.bars;
    const auto text = chart_to_begin_with(wanted);
    const auto chart = chart::read_chart(text, files::name_of(path));
    files::save_text(path, text, files::Existing::keep);
    const auto name = text::for_shell(path.string());
    fmt::print(
        "{}: {}\nWrite your changes into it, then\n    compline check {}\n"
        "    compline practice {}\n",
        files::name_of(path), chart::summary(chart::unroll(chart)), name, name);
    return Status::done;
}

}  // namespace

ProgramCommand new_command() {
    const auto options = std::make_shared<NewOptions>();
    return {"new",
            "Write a chart to begin with",
            {needed({"NAME", "", "The name of its file; without .yaml it gets that", "",
                     file_name(&options->name)}),
             {"--key", "KEY", "The key, such as G, Eb or F#m.", "C", as_typed(&options->key)},
             {"--meter", "METER", "The meter, such as 3/4.", "4/4",
              read_by([options](const auto& text) { options->meter = read_meter_option(text); })},
             {"--bars", "N", "How many bars, 1 to 200.", "8",
              whole_number(1, most_bars, &options->bars)}},
            [options] { return write_new(*options); }};
}

}  // namespace compline::app
