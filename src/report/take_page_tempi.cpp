#include "take_page_tempi.hpp"

#include "picture.hpp"
#include "take_page_map.hpp"
#include "words.hpp"

#include <compline/practice/in_time.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace compline::report {

namespace {

constexpr double tempi_width = 400;
constexpr double share_height = 110;
constexpr double tempi_words = 28;
constexpr double tempo_apart = 48;  ///< a number of three digits, and room
constexpr double clean_share = 0.9;
constexpr double widest_column = 60;

using ByTempo = std::map<time::Bpm, InTime>;

ByTempo by_tempo(const practice::Report& report) {
    ByTempo tempi;
    for (const auto& change : report.assessment.changes) {
        if (change.seam || !practice::counts_for_time(change)) continue;
        auto& sum = tempi[tempo_of_time(report.map, change.time_through)];
        ++sum.of;
        sum.changes += practice::is_in_time(change) ? 1 : 0;
    }
    return tempi;
}

double share(const InTime& sum) { return static_cast<double>(sum.changes) / sum.of; }

std::string tempi_picture(const ByTempo& tempi) {
    Picture picture(tempi_width, share_height + tempi_words);
    const double column = std::min(tempi_width / static_cast<double>(tempi.size()), widest_column);
    double x = 0;
    double free = 0;
    for (const auto& [tempo, sum] : tempi) {
        const double height = share_height * share(sum);
        picture.box({x + 2, share_height - height, column - 4, height},
                    share(sum) < clean_share ? "under" : "over");
        if (x >= free) {
            picture.words({std::max(x + column / 2, tempo_apart / 2), share_height + 23},
                          tempo_number(tempo), "number middle");
            free = x + tempo_apart;
        }
        x += column;
    }
    const double clean = share_height * (1 - clean_share);
    picture.line({0, clean}, {x, clean}, "wanted");
    picture.line({0, share_height}, {x, share_height}, "ground");
    return picture.svg("tempi");
}

std::string tempi_table(const ByTempo& tempi) {
    PageTable table("In time by tempo", {"bpm", "in time", "of"});
    for (const auto& [tempo, sum] : tempi) {
        table.row({tempo_number(tempo), std::to_string(sum.changes), std::to_string(sum.of)});
    }
    return table.markup();
}

/// "at 106 48 of 48, at 137 9 of 12".
std::string tempi_says(const ByTempo& tempi) {
    const auto words = [](const ByTempo::value_type& one) {
        return fmt::format("at {} bpm {} of {}", tempo_number(one.first), one.second.changes,
                           one.second.of);
    };
    return "Changes in time: " + words(*tempi.begin()) + ", " + words(*tempi.rbegin()) + ".";
}

}  // namespace

PagePart tempi_part(const practice::Report& report) {
    const auto tempi = by_tempo(report);
    if (tempi.size() < 2) return {};
    PagePart part{"bytempo", "In time by tempo", tempi_says(tempi), tempi_picture(tempi),
                  "",        tempi_table(tempi)};
    part.below = "The line is nine in ten.";
    return part;
}

}  // namespace compline::report
