#include "guide_line.hpp"

#include "home.hpp"
#include "written_tones.hpp"

#include <compline/guitar/hand.hpp>

#include <algorithm>
#include <cstdlib>
#include <limits>

namespace compline::guitar {

namespace {

constexpr int highest_fret = 14;
// A semitone of one voice costs more than all that the place on the neck can say of one chord.
constexpr int semitone = 100;
constexpr int away = 6;  // each fret outside of home
constexpr int never_so_far = std::numeric_limits<int>::max() / 4;

struct Pair {
    int low = 0;   ///< fret on the lower string
    int high = 0;  ///< and on the higher one
};

int motion(const Pair& from, const Pair& to) {
    return (std::abs(to.low - from.low) + std::abs(to.high - from.high)) * semitone;
}

class Lines {
  public:
    Lines(const std::vector<harmony::Chord>& chords, const Fretboard& fretboard,
          std::pair<int, int> strings, std::optional<int> near_fret)
        : fretboard_(fretboard), strings_(strings), home_(home_of(fretboard, near_fret)) {
        for (std::size_t i = 0; i < chords.size(); ++i) {
            auto pairs = pairs_of(chords[i]);
            if (pairs.empty()) continue;
            all_.push_back(std::move(pairs));
            on_.push_back(i);
        }
    }

    /// The chords that have their tones within reach; the line goes past the others.
    [[nodiscard]] const std::vector<std::size_t>& on() const { return on_; }

    /// The best of all rings over these: each beginning is tried.
    [[nodiscard]] std::vector<Pair> best() const {
        std::vector<Pair> line;
        if (all_.empty()) return line;
        int least = never_so_far;
        for (std::size_t first = 0; first < all_.front().size(); ++first) {
            auto one = from(first);
            if (one.cost >= least) continue;
            least = one.cost;
            line = std::move(one.pairs);
        }
        return line;
    }

  private:
    struct Found {
        std::vector<Pair> pairs;
        int cost = never_so_far;
    };

    [[nodiscard]] std::vector<Pair> pairs_of(const harmony::Chord& chord) const {
        const ToneBits wanted = guide_tones_of(chord);
        const int highest = std::min(highest_fret, fretboard_.frets());
        std::vector<Pair> pairs;
        for (int low = 1; low <= highest; ++low) {
            for (int high = 1; high <= highest; ++high) {
                const int span = widest_span(std::min(low, high), fretboard_.capo());
                if (std::abs(low - high) > span) continue;
                const auto tones =
                    static_cast<ToneBits>(bit(strings_.first, low) | bit(strings_.second, high));
                if (tones == wanted) pairs.push_back({low, high});
            }
        }
        return pairs;
    }

    [[nodiscard]] unsigned bit(int string, int fret) const {
        return 1U << fretboard_.note({string, fret}).pitch_class();
    }

    [[nodiscard]] int place_cost(const Pair& pair) const {
        return home_.frets_outside(std::min(pair.low, pair.high)) * away;
    }

    [[nodiscard]] Found from(std::size_t first) const {
        const auto n = all_.size();
        std::vector<std::vector<int>> costs(n);
        std::vector<std::vector<std::size_t>> before(n);
        costs[0].assign(all_[0].size(), never_so_far);
        costs[0][first] = place_cost(all_[0][first]);
        for (std::size_t i = 1; i < n; ++i) {
            for (const auto& pair : all_[i]) {
                const auto [cost, at] = cheapest(i - 1, costs[i - 1], pair);
                costs[i].push_back(cost + place_cost(pair));
                before[i].push_back(at);
            }
        }
        auto [cost, at] = cheapest(n - 1, costs[n - 1], all_[0][first]);
        Found found{std::vector<Pair>(n), cost};
        for (std::size_t i = n; i-- > 0;) {
            found.pairs[i] = all_[i][at];
            if (i > 0) at = before[i][at];
        }
        return found;
    }

    [[nodiscard]] std::pair<int, std::size_t> cheapest(std::size_t stop,
                                                       const std::vector<int>& costs,
                                                       const Pair& to) const {
        std::pair<int, std::size_t> best{never_so_far, 0};
        for (std::size_t i = 0; i < costs.size(); ++i) {
            best = std::min(best, {costs[i] + motion(all_[stop][i], to), i});
        }
        return best;
    }

    const Fretboard& fretboard_;
    std::pair<int, int> strings_;
    Home home_;
    std::vector<std::vector<Pair>> all_;
    std::vector<std::size_t> on_;
};

}  // namespace

ToneBits guide_tones_of(const harmony::Chord& chord) {
    const WrittenTones written(chord);
    // Of two (maj7 and 6, say) the seventh, which lies further from the root.
    const auto furthest = [&](const harmony::PitchClasses& tones) {
        const int root = chord.root.pitch_class();
        for (int above = 11; above > 0; --above) {
            const auto at = static_cast<std::size_t>((root + above) % 12);
            if (tones[at]) return 1U << at;
        }
        return 0U;
    };
    const auto at = [&](int above) {
        return 1U << static_cast<unsigned>((chord.root.pitch_class() + above) % 12);
    };
    // A tone that is left out, as in an eleventh or a (no5), is not brought back.
    const auto written_at = [&](int above) {
        const unsigned tone = at(above);
        return (written.all.to_ulong() & tone) != 0 ? tone : at(0);
    };
    constexpr int fourth = 5;
    constexpr int plain_fifth = 7;
    const unsigned third = written.thirds.any() ? furthest(written.thirds) : written_at(fourth);
    const unsigned fifth =
        written.altered_fifths.any() ? furthest(written.altered_fifths) : written_at(plain_fifth);
    const unsigned seventh = written.sevenths.any() ? furthest(written.sevenths) : fifth;
    return static_cast<ToneBits>(third | seventh);
}

std::optional<std::pair<int, int>> guide_strings(std::vector<int> strings) {
    constexpr int usual = 4;
    std::sort(strings.begin(), strings.end());
    if (strings.size() > 2) strings.pop_back();
    std::optional<std::pair<int, int>> best;
    for (const int high : strings) {
        const bool beside = std::find(strings.begin(), strings.end(), high + 1) != strings.end();
        if (!beside) continue;
        if (!best || std::abs(high + 1 - usual) < std::abs(best->first - usual)) {
            best = {high + 1, high};
        }
    }
    return best;
}

std::vector<Shape> guide_line(const std::vector<harmony::Chord>& chords, const Fretboard& fretboard,
                              std::pair<int, int> strings, std::optional<int> near_fret) {
    Shape silent;
    silent.strings = fretboard.strings();
    std::vector<Shape> shapes(chords.size(), silent);
    const Lines lines(chords, fretboard, strings, near_fret);
    const auto line = lines.best();
    for (std::size_t i = 0; i < line.size(); ++i) {
        auto& shape = shapes[lines.on()[i]];
        shape.on(strings.first) = line[i].low;
        shape.on(strings.second) = line[i].high;
    }
    return shapes;
}

}  // namespace compline::guitar
