#include "accidentals.hpp"
#include "compare.hpp"

#include <compline/files/file_io.hpp>
#include <compline/report/practice_command.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

namespace compline::app {

namespace {

/// An option needs no quotes, what stands behind its "=" may.
std::string typed_word(const std::string& word) {
    constexpr std::string_view dashes = "--";
    if (word.rfind(dashes, 0) != 0 || word == dashes) return report::shell_word(word, "...");
    return std::string(dashes) + report::shell_word(word.substr(dashes.size()), "...");
}

/// What was typed without what chooses a tune.
std::vector<std::string> words_without_tune(const std::vector<std::string>& typed) {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < typed.size(); ++i) {
        const auto name = typed[i].substr(0, typed[i].find('='));
        if (name != "--tune" && name != "--chart") {
            words.push_back(typed_word(typed[i]));
        } else if (name == typed[i]) {
            ++i;  // its value
        }
    }
    return words;
}

bool is_titled(const TuneOfTakes& tune, const std::string& title) {
    return text::same_but_for_capitals(tune.title, title);
}

std::vector<std::string> titles_of(const std::vector<TuneOfTakes>& tunes) {
    std::vector<std::string> titles;
    for (const auto& tune : tunes) {
        auto title = text::printable(tune.title);
        const bool is_new = std::find(titles.begin(), titles.end(), title) == titles.end();
        if (is_new) titles.push_back(std::move(title));
    }
    return titles;
}

}  // namespace

const TuneOfTakes& chosen_tune(const std::vector<TuneOfTakes>& tunes, const TuneFinder& finder,
                               const CompareOptions& options) {
    const auto& given = finder.given();
    const auto first = [&](auto is) {
        const auto found = std::find_if(tunes.begin(), tunes.end(), is);
        return found == tunes.end() ? nullptr : &*found;
    };
    const auto* found =
        given ? first([&](const auto& tune) { return tune.hash == given->hash; })
              : first([&](const auto& tune) { return is_titled(tune, options.tune); });
    if (found == nullptr && !given) {
        found = first(
            [&](const auto& tune) { return text::has_but_for_capitals(tune.title, options.tune); });
    }
    if (found != nullptr) return *found;
    const auto known = "there are takes of " + text::listed(titles_of(tunes));
    if (given) {
        throw BadInput(spoken_name(options.judging.chart), "no take was played to it", known);
    }
    throw BadInput(text::option_place("--tune", options.tune), "no tune has this in its title",
                   known);
}

std::vector<report::OtherTune> other_tunes(const std::vector<TuneOfTakes>& tunes,
                                           const TuneOfTakes& shown,
                                           const CompareOptions& options) {
    std::vector<report::OtherTune> others;
    for (auto tune = tunes.begin(); tune != tunes.end(); ++tune) {
        if (tune->hash == shown.hash) continue;
        // Of one title the most played is chosen by it: others need their chart.
        const bool is_plain = std::none_of(tunes.begin(), tune, [&](const auto& before) {
            return is_titled(before, tune->title);
        });
        auto words = words_without_tune(options.words);
        words.push_back(is_plain ? "--tune " + report::shell_word(tune->title, "TITLE")
                                 : "--chart CHART");
        others.push_back({tune->title, static_cast<int>(tune->takes.size()), std::move(words),
                          is_titled(shown, tune->title)});
    }
    return others;
}

BadInput nothing_to_compare(const std::string& folder, const TuneOfTakes& tune) {
    return {files::name_of(folder),
            fmt::format("no take of {} in it can be compared", text::printable(tune.title)), ""};
}

Status compare_over_time(const CompareOptions& options) {
    const auto& folder = options.takes.front();
    const TuneFinder finder(options.judging);
    const auto found = finder.in_folder(folder);
    if (found.tunes.empty()) {
        throw BadInput(files::name_of(folder), "no take in it can be compared", "");
    }
    const auto& tune = chosen_tune(found.tunes, finder, options);
    const bool tones_too = std::none_of(tune.takes.begin(), tune.takes.end(),
                                        [](const auto& take) { return take.by_sound; });
    std::vector<practice::TakeInPlaces> takes;
    const auto status = finder.judge_all(tune, [&](const practice::Report& report) {
        takes.push_back(practice::in_places(report, tones_too));
    });
    if (takes.empty()) throw nothing_to_compare(folder, tune);
    const auto over = practice::over_time(std::move(takes));
    const auto others = other_tunes(found.tunes, tune, options);
    if (options.json) {
        fmt::print("{}", report::to_json(over, others));
    } else {
        print_words(report::to_text(over, others, options.listing()));
    }
    return found.status == Status::done ? status : found.status;
}

}  // namespace compline::app
