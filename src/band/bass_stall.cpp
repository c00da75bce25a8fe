#include <compline/band/walk.hpp>

#include <algorithm>

namespace compline::band {

namespace {

constexpr std::ptrdiff_t running = 8;  // notes
constexpr std::ptrdiff_t fewest_pitches = 4;
constexpr int narrowest = 5;  // a fourth
constexpr std::ptrdiff_t most_given = 4;

using At = std::vector<LineNote>::const_iterator;

std::ptrdiff_t given_among(At from, At to) {
    return std::count_if(from, to, [](const LineNote& heard) { return heard.given; });
}

/// From `from` to `to` few pitches within a narrow range, though the notes could be chosen.
bool stands_still(At from, At to, std::ptrdiff_t given) {
    const bool together =
        std::all_of(from, to, [](const LineNote& heard) { return heard.walks; }) &&
        std::all_of(from + 1, to, [](const LineNote& heard) { return heard.joins; });
    if (!together || given > most_given) return false;
    std::ptrdiff_t pitches = 0;
    int low = from->note;
    int high = from->note;
    for (At it = from; it != to; ++it) {
        low = std::min(low, it->note);
        high = std::max(high, it->note);
        pitches +=
            std::none_of(from, it, [&](const LineNote& heard) { return heard.note == it->note; });
    }
    return pitches < fewest_pitches || high - low < narrowest;
}

/// The bar from `from` to `to` is the bar before it again, from its first note to its last.
bool says_it_again(At begin, At from, At to) {
    const auto count = to - from;
    if (from - begin < count || given_among(from, to) == count) return false;
    const At before = from - count;
    if (before->bar != from->bar - 1 || (before != begin && (before - 1)->bar == before->bar)) {
        return false;
    }
    return std::equal(from, to, before, [](const LineNote& a, const LineNote& b) {
        return a.walks && b.walks && a.note == b.note;
    });
}

}  // namespace

std::vector<Stall> stalls_of(const std::vector<LineNote>& line, std::ptrdiff_t given_next) {
    std::vector<Stall> stalls;
    const auto stalls_if_still = [&](At from, At to, std::ptrdiff_t given) {
        if (!stands_still(from, to, given)) return;
        stalls.push_back({static_cast<std::size_t>(from - line.begin()),
                          static_cast<std::size_t>(to - line.begin()) - 1});
    };
    At bar = line.begin();
    for (At it = line.begin(); it != line.end(); ++it) {
        if (it->bar != bar->bar) bar = it;
        const At to = it + 1;
        if (to - line.begin() >= running)
            stalls_if_still(to - running, to, given_among(to - running, to));
        const bool ends_bar = to == line.end() || to->bar != it->bar;
        if (ends_bar && says_it_again(line.begin(), bar, to)) {
            stalls.push_back({static_cast<std::size_t>(bar - line.begin()),
                              static_cast<std::size_t>(it - line.begin())});
        }
    }
    for (std::ptrdiff_t next = 1; next <= std::min(given_next, most_given); ++next) {
        const std::ptrdiff_t own = running - next;
        if (own > line.end() - line.begin()) continue;
        const At from = line.end() - own;
        stalls_if_still(from, line.end(), given_among(from, line.end()) + next);
    }
    return stalls;
}

}  // namespace compline::band
