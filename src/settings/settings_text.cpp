#include "settings_text.hpp"

#include <compline/settings/settings.hpp>
#include <compline/yaml/characters.hpp>

#include <fmt/format.h>

namespace compline::settings {

namespace {

std::string_view checked(std::string_view yaml, const std::string& file) {
    if (yaml.size() > most_bytes) {
        throw SettingsError(file, {{0, 0,
                                    fmt::format("the file is larger than {} bytes: no settings "
                                                "are, is this the right file?",
                                                most_bytes)}});
    }
    return yaml::without_byte_order_mark(yaml);
}

}  // namespace

SettingsText::SettingsText(std::string_view yaml, const std::string& file)
    : file_(file), source_(checked(yaml, file)), problems_(source_), reading_{source_, problems_} {
    yaml::check_characters(source_, problems_);
    auto tree = yaml::read_tree(source_, problems_);
    reading_.complete = tree.complete;
    if (tree.root) root_ = std::move(*tree.root);
}

void SettingsText::refuse_problems() const {
    if (!problems_.empty()) throw SettingsError(file_, problems_.in_order());
}

}  // namespace compline::settings
