#include "large_drawing.hpp"

#include "count_in.hpp"
#include "due_grips.hpp"
#include "glance_words.hpp"
#include "large_chord.hpp"
#include "status_words.hpp"
#include "words.hpp"

#include <compline/report/columns.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::report {

namespace {

using roadmap::PlayedPlace;
using time::Ticks;

constexpr int between_words = 6;  ///< pixels

/// What something takes of a line.
struct Columns {
    int from = 0;
    int behind = 0;
};

/// What is large, as it is being drawn.
class LargeDrawing {
  public:
    LargeDrawing(const LargeLayout& layout, const ChartRows& rows, const Playing& playing,
                 const PlayedPlace& place, Ticks position)
        : layout_(layout),
          rows_(rows),
          playing_(playing),
          place_(place),
          position_(position),
          meter_(playing.map.bar(place.number).meter()),
          due_(due_chords(playing.map, place, playing.decided.paused)),
          canvas_(playing.window.columns, layout.drawn()) {
        if (place.before) count_ = count_in(playing.map, place, position);
    }

    std::vector<std::string> lines() {
        if (layout_.header > 0) draw_header();
        draw_now(layout_.header);
        const int beats = layout_.header + layout_.now;
        draw_beats(beats);
        draw_next(beats + layout_.beats);
        draw_grip();
        return canvas_.drawn();
    }

  private:
    /// What has room of section, bar, time through and tempo.
    void draw_header() {
        const auto bar = playing_.map.bar(place_.number);
        const auto& section = playing_.map.form().bar(place_.bar).section;
        int column = 0;
        for (const auto& text :
             {has_glyphs(section) ? section : std::string(), fmt::format("bar {}", place_.bar),
              ordinal(place_.time_through) + " time", tempo_number(bar.tempo) + " bpm"}) {
            if (text.empty() || column + pixels_across(text) > layout_.columns) continue;
            column = canvas_.draw(text, column, 0, {}) + between_words;
        }
    }

    void draw_now(int line) {
        if (place_.before) {
            if (!count_.words.empty()) draw_text(count_.words.back(), line, layout_.now);
        } else if (due_.sounds) {
            draw_chord(large_chord(due_.now), 0, line, layout_.now);
        } else if (playing_.decided.paused) {
            draw_pause(line, layout_.now);
        }
    }

    void draw_text(const std::string& text, int line, int lines) {
        draw_chord({text, "", ""}, 0, line, lines);
    }

    /// About in the middle of its lines, further left where there is no room.
    Columns draw_chord(const LargeChord& chord, int column, int line, int lines) {
        const auto size = size_of(chord, layout_.columns, lines * 2);
        const auto text = cut_to_columns(chord.root + chord.suffix + chord.bass, layout_.columns);
        const int across = size ? pixels_across(chord, *size) : columns_of(text);
        const int from = std::min(column, layout_.columns - across);
        if (size) {
            const int above = (lines * 2 - size->rows()) / 4;  // whole lines: letters are crisp so
            draw(canvas_, chord, *size, from, (line + above) * 2);
        } else {
            canvas_.write(text, from, line + lines / 2);
        }
        return {from, from + across};
    }

    /// Two upright beams.
    Columns draw_pause(int line, int lines) {
        const int beam = std::max(2, lines / 2);
        for (const int column : {0, beam * 2}) canvas_.fill(column, line * 2, beam, lines * 2 - 1);
        return {0, beam * 3};
    }

    [[nodiscard]] int column_of(Ticks in_bar) const {
        return static_cast<int>(in_bar.count() * beats_columns() / meter_.bar().count());
    }
    /// With those of a gap, which is missing behind the last block.
    [[nodiscard]] int beats_columns() const {
        const int all = layout_.next > 0 ? layout_.columns : layout_.columns * 3 / 5;
        return all + gap();
    }
    [[nodiscard]] int gap() const { return layout_.columns >= 60 ? 2 : 1; }

    [[nodiscard]] std::optional<int> beat() const {
        if (place_.before && count_.words.empty()) return std::nullopt;
        if (place_.before) return static_cast<int>(count_.words.size() - 1) % count_.beats;
        if (place_.over) return std::nullopt;
        return std::min(meter_.beats() - 1, static_cast<int>(place_.in_bar / meter_.beat()));
    }

    void draw_beats(int line) {
        const int rows = layout_.beats * 2;
        const auto now = beat();
        for (int n = 0; n < meter_.beats(); ++n) {
            const int from = column_of(meter_.beat() * n);
            const int columns = column_of(meter_.beat() * (n + 1)) - gap() - from;
            const int height = now == n ? rows : 1;
            canvas_.fill(from, line * 2 + rows - height, columns, height);
        }
        if (comes_here()) canvas_.fill(column_of(due_.next->in_bar), line * 2, gap(), rows);
        if (layout_.next == 0) write_next(line);
    }

    /// Beside the beats, where it has no lines of its own.
    void write_next(int line) {
        if (!due_.next) return;
        const int column = beats_columns() + 1;
        const auto text = "next " + chord_words(due_.next->chord);
        canvas_.write(cut_to_columns(text, std::max(1, layout_.columns - column)), column, line);
    }

    void draw_next(int line) {
        const int first = line + layout_.label;
        Columns taken;
        if (due_.next && layout_.next > 0) {
            const int from = comes_here() ? column_of(due_.next->in_bar) : 0;
            taken = draw_chord(large_chord(due_.next->chord), from, first, layout_.next);
        } else if (playing_.decided.paused && due_.sounds && layout_.next > 0) {
            taken = draw_pause(first, layout_.next);
        }
        if (layout_.label > 0) canvas_.write(label(), taken.from, line);
        if (layout_.next > 0) draw_notice(first, taken);
    }

    /// The next chord, in the bar that is being played.
    [[nodiscard]] bool comes_here() const {
        return due_.next && due_.sounds && due_.next->bars_ahead == 0;
    }

    [[nodiscard]] std::string label() const {
        if (place_.before) return "first";
        if (place_.over) return due_.next ? "goes on with" : "";
        if (due_.next) {
            const auto when = when_words(*due_.next, playing_.map, place_);
            return (comes_here() ? "next, " : "") + when;
        }
        if (playing_.decided.paused) return "then a pause";
        return playing_.map.bars() ? "to the end" : "";
    }

    /// At the right of the next chord, or at its left.
    void draw_notice(int line, Columns taken) {
        const auto words = notice(playing_, place_);
        if (words.empty() || (playing_.decided.paused && !due_.sounds)) return;
        const int across = pixels_across(words);
        const bool right = taken.behind + between_words + across <= layout_.columns;
        const bool left = across + between_words <= taken.from;
        const int row = line * 2 + layout_.next * 2 - glyph_rows;
        if (right) canvas_.draw(words, layout_.columns - across, row, {});
        if (!right && left) canvas_.draw(words, 0, row, {});
    }

    void draw_grip() {
        if (playing_.voicings == nullptr) return;
        const auto grips = due_grips(rows_, playing_, position_);
        const auto* voicing = grips.now.voicing != nullptr ? grips.now.voicing : grips.next.voicing;
        if (voicing == nullptr) return;
        const auto shape = voicing->grip.shape.text();
        const int column = playing_.window.columns - layout_.grip_columns;
        if (!layout_.grip) {
            draw_text(shape, canvas_.lines() - layout_.shape, layout_.shape);
        } else if (layout_.grip->lines(frets_of(voicing->grip.shape)) > canvas_.lines()) {
            canvas_.write(shape, column, 0);
        } else {
            draw(canvas_, voicing->grip, *layout_.grip, column, 0, playing_.hand);
        }
    }

    const LargeLayout& layout_;
    const ChartRows& rows_;
    const Playing& playing_;
    const PlayedPlace& place_;
    Ticks position_;
    time::Meter meter_;
    DueChords due_;
    CountIn count_;
    Canvas canvas_;
};

}  // namespace

std::vector<std::string> large_drawing(const LargeLayout& layout, const ChartRows& rows,
                                       const Playing& playing, const PlayedPlace& place,
                                       Ticks position) {
    return LargeDrawing(layout, rows, playing, place, position).lines();
}

}  // namespace compline::report
