#pragma once

#include "charts.hpp"
#include "database.hpp"

#include <optional>
#include <string>
#include <vector>

namespace compline::history {

/// Reads what a player did of a tune, as one of its charts has it: of other charts of the tune only
/// what was played in the same places to the same chords. Tempi and clean times through are taken
/// as they were.
class TuneReader {
  public:
    /// `since`: evenings from that date on; empty: all.
    TuneReader(Database& database, std::string player, std::string since);

    /// The tunes of the player, the last played first, each by its newest chart.
    [[nodiscard]] std::vector<TuneHistory> all();
    /// One, by this chart; none where the player has not played it.
    [[nodiscard]] std::optional<TuneHistory> one(std::int64_t tune, const KeptChart& chart);

  private:
    [[nodiscard]] std::vector<std::int64_t> charts_of(std::int64_t tune);
    [[nodiscard]] TuneHistory read(const KnownTune& tune, const std::vector<std::int64_t>& charts);
    void add_chart(std::int64_t chart, const std::string& hash, const ChartPlaces& places,
                   TuneHistory& history);

    Database& database_;
    std::string player_;
    std::string since_;
    Statement evenings_;
    Statement places_;
    Statement tempi_;
    Statement runs_;
    Statement hash_;
};

/// By its chart's row.
[[nodiscard]] KnownTune known_tune(Database& database, std::int64_t chart);

}  // namespace compline::history
