#pragma once

namespace compline::assess {

/// The rules of reading and judging. It counts up when the same take may be judged otherwise than
/// before, so that what was judged by other rules can be told apart. 2: all readings of a take are
/// weighed together (2026-11-29).
inline constexpr int rules_version = 2;

}  // namespace compline::assess
