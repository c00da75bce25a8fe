#include "folder_tunes.hpp"

#include "take_folder.hpp"
#include "take_input.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/chart/pins.hpp>
#include <compline/chart/transpose.hpp>
#include <compline/files/file_io.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace compline::app {

namespace {

/// In the key that it is written in.
TuneOfTakes tune_of(chart::Chart chart) {
    if (chart.written_in) {
        const auto own = *chart.written_in;
        chart = chart::transposed(std::move(chart), own, chart::highest_fret).chart;
    }
    const auto hash = chart::chart_hash(chart);
    const auto title = chart.title;
    return {hash, title, chart::unroll(std::move(chart)), {}};
}

bool is_same_tune(const TuneOfTakes& a, const TuneOfTakes& b) { return a.hash == b.hash; }

void put(TuneOfTakes one, std::vector<TuneOfTakes>& tunes) {
    const auto same = std::find_if(tunes.begin(), tunes.end(),
                                   [&](const auto& tune) { return is_same_tune(tune, one); });
    if (same == tunes.end()) {
        tunes.push_back(std::move(one));
    } else {
        same->takes.push_back(one.takes.front());
    }
}

}  // namespace

TuneFinder::TuneFinder(const JudgingOptions& options) : options_(options), judging_(options) {
    if (const auto& form = judging_.given_chart()) given_ = tune_of(form->chart);
}

TuneOfTakes TuneFinder::look_at(const std::string& path) const {
    const auto texts =
        options_.notes_alone ? practice::TakeTexts::ignored : practice::TakeTexts::read;
    const auto take = read_take_file(path, texts).take;
    const auto of_given = [&](LookedAt looked) {
        auto tune = *given_;
        tune.takes = {std::move(looked)};
        return tune;
    };
    if (!take.info && given_) return of_given({path, false, {}});
    if (!take.info || (take.info->version == 1 && !given_)) {
        (void)form_of(take, path, "say by --chart what it was played to");  // which it refuses
    }
    const auto& info = *take.info;
    LookedAt looked{path, info.heard == practice::HeardBy::sound, {}};
    const auto name = files::name_of(path);
    if (info.version == 1) {
        const auto asked = chart::chart_hash(judging_.given_chart()->chart);
        if (info.chart_hash == asked || info.chart_hash == given_->hash) return of_given(looked);
        throw BadInput(name, "it was played to other changes than those of this chart", "");
    }
    auto tune = tune_of(chart::read_chart(info.chart_text, name + ", its chart"));
    if (!options_.bars.empty()) looked.played = practice::bars_said(info, tune.form);
    if (given_ && (is_same_tune(tune, *given_) || tune.title == given_->title)) {
        return of_given(looked);
    }
    tune.takes = {std::move(looked)};
    return tune;
}

FoundTunes TuneFinder::in_folder(const std::string& folder) const {
    FoundTunes found;
    for (const auto& path : takes_in(folder)) {
        attempt(found.status, [&] { put(look_at(path), found.tunes); });
    }
    std::stable_sort(found.tunes.begin(), found.tunes.end(),
                     [](const auto& a, const auto& b) { return a.takes.size() > b.takes.size(); });
    return found;
}

FoundTunes TuneFinder::of_take(const std::string& path) const {
    FoundTunes found;
    found.tunes.push_back(given_ ? *given_ : look_at(path));
    if (given_) found.tunes.front().takes.push_back({path, false, {}});
    return found;
}

bool TuneFinder::has_bars(const TuneOfTakes& tune, const LookedAt& take) const {
    const auto asked = read_bars(tune.form, options_.bars);
    if (!asked || !take.played) return true;
    return take.played->from <= asked->from && asked->to <= take.played->to;
}

Status TuneFinder::judge_all(const TuneOfTakes& tune,
                             const std::function<void(practice::Report)>& take_in) const {
    auto status = Status::done;
    for (const auto& take : tune.takes) {
        if (!has_bars(tune, take)) {
            say(fmt::format("{}: only bars {}-{} were played: it is left out",
                            files::name_of(take.path), take.played->from, take.played->to));
            continue;
        }
        attempt(status, [&] {
            auto report = judge(take.path);
            if (report.heard.notes.empty()) return;  // which was said
            if (report.hints.empty()) return take_in(std::move(report));
            say(fmt::format("{}: it hardly fits and is left out. {}", files::name_of(take.path),
                            report.hints.front().words));
        });
    }
    return status;
}

}  // namespace compline::app
