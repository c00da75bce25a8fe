#pragma once

#include <compline/time/swing.hpp>
#include <compline/time/units.hpp>

#include <vector>

namespace compline::time {

/// Swing that changes along the way, at bar lines: a bossa A and a swung B. Beats stay where they
/// are under every swing, so nothing moves at a change but the off-beats. Empty: no change ever.
class SwingChanges {
  public:
    SwingChanges() = default;

    /// From `from` on, swing `swing`; in order of `from` (asserted).
    void add(Ticks from, const Swing& swing);

    /// What stands from `from` on comes again and again, `length` (more than 0, asserted) at a
    /// time.
    void repeat(Ticks from, Ticks length);

    /// The swing at a written position; `otherwise` before the first change.
    [[nodiscard]] Swing at(Ticks written, const Swing& otherwise) const;

  private:
    struct SwingChange {
        Ticks from;
        Swing swing;
    };
    std::vector<SwingChange> changes_;
    Ticks loop_from_;
    Ticks loop_length_;  // 0: none
};

}  // namespace compline::time
