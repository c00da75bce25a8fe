#include "change_words.hpp"

#include "words.hpp"

#include <compline/report/report.hpp>
#include <compline/time/beat_name.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>

namespace compline::report {

using assess::Change;
using assess::Tones;
using assess::Verdict;

bool heard_nothing(const assess::Assessment& assessment) {
    return assessment.strums.empty() && assessment.time.all.count == 0;
}

bool was_struck(const Change& change) {
    return change.verdict != Verdict::held && change.verdict != Verdict::laid_out &&
           change.verdict != Verdict::missed;
}

std::string_view laid_out_words(listen::HeardBy heard_by) {
    return heard_by == listen::HeardBy::sound ? "not struck" : "laid out";
}

namespace {

/// The meters from the bar of a change on, in the order of playing: a loop goes back, a road map
/// jumps. Where nothing more is played, as the form goes on, after its last bar with the first.
class MetersFrom {
  public:
    MetersFrom(const Change& change, const roadmap::RoadMap& map) : map_(map), bar_(change.bar) {
        if (change.time_through > map.times_through().value_or(change.time_through)) return;
        const auto first = map.first_bar(change.time_through);
        const auto number = first + change.bar - map.bar(first).in_form();
        if (is_played(number) && map.bar(number).in_form() == change.bar) number_ = number;
    }

    [[nodiscard]] time::Meter meter() const {
        return number_ > 0 ? map_.bar(number_).meter() : map_.form().bar(bar_).meter;
    }
    void go_on() {
        if (number_ > 0 && is_played(number_ + 1)) {
            bar_ = map_.bar(++number_).in_form();
        } else {
            number_ = 0;
            bar_ = bar_ % static_cast<int>(map_.form().bars.size()) + 1;
        }
    }

  private:
    [[nodiscard]] bool is_played(std::int64_t number) const {
        return number >= 1 && number <= map_.bars().value_or(number);
    }

    const roadmap::RoadMap& map_;
    int bar_;                  ///< of the form
    std::int64_t number_ = 0;  ///< in the order of playing; 0: nothing is played there any more
};

/// Of the bar that was played before; before the first as that is.
time::Meter meter_before(const Change& change, const roadmap::RoadMap& map) {
    const int bar = change.bar > 1 ? change.bar - 1 : change.bar;
    if (change.time_through > map.times_through().value_or(change.time_through)) {
        return map.form().bar(bar).meter;
    }
    const auto first = map.first_bar(change.time_through);
    const auto number = first + change.bar - map.bar(first).in_form();
    return number > 1 ? map.bar(number - 1).meter() : map.form().bar(change.bar).meter;
}

}  // namespace

LandedOn landed_on(const Change& change, const roadmap::RoadMap& map) {
    const double beats = change.beat.from_bar_line().count() + change.beats_in.value_or(0);
    LandedOn there{
        time::Ticks(std::llround(beats * static_cast<double>(time::quarter_note.count())))};
    if (there.in_bar < time::Ticks(0)) return {there.in_bar + meter_before(change, map).bar(), -1};
    for (MetersFrom bar(change, map); there.in_bar >= bar.meter().bar(); bar.go_on()) {
        there.in_bar -= bar.meter().bar();
        ++there.bars_on;
    }
    return there;
}

std::string landed_on_words(const Change& change, const roadmap::RoadMap& map) {
    const auto [in_bar, bars_on] = landed_on(change, map);
    auto beat = time::beat_name(in_bar);
    if (bars_on <= 0) return beat;
    return beat + (bars_on == 1 ? " of the next bar" : fmt::format(", {} bars on", bars_on));
}

std::string wait_words(const Change& change, const roadmap::RoadMap& map, HowOften how_often) {
    return fmt::format("in on {}{}; its neighbours where they are due",
                       landed_on_words(change, map), how_often.in_words(", "));
}

std::string HowOften::in_words(const char* before) const {
    return of > 1 ? fmt::format("{}{} of {} times", before, cases, of) : std::string();
}

std::string place_of(const Change& change, bool with_time_through) {
    std::string text;
    if (with_time_through) text += fmt::format("{} time  ", ordinal(change.time_through));
    text += fmt::format("bar {}", change.bar);
    if (change.beat != time::BeatOfBar(1))
        text += fmt::format(" beat {}", plain(change.beat.number()));
    return text;
}

std::string move_of(const Change& change) {
    if (!change.from) return change.to.symbol();
    return fmt::format("{} → {}", change.from->symbol(), change.to.symbol());
}

std::string remark_on(const Change& change) {
    return std::string(change.seam ? "  (the loop's seam)" : "") +
           (change.unheard     ? "  (uncertain: the cable was out)"
            : change.uncertain ? "  (uncertain: sound broke off)"
                               : "");
}

namespace {

/// Where that is not the chord's own beat, the beat or off-beat it was nearest to is named.
std::string early_or_late_words(const Change& change, const roadmap::RoadMap& map) {
    const double ms = change.lateness ? std::round(change.lateness->milliseconds()) : 0;
    const double beats_in = change.beats_in.value_or(0);
    const auto name = assess::name_of(change.verdict);
    if (beats_in == 0) return fmt::format("{} {:.0f} ms", name, std::fabs(ms));
    const auto where = fmt::format("{:.0f} ms {} {}", std::fabs(ms), ms < 0 ? "before" : "after",
                                   landed_on_words(change, map));
    const bool late_push = change.verdict == Verdict::early && beats_in < 0 && ms > 0;
    return late_push ? fmt::format("early: a late push, {}", where)
                     : fmt::format("{}, {}", name, where);
}

}  // namespace

std::string timing_words(const Change& change, const roadmap::RoadMap& map) {
    if (change.wait) return wait_words(change, map, {});
    if (change.left_out) return "left out";
    switch (change.verdict) {
        case Verdict::early:
        case Verdict::late:
            return early_or_late_words(change, map);
        case Verdict::missed:
            return change.unheard ? "not heard" : "missed";
        case Verdict::astray:
            return change.meant ? "astray: meant for " + change.meant->symbol() : "astray";
        default:
            return "";
    }
}

namespace {

std::string wrong_words(const Change& change, const assess::WrongTone& wrong) {
    const auto name = wrong.spelling.name();
    std::string text = change.to.symbol() + "  ";
    if (wrong.string && wrong.fret) {
        text += fmt::format("string {} fret {}: ", *wrong.string, *wrong.fret);
    }
    text += fmt::format("{} is not in {}", name, change.to.symbol());
    if (wrong.stuck_finger) text += fmt::format(", it stayed from {}", change.from->symbol());
    if (wrong.nearest_fret) {
        text += fmt::format(", fret {} gives {}", *wrong.nearest_fret, wrong.nearest.name());
    }
    return text;
}

std::string missing_words(const Change& change) {
    std::string text = change.to.symbol() + "  without its ";
    std::string comma;
    for (const auto& degree : change.missing) {
        text += fmt::format("{}{} ({})", comma, degree.name(harmony::Accidentals::symbols),
                            harmony::spell(change.to.root, degree).name());
        comma = " and ";
    }
    return text;
}

}  // namespace

std::vector<std::string> tone_words_of(const Change& change) {
    std::vector<std::string> words;
    // Against the chord that was meant, tones say nothing of the chord that was due.
    if (change.verdict == Verdict::astray) return words;
    for (const auto& wrong : change.wrong) words.push_back(wrong_words(change, wrong));
    if (!change.missing.empty() && change.tones == Tones::incomplete) {
        words.push_back(missing_words(change));
    }
    return words;
}

std::vector<std::string> problems_of(const Change& change, bool with_time_through,
                                     const roadmap::RoadMap& map) {
    const auto place = place_of(change, with_time_through);
    std::vector<std::string> lines;
    if (const auto timing = timing_words(change, map); !timing.empty()) {
        lines.push_back(
            fmt::format("{}  {}  {}{}", place, move_of(change), timing, remark_on(change)));
    }
    for (const auto& words : tone_words_of(change)) {
        lines.push_back(fmt::format("{}  {}{}", place, words, remark_on(change)));
    }
    return lines;
}

namespace {

/// Of what is in time: a broad strum may begin well before the beat that it reaches.
std::string beside_the_beat(const Change& change) {
    constexpr double broad_ms = 20;
    if (!change.lateness) return "";
    const double ms = std::round(change.lateness->milliseconds());
    if (ms == 0) return "";
    const bool broad = change.spread && change.spread->milliseconds() >= broad_ms && ms < -broad_ms;
    if (broad) return fmt::format(", strummed from {:.0f} ms before the beat", -ms);
    return fmt::format(", {:.0f} ms {} the beat", std::fabs(ms), ms > 0 ? "behind" : "ahead of");
}

}  // namespace

std::string verdict_line(const Change& change, const roadmap::RoadMap& map) {
    const auto problems = problems_of(change, false, map);
    if (!problems.empty()) return fmt::format("{}", fmt::join(problems, "; "));
    const bool laid_out = change.verdict == Verdict::laid_out;
    std::string verdict(laid_out ? laid_out_words(change.heard_by)
                                 : assess::name_of(change.verdict));
    std::replace(verdict.begin(), verdict.end(), '_', ' ');
    if (change.verdict == Verdict::placed) verdict += " on " + landed_on_words(change, map);
    std::string text = fmt::format("{}  {}  {}", place_of(change, false), move_of(change), verdict);
    return text + beside_the_beat(change);
}

}  // namespace compline::report
