#include "take_page_strip.hpp"

#include "picture.hpp"
#include "take_page_signs.hpp"
#include "text_width.hpp"
#include "words.hpp"

#include <compline/practice/time_alone.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace compline::report {

namespace {

using practice::PlaceFault;
using practice::PlaceFigures;
using practice::Places;

constexpr int bars_a_piece = 4;
constexpr double piece_width = 400;
constexpr double head_height = 26;  ///< bar number, rehearsal letter
constexpr double half_height = 46;  ///< early, late
constexpr double chord_height = 25;
constexpr double label_size = 20;  ///< less is not read at a metre
constexpr double in_from_line = 13;
constexpr double most_shown_ms = 250;
constexpr double least_shown_ms = 100;
/// Few numbers are read.
constexpr std::size_t most_numbers = 5;

struct ChordLabel {
    double x = 0;
    int row = 0;
    std::string symbol;
};

class Strip {
  public:
    Strip(const practice::Report& report, const Places& places)
        : report_(report), places_(places), reach_(report.map.way().reach()) {
        find_range();
        find_numbers();
        for (int from = reach_.from; from <= reach_.to; from += bars_a_piece) {
            for (const auto& label : labels(from)) rows_ = std::max(rows_, label.row + 1);
        }
    }

    [[nodiscard]] std::string pieces() const {
        std::string markup;
        for (int from = reach_.from; from <= reach_.to; from += bars_a_piece) markup += piece(from);
        return markup;
    }
    [[nodiscard]] int count() const { return (reach_.bars() + bars_a_piece - 1) / bars_a_piece; }
    [[nodiscard]] double height() const {
        return head_height + 2 * half_height + rows_ * chord_height + 4;
    }

  private:
    using Where = Places::key_type;

    /// The band stands in it whatever comes, and the farthest average does, within reason.
    void find_range() {
        range_ms_ = std::max(least_shown_ms, 2 * report_.tolerance().milliseconds());
        for (const auto& [where, place] : places_) {
            range_ms_ = std::max({range_ms_, place.figures.late_ms().value_or(0),
                                  place.figures.early_ms().value_or(0)});
        }
        range_ms_ = std::min(range_ms_, most_shown_ms);
    }

    /// The costliest that lie well out.
    void find_numbers() {
        const double out = 1.5 * report_.tolerance().milliseconds();
        std::vector<std::pair<double, Where>> far;
        for (const auto& [where, place] : places_) {
            const auto& figures = place.figures;
            const double ms =
                std::max(figures.late_ms().value_or(0), figures.early_ms().value_or(0));
            if (ms >= out) far.emplace_back(-figures.cost, where);
        }
        std::sort(far.begin(), far.end());
        for (std::size_t i = 0; i < std::min(far.size(), most_numbers); ++i) {
            numbered_.insert(far[i].second);
        }
    }

    [[nodiscard]] const chart::FormBar& bar(int number) const {
        return report_.map.form().bar(number);
    }
    [[nodiscard]] double x_of(int from, int number, double beats) const {
        const double share = beats / time::Beats(bar(number).meter.bar()).count();
        return (number - from + std::clamp(share, 0.0, 1.0)) * piece_width / bars_a_piece;
    }
    [[nodiscard]] static double y_of_beat() { return head_height + half_height; }
    [[nodiscard]] double height_of(double ms) const {
        return half_height * std::min(ms, range_ms_) / range_ms_;
    }

    /// Chords that do not fit beside one another stand in two rows; where these are full, one is
    /// left out.
    [[nodiscard]] std::vector<ChordLabel> labels(int from) const {
        std::vector<ChordLabel> all;
        double taken[] = {0, 0};
        std::string last;
        for (const auto& span : report_.map.form().spans) {
            if (span.bar < from || span.bar >= from + bars_a_piece || span.bar > reach_.to)
                continue;
            const auto symbol = span.chord ? span.chord->symbol() : "N.C.";
            if (symbol == last) continue;
            last = symbol;
            const auto beats = time::Beats(span.start - bar(span.bar).start).count();
            const double x = x_of(from, span.bar, beats) + 3;
            const double width = label_size * 1.15 * width_in_ems(symbol);
            for (int row = 0; row < 2; ++row) {
                if (taken[row] > x || x + width > piece_width + 12) continue;
                taken[row] = x + width + 6;
                all.push_back({x, row, symbol});
                break;
            }
        }
        return all;
    }

    [[nodiscard]] std::string piece(int from) const {
        Picture picture(piece_width, height());
        const int to = std::min(from + bars_a_piece - 1, reach_.to);
        const double width = x_of(from, to, 0) + piece_width / bars_a_piece;
        ground(picture, width);
        for (int number = from; number <= to; ++number) bar_line(picture, from, number);
        for (const auto& [where, place] : places_) {
            if (where.first < from || where.first > to) continue;
            const double x = x_of(from, where.first, where.second.from_bar_line().count());
            marks(picture, x + in_from_line, place.figures);
        }
        for (const auto& [where, place] : places_) {
            if (where.first < from || where.first > to) continue;
            const double x = x_of(from, where.first, where.second.from_bar_line().count());
            number(picture, x + in_from_line, where, place.figures);
        }
        const double y = head_height + 2 * half_height + label_size;
        for (const auto& label : labels(from)) {
            picture.words({label.x, y + label.row * chord_height}, label.symbol, "chord");
        }
        return picture.svg("piece");
    }

    void ground(Picture& picture, double width) const {
        const auto& own = report_.assessment.own_place.on_beats;
        const double place = own ? own->milliseconds() : 0;
        const double room = report_.tolerance().milliseconds();
        const double y = y_of_beat();
        const double top = height_of(room - std::min(place, 0.0));
        const double bottom = height_of(room + std::max(place, 0.0));
        picture.box({0, y - top, width, top + bottom}, "band");
        picture.line({0, y}, {width, y}, "beat");
    }

    void bar_line(Picture& picture, int from, int number) const {
        const double x = x_of(from, number, 0) + 1;
        const double bottom = head_height + 2 * half_height;
        picture.line({x, head_height}, {x, bottom}, "barline");
        const auto& here = bar(number);
        if (number == from) picture.words({x, label_size}, std::to_string(number), "number");
        if (here.bar_in_section != 1) return;
        const double beside = number == from ? number < 10 ? 22 : number < 100 ? 36 : 50 : 0;
        const double room = (piece_width / bars_a_piece * 2 - beside) / label_size;
        picture.words({x + beside, label_size}, fitting(here.section, room), "letter");
    }

    void marks(Picture& picture, double x, const PlaceFigures& figures) const {
        const double y = y_of_beat();
        if (const auto late = figures.late_ms()) {
            const double width = width_of(figures, PlaceFault::late);
            picture.box({x - width / 2, y, width, height_of(*late)}, "late");
        }
        if (const auto early = figures.early_ms()) {
            const double width = width_of(figures, PlaceFault::early);
            const double height = height_of(*early);
            picture.box({x - width / 2, y - height, width, height}, "early");
        }
        draw_signs(picture, {x, y}, half_height, figures);
    }

    /// Beside the end of its bar: of what is late and early by turns, the late one's.
    void number(Picture& picture, double x, const Where& where, const PlaceFigures& figures) const {
        if (numbered_.count(where) == 0) return;
        const auto late = figures.late_ms();
        const double ms = late ? *late : *figures.early_ms();
        const auto fault = late ? PlaceFault::late : PlaceFault::early;
        const double y = y_of_beat() + (late ? height_of(ms) - 1 : 15 - height_of(ms));
        picture.words({x + width_of(figures, fault) / 2 + 4, y}, fmt::format("{:.0f}", ms), "ms");
    }

    [[nodiscard]] static double width_of(const PlaceFigures& figures, PlaceFault fault) {
        return 4 + 14.0 * figures.count(fault) / std::max(1, figures.of);
    }

    const practice::Report& report_;
    const Places& places_;
    chart::Passage reach_;
    double range_ms_ = least_shown_ms;
    std::set<Where> numbered_;
    int rows_ = 1;
};

std::string place_words(const Places::value_type& place) {
    const auto& [where, played] = place;
    const auto beat = where.second == time::BeatOfBar(1) ? std::string()
                                                         : " beat " + plain(where.second.number());
    return fmt::format("bar {}{}", where.first, beat);
}

std::string change_words(const practice::PlayedPlace& place) {
    const auto to = place.to.symbol();
    return place.from ? place.from->symbol() + " → " + to : to;
}

std::string strip_table(const Places& places, bool tones) {
    std::vector<std::string> heads = {"where", "change", "times", "in time and right", "faults"};
    if (!tones) heads[3] = "in time";
    PageTable table("Each change of the form, over all times through", heads);
    for (const auto& place : places) {
        const auto& figures = place.second.figures;
        table.row({place_words(place), change_words(place.second), std::to_string(figures.of),
                   std::to_string(figures.right), place_fault_words(figures)});
    }
    return table.markup();
}

/// The costliest few in words.
std::string strip_says(const Places& places) {
    std::vector<const Places::value_type*> faulty;
    for (const auto& place : places) {
        if (place.second.figures.cost > 0) faulty.push_back(&place);
    }
    if (faulty.empty()) return "Every change was where it belongs.";
    std::stable_sort(faulty.begin(), faulty.end(), [](const auto* a, const auto* b) {
        return a->second.figures.cost > b->second.figures.cost;
    });
    constexpr std::size_t named = 4;
    std::string text = fmt::format("{} of {} places have faults. ", faulty.size(), places.size());
    for (std::size_t i = 0; i < std::min(faulty.size(), named); ++i) {
        text += fmt::format("{}{}, {}: {}", i == 0 ? "Most of all " : "; ", place_words(*faulty[i]),
                            change_words(faulty[i]->second),
                            place_fault_words(faulty[i]->second.figures));
    }
    return text + ".";
}

/// Columns on paper: as few as leave room for the rest of the page, so that lines end as phrases
/// do.
int columns_on_paper(const Strip& strip) {
    constexpr double paper_width = 190;  // mm
    constexpr double most_height = 88;
    constexpr double between = 1.5;
    constexpr int most_columns = 16;
    for (int columns = 2; columns < most_columns; columns *= 2) {
        const int rows = (strip.count() + columns - 1) / columns;
        const double height = strip.height() * paper_width / columns / piece_width;
        if (rows * (height + between) <= most_height) return columns;
    }
    return most_columns;
}

}  // namespace

std::string place_fault_words(const PlaceFigures& figures) {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < practice::place_faults; ++i) {
        const auto fault = static_cast<PlaceFault>(i);
        const int count = figures.count(fault);
        if (count == 0) continue;
        auto text = std::string(fault_words(fault));
        if (figures.of > 1) text += fmt::format(" {} of {} times", count, figures.of);
        const auto ms = fault == PlaceFault::late    ? figures.late_ms()
                        : fault == PlaceFault::early ? figures.early_ms()
                                                     : std::nullopt;
        if (ms) {
            text += figures.of > 1 ? fmt::format(", {:.0f} ms on average", *ms)
                                   : fmt::format(" {:.0f} ms", *ms);
        }
        words.push_back(std::move(text));
    }
    return fmt::format("{}", fmt::join(words, "; "));
}

PagePart strip_part(const practice::Report& report, const Places& places) {
    if (places.empty()) return {};
    const Strip strip(report, places);
    PagePart part{"strip", "Along the form", strip_says(places), "", "", ""};
    part.picture = fmt::format("<div class=\"pieces\" style=\"--on-paper: {}\">\n{}</div>\n",
                               columns_on_paper(strip), strip.pieces());
    part.below = key_of_signs(places);
    part.table = strip_table(places, practice::judges_tones(report));
    return part;
}

}  // namespace compline::report
