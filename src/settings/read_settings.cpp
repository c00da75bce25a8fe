#include "settings_text.hpp"

#include <compline/settings/settings.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>
#include <compline/yaml/map_reader.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::settings {

namespace {

using yaml::TreeNode;
using Kind = TreeNode::Kind;

template <typename Named>
const Named* find_in(const std::vector<Named>& all, std::string_view name,
                     std::string Named::*member) {
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const Named& one) { return one.*member == name; });
    return found == all.end() ? nullptr : &*found;
}

class Reader {
  public:
    Reader(const std::string& file, const KnownKeys& keys, const yaml::FileReading& reading)
        : file_(file), keys_(keys), reading_(reading) {}

    AllSettings read(const TreeNode& root) {
        if (root.kind == Kind::nothing) return {};
        AllSettings settings;
        if (root.kind != Kind::map) {
            complain(root, fmt::format("{} where settings were expected: write `key: value` lines",
                                       yaml::kind_name(root)));
            return settings;
        }
        auto known = keys_.all;
        known.emplace_back(guitars_key);
        settings.all = read_values(root, known, "settings file", guitars_key);
        const yaml::MapReader map(root, "settings file", reading_);
        if (const auto* guitars = map.find(guitars_key)) read_guitars(*guitars, settings);
        refuse_unknown_guitar(root, settings);
        return settings;
    }

  private:
    void complain(const TreeNode& node, const std::string& what) {
        reading_.problems.add(node.offset, what);
    }

    [[nodiscard]] std::string place(const TreeNode& node) const {
        const auto [line, column] = reading_.source.place(node.offset);
        return yaml::place_in(file_, line, column);
    }

    /// All keys of a map but one, each with its text.
    std::vector<Setting> read_values(const TreeNode& node, const std::vector<std::string>& known,
                                     std::string_view what, std::string_view except) {
        const yaml::MapReader map(node, what, reading_);
        map.check_keys(known);
        std::vector<Setting> settings;
        for (const auto& [key, value] : node.entries) {
            if (key.kind != Kind::text || key.text == except) continue;
            const auto* const found = map.find(key.text);
            const auto text =
                map.value_of(found, [](std::string_view written) { return std::string(written); });
            if (!text) continue;
            settings.push_back(
                {key.text, *text, place(value), reading_.source.place(value.offset).line});
        }
        return settings;
    }

    void read_guitars(const TreeNode& node, AllSettings& settings) {
        if (node.kind == Kind::refused) return;
        if (node.kind != Kind::map) {
            complain(node, fmt::format("{} where guitars were expected: write each as "
                                       "`name: {{tuning: ...}}`",
                                       yaml::kind_name(node)));
            return;
        }
        yaml::refuse_duplicate_keys(node, reading_);
        for (const auto& [key, value] : node.entries) {
            if (key.kind == Kind::text) settings.guitars.push_back(read_guitar(key, value));
        }
    }

    OwnGuitar read_guitar(const TreeNode& key, const TreeNode& value) {
        OwnGuitar guitar{key.text, place(key), "", {}};
        if (value.kind == Kind::nothing || value.kind == Kind::refused) return guitar;
        if (value.kind != Kind::map) {
            complain(value, fmt::format("{} where a guitar's settings were expected, such as "
                                        "{{tuning: D2 A2 D3 G3 B3 E4}}",
                                        yaml::kind_name(value)));
            return guitar;
        }
        auto known = keys_.of_guitar;
        known.emplace_back(port_key);
        guitar.settings = read_values(value, known, "guitar", "");
        const auto port = std::find_if(guitar.settings.begin(), guitar.settings.end(),
                                       [](const auto& one) { return one.key == port_key; });
        if (port != guitar.settings.end()) {
            guitar.port = port->value;
            guitar.settings.erase(port);
        }
        return guitar;
    }

    void refuse_unknown_guitar(const TreeNode& root, const AllSettings& settings) {
        const auto* const chosen = settings.find(guitar_key);
        if (chosen == nullptr || settings.guitar(chosen->value) != nullptr) return;
        for (const auto& [key, value] : root.entries) {
            if (key.text != guitar_key) continue;
            complain(value, no_guitar(settings, chosen->value));
        }
    }

    const std::string& file_;
    const KnownKeys& keys_;
    const yaml::FileReading& reading_;
};

}  // namespace

const Setting* AllSettings::find(std::string_view key) const {
    return find_in(all, key, &Setting::key);
}

const OwnGuitar* AllSettings::guitar(std::string_view name) const {
    return find_in(guitars, name, &OwnGuitar::name);
}

std::string no_guitar(const AllSettings& settings, const std::string& name) {
    if (settings.guitars.empty()) {
        return fmt::format("there is no guitar {}: no guitars are described yet",
                           text::quoted(name));
    }
    std::vector<std::string> names;
    names.reserve(settings.guitars.size());
    for (const auto& guitar : settings.guitars) names.push_back(text::printable(guitar.name));
    return fmt::format("there is no guitar {}: there are {}{}", text::quoted(name),
                       text::listed(names), text::did_you_mean(name, names));
}

AllSettings read_settings(std::string_view yaml, const std::string& file, const KnownKeys& keys) {
    SettingsText text(yaml, file);
    auto settings = Reader(file, keys, text.reading()).read(text.root());
    text.refuse_problems();
    return settings;
}

}  // namespace compline::settings
