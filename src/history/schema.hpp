#pragma once

#include "database.hpp"

namespace compline::history {

// The tables, and the way there from every older version of them. `user_version` counts them:
//
// 1: charts and takes, with each time through, change and strum.
// 2: what an evening came to, for what is asked often; homework (2026-11-30).
//
// Each step is one transaction: a program that is killed in it leaves the version before.

inline constexpr int schema_version = 2;
/// "Cmpl": tells a history and a database of another program apart (SQLite's application_id).
inline constexpr std::int64_t application_id = 0x436d706c;

/// Brings a database up to date; an empty one becomes a history. Throws DamagedHistory for one of
/// another program, text::BadInput for one that a later version of this program wrote.
void bring_up_to_date(Database& database);

}  // namespace compline::history
