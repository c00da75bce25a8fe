#include "reading.hpp"

#include "reader.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <utility>

namespace compline::assess {

using time::Seconds;

namespace {

constexpr std::array<std::string_view, 10> read_as_names = {
    "landing", "again",   "old",  "approach", "up_stroke",
    "passing", "outside", "fill", "bass",     "chunk"};

/// Writes the most likely reading down.
class Scribe {
  public:
    Scribe(const Targets& targets, const Units& units, const TakeReader& reader)
        : targets_(targets), units_(units), reader_(reader), shifts_(targets.size()) {
        reading_.landings.resize(targets.size());
        reading_.meant.resize(targets.size());
    }

    void write(const std::vector<PartialReading>& path) {
        for (const auto& node : path) write(node);
        link_voiced(reading_.strums);
    }

    /// Who is elsewhere for one chord only is not lost.
    void tell_astray(const Shifts& shifts) {
        for (std::size_t i = 0; i < shifts_.size(); ++i) {
            if (shifts_[i] == 0) continue;
            auto run = run_from(i);
            const std::size_t end = run.back() + 1;
            trim(run);
            for (const auto target : run) {
                if (run.size() > 1) {
                    reading_.meant[target] = shifts.meant(shifts_[target], target);
                } else {
                    read_as_written(target, *shifts.meant(shifts_[target], target));
                }
            }
            i = end - 1;
        }
    }

    void settle(std::size_t settled) {
        while (settled > 0 && shifts_[settled - 1] != 0) --settled;
        reading_.settled = settled;
    }

    Reading done() { return std::move(reading_); }

  private:
    void write(const PartialReading& node) {
        const auto& unit = units_.units[node.unit];
        const bool led_in = unit.kind == Unit::Kind::up_stroke || unit.kind == Unit::Kind::slide;
        if (led_in) {
            const bool up = unit.kind == Unit::Kind::up_stroke;
            add(units_.sounds[unit.begin], up ? ReadAs::up_stroke : ReadAs::approach, node);
        }
        add(units_.sounds[unit.sound], node.how, node);
        if (node.how != ReadAs::landing) return;
        const auto target = static_cast<std::size_t>(node.chord);
        const auto& sound =
            unit.kind == Unit::Kind::slide ? nearer(unit, target) : units_.sounds[unit.sound];
        reading_.landings[target] =
            Landing{reading_.strums.size() - 1, sound.first(), sound.last()};
        shifts_[target] = node.shift;
        sound_of_.resize(targets_.size());
        sound_of_[target] = unit.sound;
    }

    void add(const SoundingStrum& sound, ReadAs how, const PartialReading& node) {
        reading_.strums.push_back(sound);
        reading_.strums.back().read_as = how;
        reading_.in_hand.push_back(node.chord == PartialReading::nothing_yet
                                       ? std::nullopt
                                       : std::optional(static_cast<std::size_t>(node.chord)));
    }

    /// Slid in: the pick on the frets before, or the arrival.
    [[nodiscard]] const SoundingStrum& nearer(const Unit& unit, std::size_t target) const {
        const auto& pick = units_.sounds[unit.begin];
        const auto& arrival = units_.sounds[unit.sound];
        const Seconds due = reader_.times().due(target);
        return time::abs(pick.first() - due) < time::abs(arrival.first() - due) ? pick : arrival;
    }

    /// Changes in a row, of those that were struck, with the same idea of where we are.
    [[nodiscard]] std::vector<std::size_t> run_from(std::size_t first) const {
        std::vector<std::size_t> run;
        for (std::size_t i = first; i < shifts_.size(); ++i) {
            if (!reading_.landings[i]) continue;
            if (shifts_[i] != shifts_[first]) break;
            run.push_back(i);
        }
        return run;
    }

    /// At either end what is right as written is no sign of being elsewhere.
    void trim(std::vector<std::size_t>& run) const {
        const auto right = [&](std::size_t target) {
            return reader_.fits().of(sound_of_[target], target).whole;
        };
        while (!run.empty() && right(run.back())) run.pop_back();
        run.erase(run.begin(), std::find_if_not(run.begin(), run.end(), right));
    }

    /// With one slip at most and a grip of its own it is still this chord; else it is none: the old
    /// one, or another.
    void read_as_written(std::size_t target, std::size_t meant) {
        const auto strum = reading_.landings[target]->strum;
        const bool slip = reader_.fits().of(sound_of_[target], target).foreign <= 1;
        if (slip && reading_.strums[strum].moves_grip) return;
        reading_.landings[target].reset();
        const bool old =
            target > 0 && targets_.palette_of[meant] == targets_.palette_of[target - 1];
        for (auto s = strum; s < reading_.strums.size() && reading_.in_hand[s] == target; ++s) {
            auto& read_as = reading_.strums[s].read_as;
            const bool chord = read_as == ReadAs::landing || read_as == ReadAs::again;
            if (chord) read_as = old ? ReadAs::old : ReadAs::outside;
        }
    }

    const Targets& targets_;
    const Units& units_;
    const TakeReader& reader_;
    std::vector<std::uint32_t> shifts_;  ///< of each target
    std::vector<std::size_t> sound_of_;  ///< of each target that has landed
    Reading reading_;
};

}  // namespace

std::string_view name_of(ReadAs read_as) {
    return read_as_names[static_cast<std::size_t>(read_as)];
}

Reading read(const Targets& targets, const Shifts& shifts, std::vector<SoundingStrum> strums,
             const Grid& grid, const Player& player, Seconds end) {
    const auto count = strums.size();
    const auto units = find_units(std::move(strums), grid);
    TakeReader reader(targets, shifts, units, count, grid, player);
    const auto path = reader.best();
    Scribe scribe(targets, units, reader);
    scribe.write(path);
    scribe.tell_astray(shifts);
    scribe.settle(reader.settled(path, end));
    return scribe.done();
}

}  // namespace compline::assess
