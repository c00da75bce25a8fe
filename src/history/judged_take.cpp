#include <compline/assess/rules_version.hpp>
#include <compline/chart/chart_hash.hpp>
#include <compline/chart/transpose.hpp>
#include <compline/history/judged_take.hpp>
#include <compline/practice/evening_date.hpp>
#include <compline/practice/in_time.hpp>
#include <compline/practice/ladder.hpp>
#include <compline/practice/time_alone.hpp>

#include <algorithm>
#include <map>
#include <utility>

namespace compline::history {

namespace {

constexpr auto letters = harmony::Accidentals::letters;

/// The symbols of a chart as it was played, and as it is written.
class OwnKey {
  public:
    OwnKey(const chart::Form& played, const chart::Form& own) {
        if (played.spans.size() != own.spans.size()) return;
        for (std::size_t i = 0; i < own.spans.size(); ++i) {
            const auto& sounded = played.spans[i].chord;
            const auto& written = own.spans[i].chord;
            if (sounded && written) names_[sounded->symbol(letters)] = written->symbol(letters);
        }
    }

    [[nodiscard]] std::string name(const harmony::Chord& chord) const {
        const auto symbol = chord.symbol(letters);
        const auto found = names_.find(symbol);
        return found == names_.end() ? symbol : found->second;
    }

  private:
    std::map<std::string, std::string> names_;
};

/// Changes that were typed are a chart of one section, whose title they are.
bool is_drill(const chart::Chart& chart) {
    return chart.sections.size() == 1 && chart.title.find('|') != std::string::npos;
}

KeptChart kept_chart(const chart::Form& own, const TakeFacts& facts) {
    const auto& chart = own.chart;
    return {chart::chart_hash(chart), chart.title,      chart.key.name(letters),
            facts.chart_text,         facts.chart_file, is_drill(chart)};
}

std::string wrong_words(const assess::Change& change) {
    std::string words;
    for (const auto& tone : change.wrong) {
        words += (words.empty() ? "" : " ") + harmony::note_name(tone.note, tone.spelling, letters);
    }
    return words;
}

std::string missing_words(const assess::Change& change) {
    std::string words;
    for (const auto& degree : change.missing) {
        words += (words.empty() ? "" : " ") + degree.name(letters);
    }
    return words;
}

std::optional<double> milliseconds(const std::optional<time::Seconds>& value) {
    if (!value) return std::nullopt;
    return value->milliseconds();
}

KeptChange kept(const assess::Change& change, const roadmap::RoadMap& map, const OwnKey& own) {
    KeptChange row;
    row.time_through = change.time_through;
    row.bar = change.bar;
    row.beat = change.beat;
    row.section = change.section;
    if (change.from) row.from = own.name(*change.from);
    row.to = own.name(change.to);
    row.bpm = map.bar(map.place_at(change.at).number).tune_tempo.count();
    row.verdict = assess::name_of(change.verdict);
    row.lateness_ms = milliseconds(change.lateness);
    row.relative_ms = milliseconds(change.relative);
    row.tones = assess::name_of(change.tones);
    row.missing = missing_words(change);
    row.wrong = wrong_words(change);
    row.cost = change.cost();
    row.in_time = practice::is_in_time(change);
    row.right = change.has_right_tones();
    row.counts = practice::counts_for_time(change) && !change.seam;
    row.uncertain = change.uncertain;
    row.seam = change.seam;
    row.wait = change.wait;
    row.left_out = change.left_out;
    row.optional = change.optional;
    return row;
}

KeptStrum kept(const assess::ReadStrum& strum) {
    return {strum.time_through,
            strum.bar,
            strum.beat,
            strum.asynchrony.milliseconds(),
            std::string(assess::name_of(strum.read_as)),
            strum.off_beat};
}

KeptTimeThrough time_through(const practice::Report& report, int number) {
    const auto& map = report.map;
    const auto first = map.first_bar(number);
    auto behind = number == map.times_through() ? *map.bars() + 1 : map.first_bar(number + 1);
    while (behind - 1 > first && map.bar(behind - 1).waits) --behind;
    const auto begin = map.bar(first);
    const auto end = map.bar(behind - 1);
    const auto whole = map.form().whole();
    const auto played = practice::played_changes(report.assessment, number);
    KeptTimeThrough row;
    row.number = number;
    row.from_bar = begin.in_form();
    row.to_bar = end.in_form();
    row.whole_tune = row.from_bar == whole.from && row.to_bar >= whole.to;
    row.bpm = begin.tune_tempo.count();
    row.seconds = (map.tempi().time_of(end.end()) - map.tempi().time_of(begin.start)).count();
    row.due = played.due;
    row.struck = played.struck;
    row.right = played.right;
    row.missed = played.missed;
    row.clean = practice::judged_of(played) == roadmap::LadderStep::Judged::clean;
    return row;
}

void sum(const JudgedTake& judged, KeptTake& take) {
    for (const auto& change : judged.changes) {
        if (change.seam) continue;
        ++take.changes;
        take.uncertain += change.uncertain ? 1 : 0;
        if (!change.counts) continue;
        ++take.counted;
        take.in_time += change.in_time ? 1 : 0;
        take.right += change.right ? 1 : 0;
        take.both += change.in_time && change.right ? 1 : 0;
        take.struck += change.verdict != assess::name_of(assess::Verdict::missed) ? 1 : 0;
        take.cost += change.cost;
    }
}

/// Somebody talked, or listened to the band: that is no bad playing.
bool was_not_played(const KeptTimeThrough& time) { return time.struck * 4 < time.due; }

void pass_over_what_was_not_played(JudgedTake& judged) {
    for (auto& change : judged.changes) {
        const auto at = static_cast<std::size_t>(change.time_through - 1);
        if (was_not_played(judged.times.at(at))) change.counts = false;
    }
}

KeptTake kept_take(const practice::Report& report, const TakeFacts& facts,
                   const JudgedTake& judged) {
    KeptTake take;
    take.fingerprint = facts.fingerprint;
    take.folder = facts.folder;
    take.file = facts.file;
    take.player = facts.player;
    take.made = report.made.empty() ? facts.made : report.made;
    take.evening = practice::evening_of(take.made);
    take.program = report.program;
    take.rules = assess::rules_version;
    take.of_ours = facts.of_ours;
    take.key = facts.key;
    take.asked = facts.asked;
    take.by_sound = !practice::judges_tones(report);
    if (report.ladder) {
        take.ladder_from = report.ladder->asked.from.count();
        take.ladder_to = report.ladder->asked.to.count();
    }
    const auto reach = report.map.way().reach();
    take.from_bar = reach.from;
    take.to_bar = reach.to;
    take.slowest_bpm = take.fastest_bpm = report.map.tempo().count();
    for (const auto& time : judged.times) {
        take.seconds += time.seconds;
        take.slowest_bpm = std::min(take.slowest_bpm, time.bpm);
        take.fastest_bpm = std::max(take.fastest_bpm, time.bpm);
    }
    sum(judged, take);
    return take;
}

}  // namespace

TakeFacts facts_of(const practice::TakeInfo& info) {
    TakeFacts facts;
    facts.player = info.player;
    facts.made = info.made;
    facts.chart_text = info.chart_text;
    facts.key = info.key;
    auto asked = info;
    asked.chart_text.clear();  // it is kept once for all takes
    facts.asked = practice::to_text(asked);
    return facts;
}

JudgedTake judged_take(const practice::Report& report, const TakeFacts& facts) {
    const auto own = chart::unroll(chart::read_chart(facts.chart_text, "the take's chart"));
    const OwnKey names(report.map.form(), own);
    JudgedTake judged;
    judged.chart = kept_chart(own, facts);
    for (int n = 1; n <= report.map.times_through().value(); ++n) {
        judged.times.push_back(time_through(report, n));
    }
    for (const auto& change : report.assessment.changes) {
        judged.changes.push_back(kept(change, report.map, names));
    }
    pass_over_what_was_not_played(judged);
    for (const auto& strum : report.assessment.strums) judged.strums.push_back(kept(strum));
    judged.take = kept_take(report, facts, judged);
    return judged;
}

}  // namespace compline::history
