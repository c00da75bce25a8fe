#include "over_time_rows.hpp"

#include <compline/report/columns.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

namespace compline::report {

namespace {

using practice::Became;
using practice::OverTime;
using practice::PlaceOverTime;

/// What else there is to say leaves so many lines of a screen to places.
constexpr std::size_t most_rows = 10;
constexpr std::array<Became, 4> in_order = {Became::worse, Became::better, Became::same,
                                            Became::once};
/// Of each, so many are listed before others get their room.
constexpr std::array<std::size_t, 4> listed_first = {5, 3, 2, 0};

/// Of those that became so, what differs most first, then what costs most, then by the form.
PlaceRows places_that_became(const OverTime& over, Became became, Listing listing) {
    PlaceRows rows;
    for (const auto& place : over.places) {
        const bool is_news = became == Became::worse || became == Became::better;
        const bool listed = listing == Listing::all || is_news || !place.always_right();
        if (place.became() == became && listed) rows.push_back(&place);
    }
    const auto weight = [&](const PlaceOverTime* place) {
        const bool by_gain = became == Became::worse || became == Became::better;
        return by_gain ? std::fabs(place->between.gain()) : place->between.after.cost_each();
    };
    std::stable_sort(rows.begin(), rows.end(),
                     [&](const auto* a, const auto* b) { return weight(a) > weight(b); });
    return rows;
}

std::string_view left_words(Became became, const OverTime& over) {
    if (became == Became::same) return "the same";
    if (became != Became::once) return practice::name_of(became);
    return over.evenings.size() == 1 ? "others" : "played on one evening alone";
}

}  // namespace

PlaceRows rows_to_list(const OverTime& over, Listing listing) {
    std::array<PlaceRows, in_order.size()> found;
    std::array<std::size_t, in_order.size()> listed{};
    std::size_t room = most_rows;
    for (std::size_t i = 0; i < in_order.size(); ++i) {
        found[i] = places_that_became(over, in_order[i], listing);
        listed[i] = std::min(found[i].size(), listed_first[i]);
        room -= listed[i];
    }
    PlaceRows rows;
    for (std::size_t i = 0; i < in_order.size(); ++i) {
        const auto more = std::min(found[i].size() - listed[i], room);
        room -= more;
        const auto all = listing == Listing::all ? found[i].size() : listed[i] + more;
        rows.insert(rows.end(), found[i].begin(),
                    found[i].begin() + static_cast<std::ptrdiff_t>(all));
    }
    return rows;
}

std::string not_listed_line(const OverTime& over, const PlaceRows& rows) {
    std::array<int, in_order.size()> left{};
    int always_right = 0;
    for (const auto& place : over.places) {
        if (std::find(rows.begin(), rows.end(), &place) != rows.end()) continue;
        if (place.always_right()) {
            ++always_right;
        } else {
            ++left.at(static_cast<std::size_t>(place.became()));
        }
    }
    std::vector<std::string> list;
    for (const auto became : in_order) {
        const int n = left.at(static_cast<std::size_t>(became));
        if (n > 0) list.push_back(fmt::format("{} {}", n, left_words(became, over)));
    }
    if (always_right > 0) list.push_back(fmt::format("{} always right", always_right));
    if (list.empty()) return "";
    return hanging(fmt::format("Not listed: {} (--all lists them).", fmt::join(list, ", ")),
                   terminal_columns, 0) +
           "\n";
}

}  // namespace compline::report
