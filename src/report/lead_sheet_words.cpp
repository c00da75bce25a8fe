#include "lead_sheet_rows.hpp"
#include "road_signs.hpp"
#include "text_width.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

namespace compline::report {

namespace {

constexpr double letter_box = 5.2;
constexpr double name_box = 3.8;
constexpr double cue_foot = staff_foot + 6;

constexpr double cue_gap = 2;
constexpr double smallest_cue = 0.6;  ///< of their usual size

struct PlacedCue {
    std::string words;
    double bar;  ///< where its bar begins
    double x;
};

class StaffWordsDrawer {
  public:
    StaffWordsDrawer(Drawing& drawing, const chart::Form& form, const StaffPlace& at)
        : drawing_(drawing), form_(form), at_(at) {}

    void draw(const StaffRow& row) {
        if (row.front().begins_section) letter(form_.bar(row.front().number).section);
        for (std::size_t i = 0; i < row.size(); ++i) over(row[i], i);
        cues(row);
        brackets(row);
    }

  private:
    [[nodiscard]] double size() const { return small_size * at_.scale; }
    [[nodiscard]] static double box_size(const std::string& name) {
        return is_letter(name) ? letter_box : name_box;
    }

    void letter(const std::string& name) {
        const double letters = box_size(name) * at_.scale;
        const double width = std::max(1.0, width_in_ems(name)) * letters + 2;
        const double x = at_.paper.margin;
        drawing_.raw(fmt::format(
            "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"none\" "
            "stroke=\"#000\" stroke-width=\"0.3\"/>\n",
            svg_number(x), svg_number(at_.at(0)), svg_number(width), svg_number(letters * 1.25)));
        drawing_.text({x + width / 2, at_.at(0) + letters}, name,
                      {letters, Anchor::middle, Face::serif_bold, false});
    }

    void over(const BarAsWritten& shown, std::size_t in_row) {
        const double x = at_.bar_line(in_row);
        const double end = at_.bar_line(in_row + 1);
        const double y = at_.at(3.2);
        if (shown.begins_section) own_words(shown, x, y);
        if (shown.segno) {
            draw_segno(drawing_, {std::max(x, at_.paper.margin + 10) + 1.5, y - 1});
        }
        if (shown.to_coda) draw_to_coda(drawing_, {end, y}, size());
        if (shown.fine) draw_words(drawing_, {end, y}, "fine", size(), Anchor::end);
        if (shown.ends_repeat && shown.times > 2) {
            draw_words(drawing_, {end, at_.at(staff_top - 1)}, fmt::format("{} times", shown.times),
                       size(), Anchor::end);
        }
        if (shown.begins_coda) draw_coda(drawing_, {x - 3, at_.at(staff_top - 2)});
    }

    void own_words(const BarAsWritten& shown, double x, double y) {
        const auto& name = form_.bar(shown.number).section;
        const double box = width_in_ems(name) * box_size(name) * at_.scale + at_.paper.margin + 4;
        draw_words(drawing_, {std::max(x, box) + (shown.segno ? 4 : 0), y}, shown.own, size());
    }

    /// Each under its bar, moved aside or all of them smaller where they would touch.
    void cues(const StaffRow& row) {
        std::vector<PlacedCue> cues;
        for (std::size_t i = 0; i < row.size(); ++i) {
            if (!row[i].cue.empty()) cues.push_back({row[i].cue, at_.bar_line(i) + 2, 0});
        }
        double letters = size();
        while (!move_apart(cues, letters) && letters > smallest_cue * size()) letters *= 0.95;
        if (!move_apart(cues, letters)) cut(cues, letters);
        for (const auto& cue : cues) {
            draw_words(drawing_, {cue.x, at_.at(cue_foot)}, cue.words, letters);
        }
    }

    /// To equal shares of the row, where nothing else helps.
    void cut(std::vector<PlacedCue>& cues, double letters) const {
        const double row = at_.paper.right() - at_.bar_line(0);
        const double share = row / static_cast<double>(cues.size()) - cue_gap;
        for (auto& cue : cues) cue.words = fitting(cue.words, share / letters);
        move_apart(cues, letters);
    }

    /// To the left of its bar a cue moves first. Whether all have room.
    bool move_apart(std::vector<PlacedCue>& cues, double letters) const {
        double end = at_.paper.right() + cue_gap;
        for (auto cue = cues.rbegin(); cue != cues.rend(); ++cue) {
            cue->x = std::min(cue->bar, end - cue_gap - width_in_ems(cue->words) * letters);
            end = cue->x;
        }
        double from = at_.bar_line(0) + 2;
        for (auto& cue : cues) {
            cue.x = std::max(cue.x, from);
            from = cue.x + width_in_ems(cue.words) * letters + cue_gap;
        }
        return from - cue_gap <= at_.paper.right() + 0.01;
    }

    /// One that goes on from the row before has no number.
    void brackets(const StaffRow& row) {
        for (std::size_t i = 0; i < row.size(); ++i) {
            if (!row[i].in_ending || (i > 0 && row[i].ending.empty())) continue;
            std::size_t to = i + 1;
            while (to < row.size() && row[to].in_ending && row[to].ending.empty()) ++to;
            draw_ending(drawing_, {at_.bar_line(i) + 0.4, at_.at(0.6)}, at_.bar_line(to) - 0.6,
                        row[i].ending, size());
        }
    }

    Drawing& drawing_;
    const chart::Form& form_;
    const StaffPlace& at_;
};

}  // namespace

void draw_staff_words(Drawing& drawing, const chart::Form& form, const StaffRow& row,
                      const StaffPlace& place) {
    StaffWordsDrawer(drawing, form, place).draw(row);
}

}  // namespace compline::report
