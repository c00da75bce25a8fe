#include "setup_answers.hpp"

#include "guitar_options.hpp"
#include "settings_file.hpp"

#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace compline::app {

namespace {

template <typename All>
auto find_key(All& all, const std::string& key) {
    return std::find_if(all.begin(), all.end(),
                        [&](const settings::Setting& one) { return one.key == key; });
}

std::string usual_guitar(const settings::AllSettings& settings) {
    const auto* const set = settings.find(settings::guitar_key);
    return set == nullptr ? "" : set->value;
}

}  // namespace

SetupAnswers::SetupAnswers(std::string guitar)
    : commands_(all_commands()),
      keys_(settings_keys(commands_)),
      kept_(load_settings(keys_)),
      guitar_(guitar.empty() ? usual_guitar(kept_) : std::move(guitar)),
      names_guitar_(!guitar_.empty() && usual_guitar(kept_).empty()) {}

bool SetupAnswers::is_own(const std::string& key) const {
    const auto& own = keys_.of_guitar;
    return !guitar_.empty() && std::find(own.begin(), own.end(), key) != own.end();
}

std::string SetupAnswers::kept(const std::string& key) const {
    if (const auto* const guitar = kept_.guitar(guitar_)) {
        const auto own = find_key(guitar->settings, key);
        if (own != guitar->settings.end()) return own->value;
    }
    const auto* const of_all = kept_.find(key);
    return of_all == nullptr ? "" : of_all->value;
}

std::string SetupAnswers::now(const std::string& key) const {
    const auto found = find_key(answered_, key);
    return found == answered_.end() ? kept(key) : found->value;
}

void SetupAnswers::set(const std::string& key, const std::string& value, const std::string& usual) {
    if (!value.empty()) refuse_value(commands_, {key, value, "", 0});
    leave(key);
    const auto before = kept(key);
    if (value == (before.empty() ? usual : before)) return;
    answered_.push_back({key, value, "", 0});
}

void SetupAnswers::leave(const std::string& key) {
    const auto found = find_key(answered_, key);
    if (found != answered_.end()) answered_.erase(found);
}

void SetupAnswers::give(const std::string& key, const std::string& value) {
    set(key, value);
    given_.push_back(key);
}

bool SetupAnswers::is_given(const std::string& key) const {
    return std::find(given_.begin(), given_.end(), key) != given_.end();
}

guitar::Fretboard SetupAnswers::fretboard() const {
    GuitarOptions neck;
    neck.tuning = {now("tuning"), "tuning"};
    neck.capo = {now("capo"), "capo"};
    neck.frets = {now("frets"), "frets"};
    return read_fretboard(neck);
}

std::vector<std::string> SetupAnswers::changes() const {
    std::vector<std::string> lines;
    for (const auto& one : answered_) {
        lines.push_back(
            fmt::format("{}{}: {}", text::printable(one.key),
                        is_own(one.key) ? " of " + text::printable(guitar_) : "",
                        one.value.empty() ? "as usual" : text::printable_lines(one.value)));
    }
    return lines;
}

void SetupAnswers::write() {
    const auto path = path_of_settings().string();
    auto text = settings_text();
    bool has_own = kept_.guitar(guitar_) != nullptr;
    for (const auto& one : answered_) {
        has_own = has_own || is_own(one.key);
        text = settings::with_setting(text, path, keys_, is_own(one.key) ? guitar_ : "", one);
    }
    if (names_guitar_ && has_own) {
        text =
            settings::with_setting(text, path, keys_, "", {settings::guitar_key, guitar_, "", 0});
    }
    save_settings(text);
}

}  // namespace compline::app
