#pragma once

#include "database.hpp"

#include <string>

namespace compline::history {

// What an evening of a chart came to, summed when something of it changes: reading every change of
// a thousand takes would take half a second, and nobody waits so long for a line of words.

/// Which evening, by whom and of which chart.
struct EveningKey {
    std::string player;
    std::int64_t chart = 0;
    std::string date;
    auto operator<=>(const EveningKey&) const = default;
};

/// Anew, from the takes that are there; nothing is left where there are none.
void sum_evening(Database& database, const EveningKey& evening);
void sum_all_evenings(Database& database);

}  // namespace compline::history
