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

/// As a shell takes it, with its value behind it where that is another word.
std::string spoken_option(const std::string& word) {
    const bool is_option = word.size() > 1 && word.front() == '-';
    return is_option ? word : report::shell_word(word, "...");
}

/// What was typed without what chooses a tune.
std::vector<std::string> words_without_tune(const std::vector<std::string>& typed) {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < typed.size(); ++i) {
        const auto name = typed[i].substr(0, typed[i].find('='));
        if (name != "--tune" && name != "--chart") {
            words.push_back(spoken_option(typed[i]));
        } else if (name == typed[i]) {
            ++i;  // its value
        }
    }
    return words;
}

std::vector<std::string> titles_of(const std::vector<TuneOfTakes>& tunes) {
    std::vector<std::string> titles;
    for (const auto& tune : tunes) titles.push_back(text::printable(tune.title));
    return titles;
}

}  // namespace

const TuneOfTakes& chosen_tune(const std::vector<TuneOfTakes>& tunes, const TuneFinder& finder,
                               const CompareOptions& options) {
    const auto& given = finder.given();
    const auto asked = std::find_if(tunes.begin(), tunes.end(), [&](const TuneOfTakes& tune) {
        return given ? tune.hash == given->hash
                     : text::has_but_for_capitals(tune.title, options.tune);
    });
    if (asked != tunes.end()) return *asked;
    const auto what = given ? options.judging.chart : text::option_place("--tune", options.tune);
    throw BadInput(what, "no take was played to it",
                   "there are takes of " + text::listed(titles_of(tunes)));
}

std::vector<report::OtherTune> other_tunes(const std::vector<TuneOfTakes>& tunes,
                                           const TuneOfTakes& shown,
                                           const CompareOptions& options) {
    std::vector<report::OtherTune> others;
    std::vector<std::string> known{shown.title};
    for (const auto& tune : tunes) {
        if (tune.hash == shown.hash) continue;
        auto words = words_without_tune(options.words);
        words.push_back("--tune " + report::shell_word(tune.title, "TITLE"));
        // A title that another one holds chooses that one: only its chart can tell them apart.
        const bool is_plain = std::none_of(known.begin(), known.end(), [&](const auto& title) {
            return text::has_but_for_capitals(title, tune.title);
        });
        if (!is_plain) words.back() = "--chart CHART";
        others.push_back({tune.title, static_cast<int>(tune.takes.size()), std::move(words)});
        known.push_back(tune.title);
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
