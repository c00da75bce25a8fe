// How the guitar of the band comps, counted over our charts and many seeds.

#include "support/catch.hpp"
#include "support/forms.hpp"
#include "support/our_forms.hpp"

#include <compline/band/comping.hpp>

#include <algorithm>
#include <map>
#include <optional>
#include <set>

using namespace compline;
using band::CompBar;
using band::CompStrum;
using chart::Feel;
using time::eighth_note;
using time::Ticks;

namespace {

constexpr int seeds = 40;

std::vector<CompBar> bars_of(const chart::Form& form, std::optional<Feel> feel = std::nullopt) {
    std::vector<CompBar> bars;
    for (const auto& bar : form.bars) {
        const auto own = bar.manner.feel.value_or(Feel::swing);
        bars.push_back({bar.start, bar.bar_in_section - 1, feel.value_or(own), {}, bar.kicks});
        for (const auto& span : form.spans_of({bar.number, bar.number})) {
            bars.back().slots.push_back({span.start, span.length, span.chord});
        }
    }
    return bars;
}

chart::Form form_of(const std::vector<std::string>& bars, int beats = 4) {
    return tests::make_form(time::Meter(beats), time::Bpm(132), bars);
}

/// A part, and what it was played to.
struct Played {
    std::vector<CompBar> bars;
    time::Meter meter;
    std::vector<CompStrum> strums;

    [[nodiscard]] Ticks line(std::size_t bar) const {
        return meter.bar() * static_cast<std::int64_t>(bar);
    }
    /// Eighths of a bar on which something is struck.
    [[nodiscard]] std::vector<int> struck(std::size_t bar) const {
        std::vector<int> found;
        for (const auto& strum : strums) {
            const bool here = strum.at >= line(bar) && strum.at < line(bar + 1);
            if (here) found.push_back(static_cast<int>((strum.at - line(bar)) / eighth_note));
        }
        return found;
    }
    /// Another chord starts with a bar, and neither side is N.C.
    [[nodiscard]] bool changes_into(std::size_t bar) const {
        if (bar == 0) return false;
        const auto& before = bars[bar - 1].slots.back().chord;
        const auto& here = bars[bar].slots.front().chord;
        return before && here && !(*before == *here);
    }
    [[nodiscard]] bool is_pushed(std::size_t bar) const {
        return std::any_of(strums.begin(), strums.end(), [&](const CompStrum& strum) {
            return strum.at == line(bar) - eighth_note && strum.in_form == bars[bar].start;
        });
    }
};

Played play(const chart::Form& form, std::uint64_t seed, std::optional<Feel> feel = std::nullopt) {
    auto bars = bars_of(form, feel);
    auto strums = band::comp(bars, form.chart.meter, seed);
    return {std::move(bars), form.chart.meter, std::move(strums)};
}

template <typename Check>
void for_all(const Check& check, std::optional<Feel> feel = std::nullopt) {
    for (const auto& form : tests::our_forms()) {
        for (std::uint64_t seed = 0; seed < seeds; ++seed) {
            CAPTURE(form.chart.title, seed);
            check(play(form, seed, feel));
        }
    }
}

bool is_off_beat(const CompStrum& strum) { return strum.at % time::quarter_note != Ticks(0); }

}  // namespace

TEST_CASE("about a third of the changes over bar lines are pushed, as whole chords") {
    std::map<bool, int> changes;  // in a ballad or not
    std::map<bool, int> pushes;
    for_all([&](const Played& played) {
        const bool ballad = played.bars.front().feel == Feel::ballad;
        for (std::size_t bar = 0; bar < played.bars.size(); ++bar) {
            if (!played.changes_into(bar)) continue;
            ++changes[ballad];
            if (!played.is_pushed(bar)) continue;
            ++pushes[ballad];
            // The old chord had two beats at least, and 1 is left to the push.
            CHECK(played.bars[bar - 1].slots.back().length >= time::quarter_note * 2);
            const auto struck = played.struck(bar);
            CHECK((struck.empty() || struck.front() > 0));
        }
    });
    CAPTURE(changes[false], pushes[false]);
    CHECK(pushes[false] * 100 >= changes[false] * 30);
    CHECK(pushes[false] * 100 <= changes[false] * 40);
    const int all = changes[false] + changes[true];
    CHECK(all > 5000);
    CHECK(pushes[false] * 100 >= all * 25);
    CHECK(pushes[true] == 0);
}

TEST_CASE("one bar in eight or so is left empty, and only where that blurs nothing") {
    int bars = 0;
    int empty = 0;
    for_all([&](const Played& played) {
        bool before = false;
        for (std::size_t bar = 0; bar < played.bars.size(); ++bar) {
            const bool here = played.struck(bar).empty();
            ++bars;
            empty += here ? 1 : 0;
            if (!here) {
                before = false;
                continue;
            }
            CHECK(bar > 0);
            CHECK(bar + 1 < played.bars.size());
            CHECK_FALSE(before);
            CHECK(played.bars[bar].slots.size() == 1);
            before = true;
        }
    });
    CAPTURE(bars, empty);
    CHECK(empty * 100 >= bars * 8);
    CHECK(empty * 100 <= bars * 16);
}

TEST_CASE("every chord outside the empty bars is heard, in its own time or pushed into it") {
    for (const auto feel : {std::optional<Feel>(), std::optional(Feel::swing),
                            std::optional(Feel::bossa), std::optional(Feel::ballad)}) {
        for_all(
            [&](const Played& played) {
                for (std::size_t bar = 0; bar < played.bars.size(); ++bar) {
                    if (played.struck(bar).empty()) continue;
                    for (const auto& slot : played.bars[bar].slots) {
                        const Ticks from = played.bars[bar].start + slot.start;
                        const auto its_own = [&](const CompStrum& strum) {
                            return strum.in_form >= from && strum.in_form < from + slot.length;
                        };
                        CAPTURE(bar);
                        CHECK(std::any_of(played.strums.begin(), played.strums.end(), its_own));
                    }
                }
            },
            feel);
    }
}

TEST_CASE("a tune begins on 1, and so does what follows a rest") {
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        const auto played = play(form_of({"F7", "N.C.", "Bb7", "F7"}), seed);
        CHECK(played.strums.front().at == Ticks(0));
        CHECK(played.struck(1).empty());
        CHECK(played.struck(2).front() == 0);
    }
}

TEST_CASE("off-beats are louder and shorter, and there are three loudnesses") {
    std::map<Feel, std::set<int>> loudnesses;
    for_all([&](const Played& played) {
        for (std::size_t i = 0; i < played.strums.size(); ++i) {
            const auto& strum = played.strums[i];
            if (strum.velocity == band::comp_kick) continue;
            loudnesses[played.bars.front().feel].insert(strum.velocity);
            CHECK((strum.velocity == band::comp_strong) == is_off_beat(strum));
            if (is_off_beat(strum)) CHECK(strum.length <= Ticks(600));
            const Ticks next =
                i + 1 < played.strums.size() ? played.strums[i + 1].at : Ticks(1'000'000);
            const bool is_cut = strum.at + strum.length == next;
            if (!is_off_beat(strum) && !is_cut) CHECK(strum.length > Ticks(600));
        }
    });
    CHECK(loudnesses[Feel::swing].size() == 3);
    CHECK(loudnesses[Feel::bossa].size() == 3);
    CHECK(loudnesses[Feel::ballad].size() == 2);  // no off-beats there
}

TEST_CASE("a chord that comes in on the beat is louder than one that is struck again") {
    for_all([&](const Played& played) {
        std::set<Ticks> heard;  // changes
        for (const auto& strum : played.strums) {
            std::size_t bar = 0;
            while (bar + 1 < played.bars.size() && played.bars[bar + 1].start <= strum.in_form)
                ++bar;
            Ticks from = played.bars[bar].start;
            for (const auto& slot : played.bars[bar].slots) {
                if (played.bars[bar].start + slot.start > strum.in_form) break;
                from = played.bars[bar].start + slot.start;
            }
            while (from == played.bars[bar].start && bar > 0 && !played.changes_into(bar)) {
                --bar;
                from = played.bars[bar].start + played.bars[bar].slots.back().start;
            }
            const bool comes_in = heard.insert(from).second;
            if (is_off_beat(strum) || strum.velocity == band::comp_kick) continue;
            CHECK(strum.velocity == (comes_in ? band::comp_usual : band::comp_soft));
        }
    });
}

TEST_CASE("a cell of two bars stays for a phrase or is answered, and the next phrase has another") {
    using Cell = std::pair<std::vector<int>, std::vector<int>>;
    std::set<Cell> cells;
    int phrases = 0;
    int stays = 0;
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
        const auto played = play(form_of(std::vector<std::string>(16, "F7")), seed);
        const auto cell = [&](std::size_t bar) {
            return Cell{played.struck(bar), played.struck(bar + 1)};
        };
        const auto is_whole = [&](const Cell& one) {
            return !one.first.empty() && !one.second.empty();
        };
        for (const std::size_t bar : {4U, 8U}) {
            const auto asks = cell(bar);
            const auto answers = cell(bar + 2);
            const auto next = cell(bar + 4);
            if (!is_whole(asks) || !is_whole(answers) || !is_whole(next)) continue;
            cells.insert(asks);
            ++phrases;
            stays += asks == answers ? 1 : 0;
            CHECK(asks != next);
        }
    }
    CHECK(cells.size() >= 8);
    CHECK(stays > phrases / 4);
    CHECK(stays < phrases * 3 / 4);
}

TEST_CASE("the same seed comps the same, another another, in every chart but those all long") {
    for (const auto& form : tests::our_forms()) {
        const auto one = play(form, 1).strums;
        CHECK(play(form, 1).strums == one);
        CHECK(play(form, 2).strums != one);
    }
}

TEST_CASE("in a bossa the guitar has the two bars of the cross-stick, and variants") {
    std::map<std::vector<int>, int> bars;
    int all = 0;
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
        const auto played = play(form_of(std::vector<std::string>(16, "F6")), seed, Feel::bossa);
        for (std::size_t bar = 1; bar < 16; ++bar, ++all) ++bars[played.struck(bar)];
    }
    const int own = bars[{0, 3, 6}] + bars[{2, 5}];
    CAPTURE(own, all);
    CHECK(own * 100 > all * 60);
    CHECK(bars.size() > 4);
}

TEST_CASE("no strum rings into the next, into another chord or into N.C., in any meter") {
    const std::vector<std::string> four = {"Dm7",          "G7 Db7",         "C6", "%", "N.C.",
                                           "A7 / /&! D7!", "F6! /&! N.C. F6"};
    const std::vector<std::string> three = {"Dm7", "G7 / Db7", "C6 A7 D7", "N.C.", "G7", "%"};
    const std::vector<std::string> five = {"Dm7", "G7 Db7", "C6 / / A7 D7", "N.C.", "G7", "%"};
    const std::map<int, std::vector<std::string>> forms = {
        {3, three}, {4, four}, {5, five}, {6, {"Dm7", "G7 Db7", "C6 A7 D7", "N.C.", "G7", "%"}}};
    for (const auto& [beats, bars] : forms) {
        const auto form = form_of(bars, beats);
        for (const auto feel : {Feel::swing, Feel::straight, Feel::bossa, Feel::ballad}) {
            for (std::uint64_t seed = 0; seed < seeds; ++seed) {
                const auto played = play(form, seed, feel);
                for (std::size_t i = 0; i < played.strums.size(); ++i) {
                    const auto& strum = played.strums[i];
                    const Ticks end = strum.at + strum.length;
                    CAPTURE(beats, seed, strum.at.count());
                    CHECK(strum.length > Ticks(0));
                    if (i + 1 < played.strums.size()) CHECK(end <= played.strums[i + 1].at);
                    // A push goes on until its own chord ends, everything else does, too.
                    for (const auto& span : form.spans) {
                        const bool its_own =
                            span.start <= strum.in_form && strum.in_form < span.start + span.length;
                        if (!its_own) continue;
                        CHECK(span.chord);
                        CHECK(end <= span.start + span.length);
                        CHECK(strum.at >= span.start - eighth_note);
                    }
                }
            }
        }
    }
}

TEST_CASE("where the guitar lays out nothing is struck, pushed in or pushed out") {
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        auto bars = bars_of(form_of({"Dm7", "G7", "C6", "A7", "Dm7", "G7", "C6", "A7"}));
        bars[2].lays_out = bars[3].lays_out = true;
        const time::Meter meter(4);
        const Played played{bars, meter, band::comp(bars, meter, seed)};
        CHECK(played.struck(2).empty());
        CHECK(played.struck(3).empty());
        CHECK_FALSE(played.is_pushed(2));
        CHECK_FALSE(played.is_pushed(4));
        CHECK(played.struck(4).front() == 0);
    }
}
