#pragma once

#include <compline/time/swing.hpp>
#include <compline/time/units.hpp>

#include <vector>

namespace compline::time {

/// Swing that changes along the way, at bar lines: a bossa A and a swung B. Beats stay where they
/// are under every swing, so nothing moves at a change but the off-beats. Empty: no change ever.
///
/// It lies within notes of a `unit`, counted from where it was added: quarters, but halves in
/// half-time, and quarters from the bar line also where a bar before had four and a half of them.
class SwingChanges {
  public:
    SwingChanges() = default;

    /// From `from` on, swing `swing` within notes of `unit` (more than 0, asserted); in order of
    /// `from` (asserted).
    void add(Ticks from, const Swing& swing, Ticks unit = quarter_note);

    /// What stands from `from` on comes again and again, `length` (more than 0, asserted) at a
    /// time.
    void repeat(Ticks from, Ticks length);

    /// The swing at a written position; `otherwise` before the first change.
    [[nodiscard]] Swing at(Ticks written, const Swing& otherwise) const;

    /// Written position -> played position.
    [[nodiscard]] Beats played(Ticks written, const Swing& otherwise) const;

    /// Played position -> where it would stand if written straight, the inverse of played().
    /// `beat`: a written position between the same two changes.
    [[nodiscard]] Beats written(Beats played, Ticks beat, const Swing& otherwise) const;

  private:
    struct SwingChange {
        Ticks from;
        Swing swing;
        Ticks unit;
    };
    /// What holds at a position, and by how much it is shifted from where it was added.
    struct Holding {
        Swing swing;
        Ticks unit = quarter_note;
        Ticks origin;
        /// Whether the units are the quarters that are counted from bar 1 on.
        [[nodiscard]] bool is_plain() const {
            return unit == quarter_note && origin % quarter_note == Ticks(0);
        }
        /// Where the unit begins that a position at or after the origin lies in.
        [[nodiscard]] Ticks unit_of(Ticks at) const { return at - (at - origin) % unit; }
    };
    [[nodiscard]] Holding holding(Ticks written, const Swing& otherwise) const;

    std::vector<SwingChange> changes_;
    Ticks loop_from_;
    Ticks loop_length_;  // 0: none
};

}  // namespace compline::time
