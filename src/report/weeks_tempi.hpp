#pragma once

#include "page_part.hpp"

#include <compline/report/weeks.hpp>

#include <string>
#include <vector>

namespace compline::report {

/// Tempi that nobody would tell apart, as a ladder has them, together.
struct TempoBand {
    int from = 0;
    int to = 0;
    history::ChangeSums whole;  ///< of the whole tune
    history::ChangeSums bars;   ///< of bars of it
    int right = 0;
    int times = 0;
    int clean = 0;
    /// "96-100".
    [[nodiscard]] std::string name() const;
};

[[nodiscard]] std::vector<TempoBand> tempo_bands(const std::vector<history::TempoSums>& tempi);

/// Time by tempo as a picture; nothing where there was but one.
[[nodiscard]] PagePart weeks_tempi_part(const TuneWeeks& tune);

}  // namespace compline::report
