#include "meant.hpp"
#include "offer_words.hpp"
#include "rough_search.hpp"

#include <compline/chart/pins.hpp>
#include <compline/chart/transpose.hpp>
#include <compline/practice/offers.hpp>
#include <compline/practice/time_alone.hpp>
#include <compline/text/bad_input.hpp>

#include <algorithm>
#include <array>

namespace compline::practice {

using assess::Verdict;
using time::Seconds;

namespace {

/// From less than these nothing is concluded.
constexpr std::size_t fewest_strums = 8;
/// Nobody plays the wrong thing for longer without noticing; and what is beyond costs time.
constexpr Seconds longest{3600};
/// Strums that are nearer than this are on the grid; see RoughFit::of_time.
constexpr double on_the_grid = 0.42;
/// Guesses that are judged.
constexpr std::size_t most_judged = 3;

RightChanges count_right(const Report& report, bool with_placed) {
    RightChanges count{0, report.assessment.totals.changes};
    for (const auto& change : report.assessment.changes) {
        const bool right = !change.uncertain && change.has_right_tones() && change.cost() == 0 &&
                           change.verdict != Verdict::laid_out;
        if (right && (with_placed || change.verdict != Verdict::placed)) ++count.right;
    }
    return count;
}

std::vector<RoughStrum> strums_of(const Report& report) {
    auto strums = rough_strums(report.heard.notes);
    std::erase_if(strums, [](const RoughStrum& strum) { return strum.at > longest; });
    return strums;
}

bool helps(RightChanges now, RightChanges then) {
    return !then.are_few() && then.right > 0 && then.share() >= 2 * now.share();
}

/// As the option makes it.
chart::Form in_key_asked(const chart::Form& form, int higher) {
    const auto& chart = form.chart;
    const auto& written = chart.written_in.value_or(chart.key);
    const auto key = chart::key_apart(written, semitones_asked(chart, higher));
    return chart::unroll(chart::transposed(chart, key, chart::highest_fret).chart);
}

/// A road map that is long enough for twice the tempo.
roadmap::RoadMap long_map(const roadmap::RoadMap& meant, Seconds last) {
    constexpr double enough = 2.2;
    return meant.first(assess::times_through_in(last * enough + Seconds(10), meant));
}

/// A take that does not fit, and what it might be judged by instead.
class Misfit {
  public:
    Misfit(const chart::Form& form, const Take& take, const ScoreRequest& request,
           const Report& report)
        : form_(form), take_(take), request_(request), report_(report) {}

    [[nodiscard]] std::vector<Hint> offer() {
        const auto strums = strums_of(report_);
        if (strums.size() < fewest_strums) return {};
        const auto meant = what_was_meant(form_, take_, request_).map;
        const auto map = long_map(meant, strums.back().at);
        const RoughFit fit(map);
        const auto first = map.bar(1);
        const RoughSearch search(fit, strums, first.tempo.beat(), first.lasts());
        now_ = count_right(report_, search.in_time() >= on_the_grid);
        if (!now_.are_few()) return {};
        return best_of(guesses(search));
    }

  private:
    [[nodiscard]] std::vector<Guess> guesses(const RoughSearch& search) const {
        constexpr double noticeable = 0.1;
        std::vector<Guess> all = {search.another_key()};
        if (!take_.info) {
            all.push_back(search.half_or_double());
            for (const auto& start : search.other_starts()) all.push_back(start);
            if (const auto tempo = search.slower_or_faster()) all.push_back(*tempo);
        }
        const double now = search.as_it_is() + noticeable;
        std::erase_if(all, [&](const Guess& guess) { return guess.fit < now; });
        return all;
    }

    /// The one by which most is right, and strums lie where they are struck.
    [[nodiscard]] std::vector<Hint> best_of(const std::vector<Guess>& guesses) const {
        std::vector<Hint> best;
        double best_share = 0;
        for (const auto& guess : guesses) {
            auto hint = judged(guess);
            if (!hint) continue;
            const double share = RightChanges{hint->right, hint->of}.share() + guess.likely;
            if (share <= best_share) continue;
            best_share = share;
            best = {*std::move(hint)};
        }
        return best;
    }

    /// Nothing, where it does not help or where it cannot be asked for.
    [[nodiscard]] std::optional<Hint> judged(const Guess& guess) const {
        auto request = request_;
        auto form = form_;
        auto further = Seconds(0);
        try {
            if (guess.kind == HintKind::offset) {
                further = offset_asked(request_, guess.moved.later) - request_.offset;
            } else if (guess.kind == HintKind::tempo) {
                request.tempo = tempo_asked(report_, guess.moved.faster);
            } else {
                form = in_key_asked(form_, guess.moved.semitones);
            }
            const auto report = judged_otherwise(form, take_, request, report_, further);
            const auto then = count_right(report, true);
            if (!helps(now_, then)) return std::nullopt;
            return hint_of(guess, request_, take_, report_, now_, then);
        } catch (const text::BadInput&) {
            return std::nullopt;  // a section's tempo may leave the range, for one
        }
    }

    const chart::Form& form_;
    const Take& take_;
    ScoreRequest request_;
    const Report& report_;
    RightChanges now_;
};

/// All that was played, where a part of it was asked for.
std::vector<Hint> offers_for_whole(const chart::Form& form, const Take& take, ScoreRequest request,
                                   const Report& report) {
    request.passage.reset();
    auto heard = report;
    heard.settings.part.reset();
    return offers(form, take, request, judged_otherwise(form, take, request, heard, Seconds(0)));
}

/// Where even chords that are placed are counted there may be enough.
bool fits(const Report& report) {
    return !count_right(report, false).are_few() || report.assessment.totals.changes == 0;
}

/// Of the first few strums; nothing for a chart that the take cannot have been played to.
std::optional<double> rough_fit_to(const OtherChart& chart, const Take& take,
                                   const ScoreRequest& request,
                                   const std::vector<RoughStrum>& strums) {
    constexpr std::size_t enough = 200;
    const std::span<const RoughStrum> first(strums.data(), std::min(enough, strums.size()));
    try {
        const auto meant = what_was_meant(chart.form, take, request).map;
        const RoughFit fit(long_map(meant, first.back().at));
        return fit.of_tones(first, {}) + fit.of_time(first, {}) / 2;
    } catch (const text::BadInput&) {
        return std::nullopt;
    }
}

}  // namespace

RightChanges right_changes(const Report& report) { return count_right(report, true); }

std::vector<Hint> offers(const chart::Form& form, const Take& take, const ScoreRequest& request,
                         const Report& report) {
    if (!judges_tones(report) || fits(report)) return {};
    if (report.settings.part) return offers_for_whole(form, take, request, report);
    return Misfit(form, take, request, report).offer();
}

std::optional<Hint> offer_among(std::span<const OtherChart> charts, const Take& take,
                                const ScoreRequest& request, const Report& report) {
    const auto strums = strums_of(report);
    const auto now = right_changes(report);
    if (take.info || request.passage || strums.size() < fewest_strums || !now.are_few()) {
        return std::nullopt;
    }
    struct OtherFit {
        const OtherChart* chart;
        double fit;
    };
    std::vector<OtherFit> found;
    for (const auto& chart : charts) {
        if (const auto fit = rough_fit_to(chart, take, request, strums)) {
            found.push_back({&chart, *fit});
        }
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const OtherFit& a, const OtherFit& b) { return a.fit > b.fit; });
    found.resize(std::min(found.size(), most_judged));
    double least = now.share();
    for (const auto& hint : report.hints) least = RightChanges{hint.right, hint.of}.share();
    std::optional<Hint> best;
    for (const auto& [chart, fit] : found) {
        const auto judged = judged_otherwise(chart->form, take, request, report, Seconds(0));
        const auto then = right_changes(judged);
        if (!helps(now, then) || then.share() <= least) continue;
        least = then.share();
        best = hint_of(*chart, now, then);
    }
    return best;
}

}  // namespace compline::practice
