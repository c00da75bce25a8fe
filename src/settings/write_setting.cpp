#include "settings_text.hpp"

#include <compline/settings/settings.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/yaml/in_quotes.hpp>
#include <compline/yaml/text_lines.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <optional>

namespace compline::settings {

namespace {

using yaml::Entry;
using yaml::TreeNode;
using Kind = TreeNode::Kind;

constexpr std::size_t indentation = 2;

const Entry* entry_of(const TreeNode& map, std::string_view key) {
    const auto found = std::find_if(map.entries.begin(), map.entries.end(),
                                    [&](const Entry& one) { return one.key.text == key; });
    return found == map.entries.end() ? nullptr : &*found;
}

/// Letters, digits and blanks between them are safe as they are; the rest goes into quotes.
std::string as_value(const std::string& text) {
    const auto is_safe = [](char c) {
        return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == ' ' || c == '.' ||
               c == '-' || c == '_';
    };
    const auto digit_at = [&](std::size_t at) {
        return at < text.size() && std::isdigit(static_cast<unsigned char>(text[at])) != 0;
    };
    const bool begins_well =
        !text.empty() && (std::isalnum(static_cast<unsigned char>(text.front())) != 0 ||
                          (text.front() == '-' && digit_at(1)));
    const bool plain =
        begins_well && std::all_of(text.begin(), text.end(), is_safe) && text.back() != ' ';
    // What YAML takes for nothing.
    const bool is_nothing = text == "null" || text == "Null" || text == "NULL";
    return plain && !is_nothing ? text : yaml::in_quotes(text);
}

/// A file's text on its way to another.
class TextChange {
  public:
    explicit TextChange(const SettingsText& text)
        : source_(text.source()), text_(text.source().in_file()) {}

    void replace(const TreeNode& value, const std::string& by) {
        text_.replace(value.offset, end_of(value) - value.offset, as_value(by));
    }

    void take_out(const TreeNode& map, const Entry& entry) {
        if (map.flow) refuse_by_hand(entry.key);
        const auto line = source_.line_index(entry.key.offset);
        const auto start = source_.line_start(line);
        text_.erase(start, start_of_line(line + 1) - start);
    }

    /// At the end of a map, which has an entry or more; but before one of its keys, at the top.
    void add(const TreeNode& map, const std::string& key, const std::string& value,
             std::string_view before = "") {
        const auto written = fmt::format("{}: {}", as_value(key), value);
        if (map.flow) {
            text_.insert(map.entries.front().key.offset, written + ", ");
            return;
        }
        const auto column = source_.place(map.entries.front().key.offset).column - 1;
        const auto line = line_behind(map, before);
        insert_line(line, std::string(static_cast<std::size_t>(column), ' ') + written);
    }

    /// The first entry of a map that is a key without a value.
    void begin(const TreeNode& key, const std::string& name, const std::string& value) {
        const auto [line, column] = source_.place(key.offset);
        const auto indent = static_cast<std::size_t>(column - 1) + indentation;
        insert_line(static_cast<std::size_t>(line),
                    std::string(indent, ' ') + fmt::format("{}: {}", as_value(name), value));
    }

    void append(const std::string& lines) {
        if (!text_.empty() && text_.back() != '\n') text_ += '\n';
        text_ += lines + '\n';
    }

    [[nodiscard]] const std::string& text() const { return text_; }

  private:
    [[noreturn]] void refuse_by_hand(const TreeNode& node) const {
        throw text::BadInput(fmt::format("line {}", source_.place(node.offset).line),
                             "it is written so that it can only be changed by hand", "");
    }

    [[nodiscard]] std::size_t end_of(const TreeNode& value) const {
        if (yaml::scalar_form(value, source_) != yaml::ScalarForm::as_it_stands) {
            refuse_by_hand(value);
        }
        if (value.plain) return value.offset + value.text.size();
        const char quote = text_[value.offset];
        auto at = value.offset + 1;
        while (at < text_.size()) {
            const bool doubled = quote == '\'' && text_.substr(at, 2) == "''";
            if (doubled || text_[at] == '\\') {
                at += quote == '"' || doubled ? 2 : 1;
            } else if (text_[at++] == quote) {
                return at;
            }
        }
        refuse_by_hand(value);
    }

    [[nodiscard]] std::size_t start_of_line(std::size_t index) const {
        return index < source_.lines() ? source_.line_start(index) : text_.size();
    }

    [[nodiscard]] std::size_t last_line(const TreeNode& node) const {
        auto last = source_.line_index(node.offset);
        for (const auto& [key, value] : node.entries) {
            last = std::max({last, source_.line_index(key.offset), last_line(value)});
        }
        return last;
    }

    /// Index of the line behind a map's entries, or behind those before a key.
    [[nodiscard]] std::size_t line_behind(const TreeNode& map, std::string_view before) const {
        std::optional<std::size_t> behind;
        for (const auto& [key, value] : map.entries) {
            if (key.text == before) continue;
            behind = std::max({behind.value_or(0), source_.line_index(key.offset),
                               value.kind == Kind::nothing ? 0 : last_line(value)});
        }
        if (behind) return *behind + 1;
        return source_.line_index(map.entries.front().key.offset);
    }

    void insert_line(std::size_t index, const std::string& line) {
        const auto at = start_of_line(index);
        const bool open = at == text_.size() && !text_.empty() && text_.back() != '\n';
        text_.insert(at, (open ? "\n" : "") + line + "\n");
    }

    const yaml::SourceText& source_;
    std::string text_;
};

void change_top(TextChange& change, const TreeNode& root, const Setting& changed) {
    if (const auto* const entry = entry_of(root, changed.key)) {
        if (changed.value.empty()) {
            change.take_out(root, *entry);
        } else {
            change.replace(entry->value, changed.value);
        }
    } else if (changed.value.empty()) {
        return;
    } else if (root.entries.empty()) {
        change.append(fmt::format("{}: {}", changed.key, as_value(changed.value)));
    } else {
        change.add(root, changed.key, as_value(changed.value), guitars_key);
    }
}

void change_guitar(TextChange& change, const TreeNode& root, const std::string& name,
                   const Setting& changed) {
    const auto value = as_value(changed.value);
    const auto* const guitars = entry_of(root, guitars_key);
    const auto* const guitar = guitars == nullptr ? nullptr : entry_of(guitars->value, name);
    const auto* const entry = guitar == nullptr ? nullptr : entry_of(guitar->value, changed.key);
    if (entry != nullptr && changed.value.empty()) {
        change.take_out(guitar->value, *entry);
    } else if (entry != nullptr) {
        change.replace(entry->value, changed.value);
    } else if (changed.value.empty()) {
        return;
    } else if (guitars == nullptr) {
        change.append(
            fmt::format("{}:\n  {}:\n    {}: {}", guitars_key, as_value(name), changed.key, value));
    } else if (guitars->value.entries.empty()) {
        change.begin(guitars->key, name, fmt::format("{{{}: {}}}", changed.key, value));
    } else if (guitar == nullptr) {
        change.add(guitars->value, name, fmt::format("{{{}: {}}}", changed.key, value));
    } else if (guitar->value.entries.empty()) {
        change.begin(guitar->key, changed.key, value);
    } else {
        change.add(guitar->value, changed.key, value);
    }
}

void put(std::vector<Setting>& settings, const Setting& changed) {
    const auto same = [&](const Setting& one) { return one.key == changed.key; };
    const auto found = std::find_if(settings.begin(), settings.end(), same);
    if (changed.value.empty()) {
        settings.erase(std::remove_if(settings.begin(), settings.end(), same), settings.end());
    } else if (found != settings.end()) {
        found->value = changed.value;
    } else {
        settings.push_back(changed);
    }
}

/// What the file is to say.
AllSettings wanted(AllSettings settings, const std::string& guitar, const Setting& changed) {
    if (guitar.empty()) {
        put(settings.all, changed);
        return settings;
    }
    const auto found = std::find_if(settings.guitars.begin(), settings.guitars.end(),
                                    [&](const OwnGuitar& one) { return one.name == guitar; });
    if (found == settings.guitars.end()) {
        if (!changed.value.empty()) settings.guitars.push_back({guitar, "", "", {}});
    }
    for (auto& one : settings.guitars) {
        if (one.name != guitar) continue;
        if (changed.key == port_key) {
            one.port = changed.value;
        } else {
            put(one.settings, changed);
        }
    }
    return settings;
}

bool same(std::vector<Setting> a, std::vector<Setting> b) {
    const auto by_key = [](const Setting& x, const Setting& y) { return x.key < y.key; };
    std::sort(a.begin(), a.end(), by_key);
    std::sort(b.begin(), b.end(), by_key);
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const auto& x, const auto& y) {
        return x.key == y.key && x.value == y.value;
    });
}

/// Whatever their order: a new one may stand first.
bool says_the_same(const AllSettings& a, const AllSettings& b) {
    if (!same(a.all, b.all) || a.guitars.size() != b.guitars.size()) return false;
    return std::all_of(a.guitars.begin(), a.guitars.end(), [&](const OwnGuitar& one) {
        const auto* const other = b.guitar(one.name);
        return other != nullptr && other->port == one.port && same(other->settings, one.settings);
    });
}

}  // namespace

std::string with_setting(std::string_view yaml, const std::string& file, const KnownKeys& keys,
                         const std::string& guitar, const Setting& changed) {
    const auto meant = wanted(read_settings(yaml, file, keys), guitar, changed);
    const SettingsText text(yaml, file);
    TextChange change(text);
    text::read_at(file, [&] {
        if (guitar.empty()) {
            change_top(change, text.root(), changed);
        } else {
            change_guitar(change, text.root(), guitar, changed);
        }
    });
    // However the file is written: what comes of it is what was meant, or nothing is changed.
    const auto got = read_settings(change.text(), file, keys);
    if (!says_the_same(got, meant)) {
        throw text::BadInput(
            file, "it is written so that it can only be changed by hand",
            fmt::format("write {}: {} into it", changed.key, as_value(changed.value)));
    }
    return change.text();
}

}  // namespace compline::settings
