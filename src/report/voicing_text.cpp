#include "guide_tones_text.hpp"
#include "plan_difference.hpp"
#include "section_parts.hpp"
#include "voicing_words.hpp"
#include "words.hpp"

#include <compline/chart/summary.hpp>
#include <compline/report/columns.hpp>
#include <compline/report/voicings.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::report {

namespace {

using guitar::PlannedVoicing;
using guitar::VoicingPlan;

constexpr std::size_t most_abreast = 4;
constexpr int block_columns = terminal_columns / static_cast<int>(most_abreast);

std::string safe(const std::string& text) { return text::printable(text, text.size()); }

std::string without_trailing_blanks(std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    return line;
}

/// `head` and then as many parts a line as fit, the next lines set in beneath the first part.
std::string wrapped(const std::string& head, const std::vector<std::string>& parts,
                    const char* between = ";") {
    const std::string margin(static_cast<std::size_t>(columns_of(head)), ' ');
    std::string text;
    std::string line = head;
    bool begun = false;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const auto part = parts[i] + (i + 1 < parts.size() ? between : "");
        if (begun && columns_of(line) + 1 + columns_of(part) > terminal_columns) {
            text += line + "\n";
            line = margin;
            begun = false;
        }
        line += (begun ? " " : "") + part;
        begun = true;
    }
    return text + without_trailing_blanks(line) + "\n";
}

/// A plan, and what is to be known to show it.
struct Shown {
    const VoicingPlan& plan;
    const chart::Form& form;
    Hand hand;
};

/// A chord's column: place and symbol, diagram, shape, roles.
std::vector<std::string> block(const Shown& shown, const PlannedVoicing& voicing) {
    const auto cut = [](const std::string& text) {
        return cut_to_columns(text, block_columns - 1);
    };
    auto place = place_words(voicing.change);
    if (voicing.pinned) place += " *";
    const auto symbol = symbol_and_shape(voicing.change.to, shown.form.bar(voicing.change.bar),
                                         shown.plan.fretboard);
    std::vector<std::string> lines = {cut("   " + place), cut("   " + symbol)};
    for (auto& line : fret_diagram(voicing.grip, 4, shown.hand)) lines.push_back(std::move(line));
    return lines;
}

/// What stands beneath a diagram, on one height in a row.
std::vector<std::string> words_below(const VoicingPlan& plan, const PlannedVoicing& voicing) {
    const auto cut = [](const std::string& text) {
        return cut_to_columns(text, block_columns - 1);
    };
    return {cut("   " + voicing.grip.shape.text()), cut("   " + roles(plan.fretboard, voicing))};
}

/// Voicings side by side, by their number in the plan.
using Row = std::vector<std::size_t>;

std::string abreast(const std::vector<std::vector<std::string>>& blocks) {
    std::size_t height = 0;
    for (const auto& lines : blocks) height = std::max(height, lines.size());
    std::string text;
    for (std::size_t i = 0; i < height; ++i) {
        std::string line;
        for (const auto& lines : blocks) {
            line += padded(i < lines.size() ? lines[i] : "", block_columns);
        }
        text += without_trailing_blanks(line) + "\n";
    }
    return text;
}

/// Whole bars together where that does: a row ends with a bar unless a bar has more than a row.
std::vector<Row> rows_of(const VoicingPlan& plan, const Row& all) {
    std::vector<Row> rows;
    std::size_t i = 0;
    while (i < all.size()) {
        std::size_t bar_end = i;
        const int bar = plan.voicings[all[i]].change.bar;
        while (bar_end < all.size() && plan.voicings[all[bar_end]].change.bar == bar) ++bar_end;
        bar_end = std::min(bar_end, i + most_abreast);
        if (rows.empty() || rows.back().size() + (bar_end - i) > most_abreast) rows.emplace_back();
        while (i < bar_end) rows.back().push_back(all[i++]);
    }
    return rows;
}

/// "bar 2  G7   4 stays on string 3; 1 lifts; top voice B → B♭"
class MoveLines {
  public:
    MoveLines(const VoicingPlan& plan, const Row& row) : plan_(plan) {
        for (const auto i : row) {
            place_columns_ = std::max(place_columns_, columns_of(place(i)));
            symbol_columns_ = std::max(symbol_columns_, columns_of(symbol(i)));
        }
    }

    [[nodiscard]] std::string text(std::size_t i) const {
        auto parts = finger_words(plan_.moves[i]);
        const auto& before = plan_.voicings[i == 0 ? plan_.voicings.size() - 1 : i - 1];
        parts.push_back(top_voice_words(plan_.moves[i], before.palette, plan_.voicings[i].palette));
        if (plan_.voicings[i].goes_on) parts.front() = "goes on: " + parts.front();
        if (i == 0) parts.front() = "from " + place_words(before.change) + ": " + parts.front();
        const auto head =
            padded(place(i), place_columns_) + "  " + padded(symbol(i), symbol_columns_) + "  ";
        return wrapped(head, parts);
    }

  private:
    [[nodiscard]] std::string place(std::size_t i) const {
        return place_words(plan_.voicings[i].change);
    }
    [[nodiscard]] std::string symbol(std::size_t i) const {
        return plan_.voicings[i].change.to.symbol();
    }

    const VoicingPlan& plan_;
    int place_columns_ = 0;
    int symbol_columns_ = 0;
};

std::string row_text(const Shown& shown, const Row& row) {
    const auto& plan = shown.plan;
    std::vector<std::vector<std::string>> blocks;
    std::size_t height = 0;
    for (const auto i : row) {
        blocks.push_back(block(shown, plan.voicings[i]));
        height = std::max(height, blocks.back().size());
    }
    for (std::size_t n = 0; n < row.size(); ++n) {
        blocks[n].resize(height);
        for (auto& line : words_below(plan, plan.voicings[row[n]])) {
            blocks[n].push_back(std::move(line));
        }
    }
    std::string text = abreast(blocks) + "\n";
    const MoveLines lines(plan, row);
    for (const auto i : row) text += lines.text(i);
    return text + "\n";
}

std::string rows_text(const Shown& shown, const Row& all) {
    std::string text;
    for (const auto& row : rows_of(shown.plan, all)) text += row_text(shown, row);
    return text;
}

/// A section that was shown already, all or most of it.
std::string again_text(const Shown& shown, const std::vector<SectionPart>& parts,
                       const SectionPart& part) {
    const auto& earlier = parts[part.as ? *part.as : *part.like];
    auto text = fmt::format("{} again, {}: as {}", safe(part.section), bars_words(part.bars),
                            bars_words(earlier.bars));
    if (!part.as) return text + ", but for\n\n" + rows_text(shown, part.differing);
    if (part.same_way_in) return text + "\n\n";
    return text + ", but at its start\n\n" + MoveLines(shown.plan, {part.first}).text(part.first) +
           "\n";
}

std::string part_text(const Shown& shown, const std::vector<SectionPart>& parts,
                      std::size_t index) {
    const auto& part = parts[index];
    if (part.as || part.like) return again_text(shown, parts, part);
    auto text = fmt::format("{}, {}\n\n", safe(part.section), bars_words(part.bars));
    if (part.first == part.end) return text + "   no change here\n\n";
    Row all;
    for (std::size_t i = part.first; i < part.end; ++i) all.push_back(i);
    return text + rows_text(shown, all);
}

std::string heading(const Voicings& voicings) {
    const auto& chart = voicings.form.chart;
    const auto& plan = voicings.plans.front();
    const auto title = safe(chart.title);
    auto rest = fmt::format("{}   {}   {} bpm", key_in_words(chart), meter_words(chart.meter),
                            plain(plan.tempo.count()));
    if (plan.passage != voicings.form.all()) rest += "   " + bars_words(plan.passage);
    const bool one_line = columns_of(title) + 3 + columns_of(rest) <= terminal_columns;
    auto text = cut_to_columns(title, terminal_columns) + (one_line ? "   " : "\n") + rest + "\n";
    if (const auto guitar = guitar_words(plan.fretboard); !guitar.empty()) text += guitar + "\n";
    return text + "\n";
}

std::string cost_words(guitar::Cost cost) { return fmt::format("{:.2f}", cost / 100.0); }

std::string totals_text(const VoicingPlan& plan) {
    const auto totals = totals_of(plan);
    guitar::Cost sound = 0;
    guitar::Cost reach = 0;
    for (const auto& voicing : plan.voicings) {
        sound += voicing.sound;
        reach += voicing.reach;
    }
    auto text = fmt::format(
        "One time through, and back to the top\n"
        "  changes      {}; in {} of them a finger stays or slides\n"
        "  fingers      {} of travel\n"
        "  voices       {:.2f} semitones each, a change\n",
        totals.changes, totals.guided, plural(totals.travel, "fret", "frets"), totals.semitones);
    if (totals.widest_at != nullptr) {
        const auto& change = totals.widest_at->change;
        text += fmt::format("  widest jump  {}, to {} in {}\n",
                            plural(totals.widest_jump, "fret", "frets"), change.to.symbol(),
                            place_words(change));
    }
    return text + fmt::format(
                      "  cost         {}: the voicings {}, the moves between them {}\n"
                      "               (1 is a finger put down on another string)\n",
                      cost_words(plan.cost()), cost_words(sound), cost_words(reach));
}

/// A plan beside the best one: what it costs more, and where it differs.
std::string other_plan_text(const VoicingPlan& best, const VoicingPlan& other, std::size_t number) {
    auto text = fmt::format("\nPlan {}: cost {}, {} more\n", number, cost_words(other.cost()),
                            cost_words(other.cost() - best.cost()));
    const auto differences = differences_of(best, other);
    const auto shapes = [](const PlanDifference& difference) {
        return difference.before + " → " + difference.after;
    };
    int symbol_columns = 0;
    int shape_columns = 0;
    for (const auto& difference : differences) {
        symbol_columns = std::max(symbol_columns, columns_of(difference.symbol));
        shape_columns = std::max(shape_columns, columns_of(shapes(difference)));
    }
    for (const auto& difference : differences) {
        const auto head = "  " + padded(difference.symbol, symbol_columns) + "  " +
                          padded(shapes(difference), shape_columns) + "  ";
        text += wrapped(head, difference.places, ",");
    }
    return text;
}

std::string why_no_voicings(const chart::Form& form, chart::Passage passage) {
    const auto spans = form.spans_of(passage);
    const bool chords = std::any_of(spans.begin(), spans.end(),
                                    [](const chart::Span& span) { return span.chord.has_value(); });
    return chords ? "All of it is in free time, which has no plan of voicings.\n"
                  : "There is no chord here.\n";
}

}  // namespace

std::string grips_text(const Voicings& voicings, Hand hand) {
    const auto& best = voicings.plans.front();
    if (best.voicings.empty()) return why_no_voicings(voicings.form, best.passage);
    std::string text;
    const auto parts = parts_of(voicings.form, best);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        text += part_text({best, voicings.form, hand}, parts, i);
    }
    const bool pinned = std::any_of(best.voicings.begin(), best.voicings.end(),
                                    [](const auto& voicing) { return voicing.pinned; });
    if (!pinned) return text;
    return text + (voicings.from_take ? "* as you played it, or as the chart asks\n\n"
                                      : "* as the chart asks\n\n");
}

std::string voicings_text(const Voicings& voicings, Hand hand) {
    const auto& best = voicings.plans.front();
    auto text = heading(voicings);
    if (best.voicings.empty()) return text + grips_text(voicings, hand);
    if (voicings.guide_tones) text += guide_tones_text(voicings.form, *voicings.guide_tones);
    text += grips_text(voicings, hand) + totals_text(best);
    for (std::size_t i = 1; i < voicings.plans.size(); ++i) {
        text += other_plan_text(best, voicings.plans[i], i + 1);
    }
    return text;
}

}  // namespace compline::report
