#include "sheet.hpp"

#include "fret_window.hpp"
#include "sheet_bars.hpp"
#include "sheet_rows.hpp"
#include "sheet_signs.hpp"
#include "text_width.hpp"
#include "voicing_words.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/report/columns.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace compline::report {

namespace {

using chart::Passage;
using guitar::VoicingPlan;

// A grid of six strings is 15 mm wide at scale 1.
constexpr double smallest = 0.88;
constexpr double largest = 1.46;
constexpr double largest_split = 1.1;
constexpr double step = 0.02;
constexpr double on_several_pages = 1.0;
constexpr double tallest = 1.4;

constexpr double heading = 22;  ///< of the first page
constexpr double later_heading = 10;
constexpr double footing = 6.5;
constexpr double least_gap = 2.5;  ///< between rows
constexpr double most_gap = 11;
constexpr double words_height = 7;
constexpr double road_map_height = 5;

/// What is given up for one page.
struct Shape {
    bool tails = false;  ///< one or two bars more stay in a row of four
    bool fold = false;   ///< a section that comes again is named
    bool split = false;  ///< rows that are too full are halved
};

class Composer {
  public:
    Composer(const chart::Form& form, const VoicingPlan& plan, Sheet& sheet)
        : form_(form), plan_(plan), sheet_(sheet), parts_(parts_of(form, plan)) {
        write({});
    }

    [[nodiscard]] bool has_repeats() const {
        return std::any_of(parts_.begin(), parts_.end(),
                           [](const SectionPart& part) { return part.as.has_value(); });
    }

    bool fits_one_page(double scale, Shape shape) {
        sheet_.measures.diagram.scale = scale;
        was_split_ = false;
        compose(shape);
        if (was_split_ && !shape.split) return false;
        double height = heading + foot() + 2 * sheet_.paper.margin;
        for (const auto& row : rows_) height += row.height + least_gap;
        return height <= sheet_.paper.height;
    }

    /// On several pages what comes again stands on one, written out where that is not to be had:
    /// nobody turns back.
    void compose_several_pages() {
        fits_one_page(on_several_pages, {false, false, true});
        const auto too_long = sections_over_a_page();
        if (too_long.empty()) return;
        write(too_long);
        fits_one_page(on_several_pages, {false, false, true});
    }

    void paginate() {
        sheet_.pages.clear();
        std::size_t next = 0;
        while (next < rows_.size() || sheet_.pages.empty()) {
            const double top =
                sheet_.paper.margin + (sheet_.pages.empty() ? heading : later_heading);
            next = fill_page(next, top);
        }
    }

    bool shrink_to_one_page(Shape shape) {
        for (const bool split : {false, true}) {
            shape.split = split;
            // Rows that are split anyway are split less where all is smaller.
            const double first = split ? largest_split : largest;
            const int steps = static_cast<int>(std::lround((first - smallest) / step));
            for (int n = 0; n <= steps; ++n) {
                const double scale = first - n * step;
                if (!fits_one_page(scale, shape)) continue;
                heighten(scale, shape);
                return true;
            }
        }
        return false;
    }

  private:
    /// Bars as they are written, these sections written out.
    void write(const std::set<std::string>& written_out) {
        written_ = as_written(form_, plan_.passage, [&](Passage earlier, Passage again) {
            return written_out.count(form_.bar(earlier.from).section) == 0 &&
                   is_drawn_once(form_, plan_, earlier, again);
        });
        sheet_.bars = sheet_bars(form_, plan_, written_);
    }

    [[nodiscard]] double foot() const {
        return footing + (sheet_.road_map.empty() ? 0 : road_map_height);
    }

    /// What is left of the page goes to the frets.
    void heighten(double scale, Shape shape) {
        auto& tallness = sheet_.measures.diagram.tallness;
        while (tallness < tallest && fits_one_page(scale, shape)) tallness += step;
        tallness -= step;
        fits_one_page(scale, shape);
    }

    void compose(Shape shape) {
        rows_.clear();
        for (std::size_t first = 0; first < sheet_.bars.size();) {
            std::size_t end = first + 1;
            while (end < sheet_.bars.size() && !written_[end].begins_section) ++end;
            const int behind =
                end < sheet_.bars.size() ? written_[end].number : plan_.passage.to + 1;
            if (!shape.fold || !add_references({written_[first].number, behind - 1})) {
                add_section(first, end, shape.tails);
            }
            first = end;
        }
    }

    /// Words in place of all parts in these bars, where each of them was drawn already.
    bool add_references(Passage bars) {
        std::vector<SheetRow> references;
        for (const auto& part : parts_) {
            if (part.bars.from < bars.from || part.bars.from > bars.to) continue;
            if (!part.as) return false;
            references.push_back(reference(part));
        }
        rows_.insert(rows_.end(), references.begin(), references.end());
        return true;
    }

    [[nodiscard]] SheetRow reference(const SectionPart& part) const {
        SheetRow row;
        row.letter = part.section;
        row.words = fmt::format("bars {}–{} as {}", part.bars.from, part.bars.to,
                                drawn_at(parts_[*part.as].bars));
        if (!part.same_way_in) row.words += "; " + start_words(part);
        row.height = words_height + (is_letter(row.letter) ? 0 : name_size);
        return row;
    }

    /// "bars 1–8", "bars 1–6, 9–10": where these bars are drawn.
    [[nodiscard]] std::string drawn_at(Passage bars) const {
        std::vector<Passage> runs;
        for (int bar = bars.from; bar <= bars.to; ++bar) {
            const int there = where_written(form_, written_, bar);
            if (runs.empty() || runs.back().to + 1 != there) runs.push_back({there, there});
            runs.back().to = there;
        }
        std::string words;
        for (const auto& run : runs) {
            words += words.empty() ? "bars " : ", ";
            words += run.bars() > 1 || runs.size() == 1 ? fmt::format("{}–{}", run.from, run.to)
                                                        : std::to_string(run.from);
        }
        return words;
    }

    /// What the drawn part's first diagram does not show of this one.
    [[nodiscard]] std::string start_words(const SectionPart& part) const {
        std::string text = "into " + place_words(plan_.voicings[part.first].change);
        const char* before = ": ";
        for (const auto& words : finger_words(plan_.moves[part.first])) {
            text += before + words;
            before = ", ";
        }
        return text;
    }

    void add_section(std::size_t first, std::size_t end, bool tails) {
        const auto first_row = rows_.size();
        for (std::size_t from = first; from < end;) {
            const auto count = bars_of_row(first, from, end, tails);
            add_rows(from, count);
            from += count;
        }
        auto& row = rows_[first_row];
        row.letter = form_.bar(written_[first].number).section;
        row.begins_coda = written_[first].begins_coda;
        for (std::size_t i = first_row; i < rows_.size(); ++i) {
            finish(rows_[i]);
            rows_[i].goes_on = written_[first].begins_repeat && i + 1 < rows_.size();
        }
    }

    /// A row ends after four bars and before a second ending. `tails`: six, where else one or two
    /// would have a row to themselves.
    [[nodiscard]] std::size_t bars_of_row(std::size_t section, std::size_t from, std::size_t end,
                                          bool tails) const {
        const auto has_ending = [&](std::size_t to) {
            return std::any_of(at(section), at(to), [](const auto& b) { return b.in_ending; });
        };
        std::size_t to = from + 1;
        while (to < end && (written_[to].ending.empty() || !has_ending(to))) ++to;
        const auto all = to - from;
        if (tails && all > most_bars && all <= most_bars + 2 && make_row(sheet_, from, all)) {
            return all;
        }
        return std::min<std::size_t>(all, most_bars);
    }

    [[nodiscard]] std::vector<BarAsWritten>::const_iterator at(std::size_t bar) const {
        return written_.begin() + static_cast<std::ptrdiff_t>(bar);
    }

    /// Four bars that do not fit stay together, in halves: music goes by fours.
    void add_rows(std::size_t first, std::size_t count) {
        auto row = make_row(sheet_, first, count);
        if (!row && count > 1) {
            was_split_ = true;
            const auto half = (count + 1) / 2;
            add_rows(first, half);
            add_rows(first + half, count - half);
            return;
        }
        rows_.push_back(row ? *row : crowded_row(sheet_, first));
    }

    void finish(SheetRow& row) const {
        put_over(row, sheet_);
        row.has_diagrams = std::any_of(row.bars.begin(), row.bars.end(), [](const auto& placed) {
            const auto& changes = placed.bar->changes;
            return placed.simile || std::any_of(changes.begin(), changes.end(),
                                                [](const auto& c) { return c.voicing != nullptr; });
        });
        row.height = row.above + (row.has_diagrams ? sheet_.measures.row_height()
                                                   : sheet_.measures.low_row_height());
    }

    [[nodiscard]] double room_of_page(double top) const {
        return sheet_.paper.height - sheet_.paper.margin - foot() - top;
    }

    /// Of what comes again, that which no page has room for.
    [[nodiscard]] std::set<std::string> sections_over_a_page() const {
        std::set<std::string> sections;
        std::string section;
        double height = 0;
        bool within = false;
        for (const auto& row : rows_) {
            if (!within) height = 0;
            if (!row.letter.empty()) section = row.letter;
            height += row.height + least_gap;
            within = row.goes_on;
            if (height > room_of_page(sheet_.paper.margin + later_heading)) {
                sections.insert(section);
            }
        }
        return sections;
    }

    /// The rows from `next` on that stand on one page together: what comes again, else one.
    [[nodiscard]] std::size_t end_of_group(std::size_t next) const {
        while (rows_[next].goes_on) ++next;
        return next + 1;
    }

    /// Adds a page from row `next` on; returns the first row that is left for the next page.
    std::size_t fill_page(std::size_t next, double top) {
        const double room = room_of_page(top);
        const std::size_t first = next;
        double used = 0;
        while (next < rows_.size()) {
            const auto end = end_of_group(next);
            double more = 0;
            for (std::size_t i = next; i < end; ++i) more += rows_[i].height + least_gap;
            if (next > first && used + more > room) break;
            used += more;
            next = end;
        }
        const auto count = static_cast<double>(next - first);
        const bool full = next < rows_.size() || count > 1;
        const double gap =
            full ? std::min(most_gap, least_gap + (room - used) / std::max(1.0, count)) : least_gap;
        SheetPage page;
        double y = top;
        for (std::size_t i = first; i < next; ++i) {
            page.rows.push_back(rows_[i]);
            page.rows.back().y = y;
            y += rows_[i].height + gap;
        }
        sheet_.pages.push_back(page);
        return next;
    }

    const chart::Form& form_;
    const VoicingPlan& plan_;
    Sheet& sheet_;
    std::vector<SectionPart> parts_;
    std::vector<BarAsWritten> written_;
    std::vector<SheetRow> rows_;
    bool was_split_ = false;
};

int most_frets_shown(const VoicingPlan& plan) {
    int frets = FretWindow{}.frets;
    for (const auto& voicing : plan.voicings) {
        frets = std::max(frets, window_of(voicing.grip.shape).frets);
    }
    return frets;
}

}  // namespace

SheetSize size_of(Paper paper) {
    SheetSize size;
    if (paper == Paper::letter) {
        size.width = 215.9;
        size.height = 279.4;
    }
    return size;
}

bool is_letter(const std::string& name) { return columns_of(name) <= 2; }

double Measures::symbol_size() const {
    constexpr double fourteen_points = 4.94;
    return fourteen_points * std::clamp(diagram.scale, 1.0, 1.3);
}

double Measures::indent() const { return hand == Hand::right ? diagram.beside() : diagram.dot(); }

double Measures::symbol_width(const std::string& symbol) const {
    // The root is larger than the rest.
    return (width_in_ems(symbol) + 0.2) * symbol_size();
}

double Measures::width_of(const SheetChange& change) const {
    const double gap = 1.2 * diagram.scale;
    const double symbol = indent() + symbol_width(change.symbol);
    return gap + (change.voicing != nullptr ? std::max(diagram.width(), symbol) : symbol);
}

double Measures::width_of(const SheetBar& bar) const {
    double width = 0;
    for (const auto& change : bar.changes) width += width_of(change);
    return width;
}

Sheet lay_out(const chart::Form& form, const VoicingPlan& plan, const PageWishes& wishes) {
    Sheet sheet;
    sheet.paper = size_of(wishes.paper);
    sheet.measures.hand = wishes.hand;
    sheet.measures.diagram.strings = plan.fretboard.strings();
    sheet.measures.diagram.frets = most_frets_shown(plan);
    // Of a passage alone the way through the tune says nothing.
    const auto way = plan.passage == form.all() ? chart::own_road_map(form) : std::nullopt;
    if (way) sheet.road_map = chart::road_map_in_words(*way, form);
    Composer composer(form, plan, sheet);
    const bool one_page =
        composer.shrink_to_one_page({}) || composer.shrink_to_one_page({true, false}) ||
        (composer.has_repeats() &&
         (composer.shrink_to_one_page({false, true}) || composer.shrink_to_one_page({true, true})));
    if (!one_page) composer.compose_several_pages();
    composer.paginate();
    return sheet;
}

}  // namespace compline::report
