#pragma once

#include <compline/chart/chart.hpp>
#include <compline/text/bad_input.hpp>

#include <cstddef>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace compline::chart {

/// A bar of the unrolled form.
struct FormBar {
    int number = 1;          ///< from 1, the same in every time through
    std::string section;     ///< rehearsal letter
    int occurrence = 1;      ///< first A, second A ...
    int bar_in_section = 1;  ///< from 1
    time::Ticks start;       ///< from bar 1 beat 1
    time::Meter meter{4};
    AskedManner manner;              ///< what chart and section ask for
    std::vector<time::Ticks> kicks;  ///< from the bar line, ascending
    std::size_t first_span = 0;      ///< an index into the form's spans
    Key key;                         ///< where it stands
    std::optional<int> ending;       ///< it is a bar of this ending of its section
    time::Ticks hold;                ///< a fermata at its end
    std::optional<time::Bpm> tempo;  ///< its section's own; none: the chart's
    bool rubato = false;
    std::string cue;  ///< words over it; empty: none

    [[nodiscard]] time::Ticks end() const { return start + meter.bar() + hold; }
};

/// A chord as it sounds: repeats, similes and chords held over a bar line joined into one span
/// only within a bar; a chord that goes on in the next bar is a span of its own there.
struct Span {
    time::Ticks start;  ///< from bar 1 beat 1 of the form
    time::Ticks length;
    std::optional<harmony::Chord> chord;  ///< none: N.C.
    int bar = 1;                          ///< number of the bar it starts in
    bool optional = false;                ///< may be left out
};

/// Bars A to B of the form, both included.
struct Passage {
    int from = 1;
    int to = 1;
    [[nodiscard]] int bars() const { return to - from + 1; }
    bool operator==(const Passage&) const = default;
};

/// The unrolled form: what is played in one time through, as a list of bars and of spans. The coda,
/// which a time through goes to when it is the last, is behind it; its bars are numbered on.
struct Form {
    Chart chart;
    std::vector<FormBar> bars;
    std::vector<Span> spans;            ///< fill the form without a gap, in order
    std::vector<Span> lead_in = {};     ///< before bar 1: `start` is negative, `bar` is 0
    std::optional<int> coda_from = {};  ///< the coda's first bar, where there is one
    std::optional<int> to_coda = {};    ///< the bar from which it goes there
    std::optional<int> segno = {};      ///< the bar that D.S. goes back to
    std::optional<int> fine = {};       ///< the bar behind which al fine ends

    /// A time through as it is usually played, without the coda.
    [[nodiscard]] Passage whole() const {
        return {1, coda_from ? *coda_from - 1 : static_cast<int>(bars.size())};
    }
    /// The coda too.
    [[nodiscard]] Passage all() const { return {1, last_bar()}; }
    [[nodiscard]] int last_bar() const { return static_cast<int>(bars.size()); }
    [[nodiscard]] time::Ticks length() const {
        return bars.empty() ? time::Ticks(0) : bars.back().end();
    }
    /// Of bars of the form (asserted).
    [[nodiscard]] time::Ticks length(Passage passage) const {
        return bar(passage.to).end() - bar(passage.from).start;
    }
    /// The spans of a passage, `start` counted from the passage's first beat.
    [[nodiscard]] std::vector<Span> spans_of(Passage passage) const;
    /// The spans of a bar, `start` counted in the form. number 1 to bars.size(), asserted.
    [[nodiscard]] std::span<const Span> spans_in(int number) const;
    [[nodiscard]] const FormBar& bar(int number) const;  ///< number 1 to bars.size(), asserted
    /// As the chart has it.
    [[nodiscard]] const Section& section_of(const FormBar& bar) const;
};

/// What the comper means to play in a bar: as the section has it, else the chart, else free.
[[nodiscard]] Rhythm rhythm_in(const Form& form, const FormBar& bar);

/// The meter as the band feels it; nothing where a bar cannot be felt so.
[[nodiscard]] std::optional<time::Meter> felt(time::Meter meter, TimeFeel time_feel);

/// The ending that a time in a row takes: its own, or past the last number the last. Null for a
/// section without endings.
[[nodiscard]] const Ending* ending_of(const Section& section, int time_in_a_row);
/// The ending of that number; null where the section has none.
[[nodiscard]] const Ending* find_ending(const Section& section, int number);

/// How many bars a form has; of sections that are not there none are counted.
[[nodiscard]] std::size_t bars_of_form(const std::vector<FormPart>& form,
                                       const std::vector<Section>& sections);

/// The names of sections that the form does not play, in the order of the chart.
[[nodiscard]] std::vector<std::string> never_played(const Chart& chart);

/// Unrolls a chart. The chart's reader has checked that every section exists and that the form is
/// not too long.
[[nodiscard]] Form unroll(Chart chart);

/// The chord changes of one time through: chords that differ from the one before. The first chord
/// counts, and the first after N.C.
[[nodiscard]] int number_of_changes(const Form& form);

/// Reads "9-12", "9", "B:1-4" (in the first B), "A@2:1-4" (in the second A), "B" (all of the first
/// B) or "A ending 2" (those bars, in the first A that takes it). Throws text::BadInput.
[[nodiscard]] Passage read_passage(const Form& form, std::string_view text);

/// The same, but that a section without `@` is the last of its name.
[[nodiscard]] Passage read_last_passage(const Form& form, std::string_view text);

}  // namespace compline::chart
