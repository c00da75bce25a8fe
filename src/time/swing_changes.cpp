#include <compline/time/swing_changes.hpp>

#include <algorithm>
#include <cassert>

namespace compline::time {

void SwingChanges::add(Ticks from, const Swing& swing) {
    assert(changes_.empty() || changes_.back().from < from);
    if (!changes_.empty() && changes_.back().swing == swing) return;  // no change
    changes_.push_back({from, swing});
}

void SwingChanges::repeat(Ticks from, Ticks length) {
    assert(length > Ticks(0));
    loop_from_ = from;
    loop_length_ = length;
}

Swing SwingChanges::at(Ticks written, const Swing& otherwise) const {
    if (changes_.empty()) return otherwise;
    if (loop_length_ > Ticks(0) && written >= loop_from_) {
        written = loop_from_ + (written - loop_from_) % loop_length_;
    }
    const auto after = std::upper_bound(changes_.begin(), changes_.end(), written,
                                        [](Ticks at, const SwingChange& c) { return at < c.from; });
    return after == changes_.begin() ? otherwise : std::prev(after)->swing;
}

}  // namespace compline::time
