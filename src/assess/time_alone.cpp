#include "time_alone.hpp"

#include "reading_beam.hpp"
#include "time_keeping.hpp"

#include <algorithm>
#include <utility>

namespace compline::assess {

using time::eighth_note;
using time::Seconds;

namespace {

/// As strings of one strum that come one after the other (listen::group_strums).
constexpr Seconds one_strum{0.060};
/// Further from every beat and off-beat it was not meant for one.
constexpr Seconds between{0.060};

// In nats. Dearer than any landing, so that what is due is not passed over for what was there
// before; and what a reader with tones takes for a rest.
constexpr double passes_over = -4.6;
constexpr double rest_costs = -0.5;
// A chord that may be left out is struck near its beat, or was left out.
constexpr double optional_lands = -1;
// Near no beat or off-beat: a note of a line, a stroke up. Rarer than a chord on its beat, but
// likelier than a chord ahead of it that is struck again there.
constexpr double stray_strum = -4.2;

class TimeReader {
  public:
    TimeReader(const Targets& targets, const std::vector<SoundingStrum>& strums, const Grid& grid,
               const Player& player)
        : targets_(targets),
          strums_(strums),
          times_(targets, grid, player),
          beam_(targets, player, strums.size()) {
        for (const auto& target : targets.due) {
            earliest_.push_back(earliest(target, grid, player));
            latest_.push_back(latest(target, grid));
        }
    }

    std::vector<PartialReading> best() {
        for (std::size_t s = 0; s < strums_.size(); ++s) go_on(s);
        return beam_.best(first_open_);
    }

    [[nodiscard]] std::size_t settled(const std::vector<PartialReading>& best, Seconds now) const {
        return beam_.settled(best, times_, now);
    }

  private:
    /// A push may be as straight as it likes.
    static Seconds earliest(const Target& target, const Grid& grid, const Player& player) {
        const auto push = target.at - eighth_note;
        const Seconds place = std::min(player.place, Seconds(0));
        return std::min(grid.time_of(push), grid.straight_time_of(push)) + place -
               grid.pace_at(target.at).tolerance;
    }

    /// In the last eighth of a chord something comes for the next one.
    static Seconds latest(const Target& target, const Grid& grid) {
        const auto end = target.at + target.length;
        const auto half = target.at + time::Ticks(target.length.count() / 2);
        return grid.time_of(std::max(half, end - eighth_note)) + grid.pace_at(end).tolerance;
    }

    void go_on(std::size_t s) {
        const Seconds t = strums_[s].first();
        const auto& likely = beam_.likely(s, first_open_);
        while (first_open_ < targets_.size() && times_.over(first_open_) < t) ++first_open_;
        std::size_t last = first_open_;
        while (last < targets_.size() && earliest_[last] <= strums_[s].last()) ++last;
        for (const auto n : likely) {
            const PartialReading before = beam_.node(n);
            for (std::size_t i = std::max(first_open_, before.next()); i < last; ++i) {
                if (t <= latest_[i]) land(n, before, s, i);
            }
            stay(n, before, s);
        }
    }

    void land(std::int32_t n, const PartialReading& before, std::size_t s, std::size_t target) {
        const double nats = before.nats + beam_.left_out(before.next(), target) +
                            times_.of_landing(strums_[s].first(), target) + beam_.played(target) +
                            (targets_.due[target].optional ? optional_lands : 0);
        add(n, s, {nats, static_cast<int>(target)}, ReadAs::landing);
    }

    void stay(std::int32_t n, const PartialReading& before, std::size_t s) {
        const Seconds t = strums_[s].first();
        const auto next = next_that_counts(before);
        const bool next_is_due = next < targets_.size() && t >= times_.due_from(next);
        const bool in_hand = before.chord != PartialReading::nothing_yet;
        const bool no_chord = !next_is_due && in_hand && t > times_.over(next - 1);
        const double nats = no_chord ? rest_costs
                                     : std::max(times_.of_repeat(t), stray_strum) +
                                           (wants(next, t) ? passes_over : 0);
        add(n, s, {before.nats + nats, before.chord}, no_chord ? ReadAs::passing : ReadAs::again);
    }

    /// Something that is due, this target or one behind it, could land now.
    [[nodiscard]] bool wants(std::size_t target, Seconds t) const {
        for (auto i = std::max(first_open_, target); i < targets_.size(); ++i) {
            if (times_.due_from(i) > t) return false;
            if (t <= latest_[i]) return true;
        }
        return false;
    }

    /// Behind those that the chord in hand may go on through.
    [[nodiscard]] std::size_t next_that_counts(const PartialReading& before) const {
        if (before.chord == PartialReading::nothing_yet) return 0;
        return targets_.may_go_on_through(static_cast<std::size_t>(before.chord)) + 1;
    }

    void add(std::int32_t n, std::size_t s, PartialReading node, ReadAs how) {
        node.before = n;
        node.unit = static_cast<std::uint32_t>(s);
        node.how = how;
        beam_.add(s + 1, node);
    }

    const Targets& targets_;
    const std::vector<SoundingStrum>& strums_;
    EntryTimes times_;
    ReadingBeam beam_;
    std::vector<Seconds> earliest_;  ///< of each target: nothing lands it before,
    std::vector<Seconds> latest_;    ///< and nothing after
    std::size_t first_open_ = 0;     ///< targets before it are over
};

bool lies_between(Seconds t, std::size_t s, const Grid& grid, const Player& player) {
    const auto place = against_grid(s, t, grid.map());
    const Seconds own = place.off_beat ? player.off_beat.value_or(player.place) : player.place;
    return std::min(time::abs(place.off), time::abs(place.off - own)) > between;
}

}  // namespace

std::vector<SoundingStrum> struck_by_sound(const std::vector<listen::Note>& notes) {
    std::vector<SoundingStrum> strums;
    for (const auto& note : notes) {
        const bool joins = !strums.empty() && note.on - strums.back().first() <= one_strum;
        if (!joins) strums.emplace_back().by_sound = true;
        strums.back().strum.notes.push_back(note);
    }
    return strums;
}

Reading read_time_alone(const Targets& targets, std::vector<SoundingStrum> strums, const Grid& grid,
                        const Player& player, Seconds end) {
    TimeReader reader(targets, strums, grid, player);
    const auto path = reader.best();
    Reading reading;
    reading.landings.resize(targets.size());
    reading.meant.resize(targets.size());
    for (std::size_t s = 0; s < strums.size(); ++s) {
        auto& strum = strums[s];
        const auto& node = path[s];
        strum.read_as = node.how;
        if (node.how == ReadAs::landing) {
            reading.landings[static_cast<std::size_t>(node.chord)] =
                Landing{s, strum.first(), strum.last()};
        } else if (lies_between(strum.first(), s, grid, player)) {
            strum.read_as = ReadAs::fill;
        }
        const bool none = node.chord == PartialReading::nothing_yet;
        reading.in_hand.push_back(none ? std::nullopt
                                       : std::optional(static_cast<std::size_t>(node.chord)));
    }
    reading.settled = reader.settled(path, end);
    reading.strums = std::move(strums);
    return reading;
}

}  // namespace compline::assess
