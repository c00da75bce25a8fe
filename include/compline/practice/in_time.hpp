#pragma once

#include <compline/assess/assessment.hpp>

namespace compline::practice {

/// It counts for how many changes were in time: it was judged for certain, and not laid out.
[[nodiscard]] inline bool counts_for_time(const assess::Change& change) {
    return !change.uncertain && change.verdict != assess::Verdict::laid_out;
}

/// On time, pushed, placed or held, and no wait for a grip.
[[nodiscard]] inline bool is_in_time(const assess::Change& change) {
    using assess::Verdict;
    const bool landed = change.verdict == Verdict::on_time || change.verdict == Verdict::pushed ||
                        change.verdict == Verdict::placed || change.verdict == Verdict::held;
    return landed && !change.wait;
}

}  // namespace compline::practice
