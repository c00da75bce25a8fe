#include "echoes.hpp"

#include "front.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

namespace compline::guitar {

namespace {

constexpr int fewest_bars = 4;
constexpr std::size_t fewest_chords = 4;

bool is_same_chord(const ToVoice& one, const ToVoice& other) {
    return one.change.beat == other.change.beat && one.change.length == other.change.length &&
           one.goes_on == other.goes_on && one.change.to.symbol() == other.change.to.symbol();
}

class Listening {
  public:
    Listening(const Tune& tune, time::Meter meter) : tune_(tune), meter_(meter) {}

    Echoes listen() {
        const auto n = tune_.stops.size();
        Echoes echoes(n);
        std::iota(echoes.begin(), echoes.end(), std::size_t{0});
        for (std::size_t j = 1; j < n;) {
            const auto [of, length] = longest_before(j);
            for (std::size_t k = 1; k < length; ++k) echoes[j + k] = echoes[of + k];
            j += std::max<std::size_t>(length, 1);
        }
        return echoes;
    }

  private:
    struct Repeat {
        std::size_t of = 0;
        std::size_t length = 0;  ///< in chords; 0: none that is long enough
    };

    [[nodiscard]] Repeat longest_before(std::size_t j) const {
        Repeat longest;
        for (std::size_t i = 0; i < j; ++i) {
            const auto length = alike(i, j);
            if (length > longest.length && is_long(i, length)) longest = {i, length};
        }
        return longest;
    }

    /// How many chords from two on are the same, in the same bars of the two stretches.
    [[nodiscard]] std::size_t alike(std::size_t i, std::size_t j) const {
        const auto& chords = tune_.chords;
        const int bars = chords[j].change.bar - chords[i].change.bar;
        std::size_t k = 0;
        while (i + k < j && j + k < chords.size() &&
               chords[j + k].change.bar - chords[i + k].change.bar == bars &&
               is_same_chord(chords[i + k], chords[j + k]) &&
               (k == 0 || is_same_stop(tune_.stops[i + k], tune_.stops[j + k]))) {
            ++k;
        }
        return k;
    }

    static bool is_same_stop(const Stop& one, const Stop& other) {
        return one.candidates == other.candidates && one.way_in == other.way_in;
    }

    [[nodiscard]] bool is_long(std::size_t i, std::size_t length) const {
        const auto& last = tune_.chords[i + length - 1].change;
        const auto lasts = last.in_form + last.length - tune_.chords[i].change.in_form;
        return length >= fewest_chords && lasts >= meter_.bar() * fewest_bars;
    }

    const Tune& tune_;
    time::Meter meter_;
};

/// A stretch of stops that are tied to others, and where it begins each time.
struct Tied {
    std::vector<std::size_t> begins;
    std::size_t length = 0;
};

std::vector<Tied> tied_stretches(const Echoes& echoes) {
    std::vector<std::vector<std::size_t>> places(echoes.size());
    for (std::size_t j = 0; j < echoes.size(); ++j) places[echoes[j]].push_back(j);
    const auto goes_on = [&](std::size_t j) {
        const auto& here = places[j];
        const auto& next = places[j + 1];
        return std::equal(here.begin(), here.end(), next.begin(), next.end(),
                          [](std::size_t a, std::size_t b) { return a + 1 == b; });
    };
    std::vector<Tied> stretches;
    for (std::size_t j = 0; j < echoes.size(); ++j) {
        if (places[j].size() < 2) continue;
        Tied tied{places[j], 1};
        while (j + 1 < echoes.size() && goes_on(j)) {
            ++tied.length;
            ++j;
        }
        stretches.push_back(std::move(tied));
    }
    return stretches;
}

/// Weighs the grips that a way has in one place of a tied stretch in all of its places.
class Weighing {
  public:
    Weighing(const std::vector<Stop>& stops, const WayRound& way) : stops_(stops), way_(way) {}

    /// The place whose grips serve best.
    [[nodiscard]] std::size_t best_pattern(const Tied& tied) const {
        Cost least = never;
        std::size_t best = tied.begins.front();
        for (const std::size_t pattern : tied.begins) {
            Cost cost = 0;
            for (const std::size_t begin : tied.begins)
                cost += cost_at(begin, pattern, tied.length);
            if (cost >= least) continue;
            least = cost;
            best = pattern;
        }
        return best;
    }

  private:
    [[nodiscard]] std::size_t turned(std::size_t j) const { return j % stops_.size(); }
    [[nodiscard]] Cost reach(std::size_t to, std::uint32_t from_id, std::uint32_t to_id) const {
        const auto before = turned(to + stops_.size() - 1);
        return packed_reach(stops_[before].candidates->packed(from_id),
                            stops_[to].candidates->packed(to_id), stops_[to].way_in);
    }

    /// The stop before may still change, the one behind stays as it is.
    [[nodiscard]] Cost cost_at(std::size_t begin, std::size_t pattern, std::size_t length) const {
        const auto& ids = way_.ids;
        Cost cost = 0;
        for (std::size_t k = 0; k < length; ++k) {
            cost += stops_[begin + k].candidates->cost(ids[pattern + k]);
            if (k > 0) cost += reach(begin + k, ids[pattern + k - 1], ids[pattern + k]);
        }
        const auto after = turned(begin + length);
        cost += reach(after, ids[pattern + length - 1], ids[after]);
        const auto first = turned(begin + stops_.size() - 1);
        const auto before = turned(first + stops_.size() - 1);
        Cost way_in = never;
        for (const auto id : stops_[first].ids) {
            way_in = std::min(way_in, stops_[first].candidates->cost(id) +
                                          reach(first, ids[before], id) +
                                          reach(begin, id, ids[pattern]));
        }
        return cost + way_in;
    }

    const std::vector<Stop>& stops_;
    const WayRound& way_;
};

}  // namespace

Echoes echoes_of(const Tune& tune, time::Meter meter) { return Listening(tune, meter).listen(); }

std::optional<WayRound> best_echoing_way(const FingerTable& table, const std::vector<Stop>& stops,
                                         const Echoes& echoes, std::optional<Cost> below) {
    auto free_way = best_way(table, stops, below);
    const auto stretches = tied_stretches(echoes);
    if (!free_way || stretches.empty()) return free_way;
    const Weighing weighing(stops, *free_way);
    auto tied_stops = stops;
    for (const auto& tied : stretches) {
        const auto pattern = weighing.best_pattern(tied);
        for (const std::size_t begin : tied.begins) {
            for (std::size_t k = 0; k < tied.length; ++k) {
                tied_stops[begin + k].ids = {free_way->ids[pattern + k]};
            }
        }
    }
    return best_way(table, tied_stops, below);
}

}  // namespace compline::guitar
