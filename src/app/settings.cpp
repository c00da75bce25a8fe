#include "guitar_options.hpp"
#include "settings_file.hpp"

#include <compline/files/file_io.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <memory>
#include <system_error>

namespace compline::app {

namespace {

namespace fs = std::filesystem;

struct Options {
    std::vector<std::string> words;
    std::string guitar;
    bool json = false;
};

/// Each setting once, as the first command has it that takes it.
std::vector<Option> all_rows(const std::vector<ProgramCommand>& commands) {
    std::vector<Option> rows;
    for (const auto& command : commands) {
        for (auto& option : settings_of(command)) {
            const bool there = std::any_of(rows.begin(), rows.end(), [&](const Option& row) {
                return row.setting->key == option.setting->key;
            });
            if (!there) rows.push_back(std::move(option));
        }
    }
    return rows;
}

// What is there.

/// The default as help says it, without lines of its own; of a flag, whether it is so.
std::string usual_of(const Option& option) {
    const bool is_flag = option.reader.takes == ValueReader::Takes::nothing;
    const bool is_opposite = is_flag && option.name.rfind("--no-", 0) == 0;
    if (is_flag) return is_opposite ? "yes" : "no";
    auto usual = option.usual;
    std::replace(usual.begin(), usual.end(), '\n', ' ');
    return usual;
}

constexpr std::size_t key_width = 14;
constexpr std::size_t value_width = 40;

void print_row(const std::string& key, const std::string& value, const std::string& from) {
    fmt::print("  {:<{}}  {:<{}}  {}\n", key, key_width, value, value_width, from);
}

void print_settings(const settings::AllSettings& settings, const std::vector<Option>& rows) {
    const auto path = path_of_settings();
    std::error_code unknown;
    fmt::print("{}{}\n\n", files::name_of(path),
               fs::exists(path, unknown) ? "" : " (not there yet: all is as usual)");
    for (const auto& row : rows) {
        const auto* const set = settings.find(row.setting->key);
        print_row(row.setting->key, set != nullptr ? text::printable(set->value) : usual_of(row),
                  set != nullptr ? fmt::format("line {}", set->line) : "default");
    }
    const auto* const chosen = settings.find(settings::guitar_key);
    for (const auto& guitar : settings.guitars) {
        const bool is_chosen = chosen != nullptr && chosen->value == guitar.name;
        fmt::print("\nguitar {}{}\n", text::printable(guitar.name),
                   is_chosen ? ", taken where no port says otherwise" : "");
        if (!guitar.port.empty()) print_row("port", text::printable(guitar.port), "");
        for (const auto& own : guitar.settings) {
            print_row(own.key, text::printable(own.value), fmt::format("line {}", own.line));
        }
    }
    fmt::print(
        "\nWhat you type comes first, then what the chart says, then these.\n"
        "To set one: compline settings set KEY VALUE; to take it out: ... unset KEY\n");
}

void print_json(const settings::AllSettings& settings, const std::vector<Option>& rows) {
    using Json = nlohmann::ordered_json;
    const auto one = [](const std::string& key, const settings::Setting* set,
                        const std::string& usual) {
        Json json = {{"key", key}, {"value", set != nullptr ? set->value : usual}};
        json["line"] = set != nullptr ? Json(set->line) : Json(nullptr);
        return json;
    };
    Json json = {{"schema", "compline.settings/1"}, {"file", path_of_settings().string()}};
    json["settings"] = Json::array();
    for (const auto& row : rows) {
        json["settings"].push_back(
            one(row.setting->key, settings.find(row.setting->key), usual_of(row)));
    }
    json["guitars"] = Json::array();
    for (const auto& guitar : settings.guitars) {
        Json described = {{"name", guitar.name}, {"port", guitar.port}};
        described["settings"] = Json::array();
        for (const auto& own : guitar.settings) {
            described["settings"].push_back(one(own.key, &own, ""));
        }
        json["guitars"].push_back(described);
    }
    fmt::print("{}\n", json.dump(2, ' ', false, Json::error_handler_t::replace));
}

// What is to be there.

void refuse_unknown(const std::string& key, const std::vector<std::string>& known,
                    const std::string& whose) {
    if (std::find(known.begin(), known.end(), key) != known.end()) return;
    const auto near = text::nearest(key, known);
    throw BadInput(fmt::format("there is no setting {}{}", text::printable(key), whose), "",
                   near ? fmt::format("did you mean {}?", *near)
                        : fmt::format("they are {}", fmt::join(known, ", ")));
}

void refuse_unknown_guitar(const settings::AllSettings& settings, const std::string& name) {
    if (name.empty() || settings.guitar(name) != nullptr) return;
    throw BadInput(
        "", settings::no_guitar(settings, name),
        fmt::format("describe it first: compline settings set port PORT {} NAME", guitar_option));
}

void change(const Options& options, const settings::Setting& changed) {
    const auto commands = all_commands();
    const auto keys = settings_keys(commands);
    auto known = options.guitar.empty() ? keys.all : keys.of_guitar;
    if (!options.guitar.empty()) known.emplace_back(settings::port_key);
    refuse_unknown(changed.key, known,
                   options.guitar.empty() ? "" : ", of those that each guitar has");
    if (!changed.value.empty()) refuse_value(commands, changed);
    const auto path = path_of_settings();
    const auto before = settings_text();
    if (options.guitar.empty() && changed.key == settings::guitar_key) {
        refuse_unknown_guitar(settings::read_settings(before, path.string(), keys), changed.value);
    }
    const auto text = settings::with_setting(before, path.string(), keys, options.guitar, changed);
    save_settings(text);
    fmt::print("{}: {}{} is {}\n", files::name_of(path), changed.key,
               options.guitar.empty() ? "" : " of " + text::printable(options.guitar),
               changed.value.empty() ? "as usual" : text::printable(changed.value));
}

[[noreturn]] void refuse_words() {
    throw BadInput(
        "write compline settings alone, compline settings set KEY VALUE, or compline settings "
        "unset KEY");
}

void run(const Options& options) {
    const auto& words = options.words;
    if (words.empty()) {
        if (!options.guitar.empty()) refuse_words();
        const auto commands = all_commands();
        const auto settings = load_settings(settings_keys(commands));
        const auto rows = all_rows(commands);
        options.json ? print_json(settings, rows) : print_settings(settings, rows);
        return;
    }
    if (options.json) refuse_words();
    if (words.front() == "set" && words.size() == 3) {
        if (words[2].empty()) throw BadInput("there is nothing between the quotes");
        change(options, {words[1], words[2], "", 0});
    } else if (words.front() == "unset" && words.size() == 2) {
        change(options, {words[1], "", "", 0});
    } else {
        refuse_words();
    }
}

}  // namespace

ProgramCommand settings_command() {
    const auto options = std::make_shared<Options>();
    return {"settings",
            "What you need not type each evening: show it, set it",
            {{"WORDS", "", "set KEY VALUE, or unset KEY; without them all settings are shown", "",
              all_as_typed(&options->words)},
             {"--guitar", "NAME", "The setting is that guitar's own.", "it holds for all",
              as_typed(&options->guitar)},
             {"--json", "", "All settings as JSON.", "in words", flag(&options->json)}},
            [options] {
                run(*options);
                return Status::done;
            }};
}

}  // namespace compline::app
