#include "sheet.hpp"

#include "fret_window.hpp"
#include "sheet_composer.hpp"
#include "text_width.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/report/columns.hpp>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

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

constexpr double sheet_heading = 22;  ///< of the first page
constexpr double later_heading = 10;
constexpr double sheet_footing = 6.5;
constexpr double least_gap = 2.5;  ///< between rows
constexpr double most_gap = 11;
constexpr double road_map_height = 5;

/// Finds the largest scale with which a sheet's rows stand on one page, and fills pages.
class PageFitter {
  public:
    PageFitter(RowComposer& composer, Sheet& sheet) : composer_(composer), sheet_(sheet) {}

    bool fits_one_page(double scale, Concessions made) {
        sheet_.measures.diagram.scale = scale;
        if (!composer_.compose(made)) return false;
        double height = sheet_heading + foot() + 2 * sheet_.paper.margin;
        for (const auto& row : composer_.rows()) height += row.height + least_gap;
        return height <= sheet_.paper.height;
    }

    /// On several pages what comes again stands on one, written out where that is not to be had:
    /// nobody turns back.
    void compose_several_pages() {
        fits_one_page(on_several_pages, {false, false, true});
        const auto too_long = sections_over_a_page();
        if (too_long.empty()) return;
        composer_.write(too_long);
        fits_one_page(on_several_pages, {false, false, true});
    }

    void paginate() {
        sheet_.pages.clear();
        std::size_t next = 0;
        while (next < composer_.rows().size() || sheet_.pages.empty()) {
            const double top =
                sheet_.paper.margin + (sheet_.pages.empty() ? sheet_heading : later_heading);
            next = fill_page(next, top);
        }
    }

    bool shrink_to_one_page(Concessions made) {
        for (const bool split : {false, true}) {
            made.split = split;
            // Rows that are split anyway are split less where all is smaller.
            const double first = split ? largest_split : largest;
            const int steps = static_cast<int>(std::lround((first - smallest) / step));
            for (int n = 0; n <= steps; ++n) {
                const double scale = first - n * step;
                if (!fits_one_page(scale, made)) continue;
                heighten(scale, made);
                return true;
            }
        }
        return false;
    }

  private:
    [[nodiscard]] double foot() const {
        return sheet_footing + (sheet_.road_map.empty() ? 0 : road_map_height);
    }

    /// What is left of the page goes to the frets.
    void heighten(double scale, Concessions made) {
        auto& tallness = sheet_.measures.diagram.tallness;
        while (tallness < tallest && fits_one_page(scale, made)) tallness += step;
        tallness -= step;
        fits_one_page(scale, made);
    }

    [[nodiscard]] double room_of_page(double top) const {
        return sheet_.paper.height - sheet_.paper.margin - foot() - top;
    }

    /// Of what comes again, that which the first page has no room for, were it alone on it.
    [[nodiscard]] std::set<std::string> sections_over_a_page() const {
        std::set<std::string> sections;
        std::string section;
        double height = 0;
        bool within = false;
        for (const auto& row : composer_.rows()) {
            if (!within) height = 0;
            if (!row.letter.empty()) section = row.letter;
            height += row.height + least_gap;
            within = row.goes_on;
            if (height > room_of_page(sheet_.paper.margin + sheet_heading)) {
                sections.insert(section);
            }
        }
        return sections;
    }

    /// The rows from `next` on that stand on one page together: what comes again, else one.
    [[nodiscard]] std::size_t end_of_group(std::size_t next) const {
        while (composer_.rows()[next].goes_on) ++next;
        return next + 1;
    }

    /// Adds a page from row `next` on; returns the first row that is left for the next page.
    std::size_t fill_page(std::size_t next, double top) {
        const double room = room_of_page(top);
        const std::size_t first = next;
        double used = 0;
        const auto& rows = composer_.rows();
        while (next < rows.size()) {
            const auto end = end_of_group(next);
            double more = 0;
            for (std::size_t i = next; i < end; ++i) more += rows[i].height + least_gap;
            if (next > first && used + more > room) break;
            used += more;
            next = end;
        }
        const auto count = static_cast<double>(next - first);
        const bool full = next < rows.size() || count > 1;
        const double gap =
            full ? std::min(most_gap, least_gap + (room - used) / std::max(1.0, count)) : least_gap;
        SheetPage page;
        double y = top;
        for (std::size_t i = first; i < next; ++i) {
            page.rows.push_back(rows[i]);
            page.rows.back().y = y;
            y += rows[i].height + gap;
        }
        sheet_.pages.push_back(page);
        return next;
    }

    RowComposer& composer_;
    Sheet& sheet_;
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
    RowComposer composer(form, plan, sheet);
    PageFitter fitter(composer, sheet);
    const bool one_page =
        fitter.shrink_to_one_page({}) || fitter.shrink_to_one_page({true, false}) ||
        (composer.has_repeats() &&
         (fitter.shrink_to_one_page({false, true}) || fitter.shrink_to_one_page({true, true})));
    if (!one_page) fitter.compose_several_pages();
    fitter.paginate();
    return sheet;
}

}  // namespace compline::report
