#include "sheet.hpp"

#include "fret_window.hpp"
#include "sheet_bars.hpp"
#include "text_width.hpp"
#include "voicing_words.hpp"

#include <compline/report/columns.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace compline::report {

namespace {

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
constexpr double bar_padding = 0.8;
constexpr int most_bars = 4;  ///< a row

/// Bars share a row evenly; one that needs more takes it, and the others share what is left.
/// Nothing where they do not all fit.
std::optional<std::vector<double>> share_out(const std::vector<double>& needed, double width) {
    std::vector<double> given(needed.size(), 0);
    while (true) {
        double left = width;
        int open = 0;
        for (const double taken : given) {
            left -= taken;
            open += taken == 0 ? 1 : 0;
        }
        if (open == 0) return left >= -0.001 ? std::optional(given) : std::nullopt;
        const double even = left / open;
        bool settled = true;
        for (std::size_t i = 0; i < needed.size(); ++i) {
            if (given[i] != 0 || needed[i] <= even) continue;
            given[i] = needed[i];
            settled = false;
        }
        if (!settled) continue;
        for (double& share : given) share = share == 0 ? even : share;
        return given;
    }
}

/// Room at a bar's end, more where a double bar line stands.
double padding_behind(const SheetBar& bar) { return bar.ends_section ? 2.6 : bar_padding; }

/// Changes of a bar at their time, moved apart where they would overlap.
std::vector<double> places(const SheetBar& bar, const Measures& measures, double x, double width) {
    std::vector<double> xs;
    double least = x + bar_padding;
    for (const auto& change : bar.changes) {
        xs.push_back(std::max(least, x + bar_padding + change.at * width));
        least = xs.back() + measures.width_of(change);
    }
    double most = x + width - padding_behind(bar);
    for (std::size_t i = xs.size(); i-- > 0;) {
        most -= measures.width_of(bar.changes[i]);
        xs[i] = std::max(x + bar_padding, std::min(xs[i], most));
        most = xs[i];
    }
    return xs;
}

class Composer {
  public:
    Composer(const chart::Form& form, const VoicingPlan& plan, Sheet& sheet)
        : plan_(plan), sheet_(sheet), parts_(parts_of(form, plan)) {}

    [[nodiscard]] bool has_repeats() const {
        return std::any_of(parts_.begin(), parts_.end(),
                           [](const SectionPart& part) { return part.as.has_value(); });
    }

    /// On one page, four bars a row unless `split` allows fewer.
    bool fits_one_page(double scale, bool fold, bool split) {
        sheet_.measures.diagram.scale = scale;
        was_split_ = false;
        compose(fold);
        if (was_split_ && !split) return false;
        double height = heading + footing + 2 * sheet_.paper.margin;
        for (const auto& row : rows_) height += row.height + least_gap;
        return height <= sheet_.paper.height;
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

    bool shrink_to_one_page(bool fold) {
        for (const bool split : {false, true}) {
            // Rows that are split anyway are split less where all is smaller.
            const double first = split ? largest_split : largest;
            const int steps = static_cast<int>(std::lround((first - smallest) / step));
            for (int n = 0; n <= steps; ++n) {
                const double scale = first - n * step;
                if (!fits_one_page(scale, fold, split)) continue;
                heighten(scale, fold, split);
                return true;
            }
        }
        return false;
    }

  private:
    /// What is left of the page goes to the frets.
    void heighten(double scale, bool fold, bool split) {
        auto& tallness = sheet_.measures.diagram.tallness;
        while (tallness < tallest && fits_one_page(scale, fold, split)) tallness += step;
        tallness -= step;
        fits_one_page(scale, fold, split);
    }

    void compose(bool fold) {
        rows_.clear();
        for (const auto& part : parts_) {
            if (fold && part.as) {
                rows_.push_back(reference(part));
            } else {
                add_rows(part);
            }
        }
    }

    [[nodiscard]] SheetRow reference(const SectionPart& part) const {
        const auto& earlier = parts_[*part.as].bars;
        SheetRow row;
        row.letter = part.section;
        row.words = fmt::format("bars {}–{} as bars {}–{}", part.bars.from, part.bars.to,
                                earlier.from, earlier.to);
        if (!part.same_way_in) row.words += "; " + start_words(part);
        row.height = words_height + (is_letter(row.letter) ? 0 : name_size);
        return row;
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

    void add_rows(const SectionPart& part) {
        for (int bar = part.bars.from; bar <= part.bars.to; bar += most_bars) {
            add_rows(part, bar, std::min(most_bars, part.bars.to - bar + 1));
        }
    }

    /// Four bars that do not fit stay together, in halves: music goes by fours.
    void add_rows(const SectionPart& part, int first, int count) {
        auto row = make_row(first, count);
        if (!row && count > 1) {
            was_split_ = true;
            const int half = (count + 1) / 2;
            add_rows(part, first, half);
            add_rows(part, first + half, count - half);
            return;
        }
        if (!row) row = crowded_row(first);
        if (first == part.bars.from) row->letter = part.section;
        row->height = sheet_.measures.row_height() + (is_letter(row->letter) ? 0 : 1.2 * name_size);
        rows_.push_back(*row);
    }

    [[nodiscard]] const SheetBar& bar_at(int number) const {
        return sheet_.bars[static_cast<std::size_t>(number - plan_.passage.from)];
    }

    [[nodiscard]] std::optional<SheetRow> make_row(int first, int count) const {
        std::vector<double> needed;
        for (int i = 0; i < count; ++i) {
            const auto& bar = bar_at(first + i);
            needed.push_back(bar_padding + sheet_.measures.width_of(bar) + padding_behind(bar));
        }
        const double room = sheet_.paper.right() - sheet_.paper.left();
        // A row of fewer bars does not spread them over the whole page.
        const double width = count == most_bars || room * count / most_bars < sum(needed)
                                 ? room
                                 : room * count / most_bars;
        const auto widths = share_out(needed, width);
        if (!widths) return std::nullopt;
        return place(first, *widths);
    }

    /// One bar too full even for a row of its own: symbols are squeezed.
    [[nodiscard]] SheetRow crowded_row(int bar) const {
        return place(bar, {sheet_.paper.right() - sheet_.paper.left()});
    }

    [[nodiscard]] SheetRow place(int first, const std::vector<double>& widths) const {
        SheetRow row;
        double x = sheet_.paper.left();
        for (std::size_t i = 0; i < widths.size(); ++i) {
            const auto& bar = bar_at(first + static_cast<int>(i));
            row.bars.push_back({&bar, x, widths[i], bar.repeats && i > 0,
                                places(bar, sheet_.measures, x, widths[i])});
            x += widths[i];
        }
        return row;
    }

    static double sum(const std::vector<double>& values) {
        double all = 0;
        for (const double value : values) all += value;
        return all;
    }

    /// Adds a page from row `next` on; returns the first row that is left for the next page.
    std::size_t fill_page(std::size_t next, double top) {
        const double room = sheet_.paper.height - sheet_.paper.margin - footing - top;
        const std::size_t first = next;
        double used = 0;
        while (next < rows_.size()) {
            const double more = rows_[next].height + least_gap;
            if (next > first && used + more > room) break;
            used += more;
            ++next;
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

    const VoicingPlan& plan_;
    Sheet& sheet_;
    std::vector<SectionPart> parts_;
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
    sheet.bars = sheet_bars(form, plan);
    Composer composer(form, plan, sheet);
    const bool one_page = composer.shrink_to_one_page(false) ||
                          (composer.has_repeats() && composer.shrink_to_one_page(true));
    // On several pages everything is drawn in its place: nobody turns back.
    if (!one_page) composer.fits_one_page(on_several_pages, false, true);
    composer.paginate();
    return sheet;
}

}  // namespace compline::report
