#include "attack_hops.hpp"

#include <compline/listen/sound_onsets.hpp>

#include <algorithm>
#include <cmath>
#include <optional>

namespace compline::listen {

using time::Frames;

namespace {

// In hops of a millisecond.
constexpr std::int64_t rise = 3;     // an attack is there within so many
constexpr std::int64_t before = 40;  // three cycles of the lowest string: its pulses are no picks
constexpr std::int64_t behind = 22;  // until a note's body is there
constexpr std::int64_t body_from = 8;
constexpr std::int64_t level_over = 20;
constexpr std::int64_t first_heard = 20;  // what sounds already when listening begins is no pick

/// How far a pick stands out of what was there before, as a ratio of energies, in both bright
/// parts together (their product).
constexpr double stands_out = 10;
constexpr double at_most = 100;  // of one part
/// The share of its loudest millisecond that a pick has at once: strings that are struck later in
/// the same strum may be louder.
constexpr double part_at_once = 0.15;
/// The share of that which a body has at least, if it is one.
constexpr double of_bright = 0.1;

}  // namespace

/// Looks at each millisecond once what follows it is known.
class SoundOnsets::Ear {
  public:
    Ear(time::SampleRate rate, const AttackSettings& settings)
        : hops_(rate),
          dead_(time::nearest_frame(settings.dead_time, rate).count()),
          softest_(std::pow(10, settings.softest_db / 20)) {}

    void add(float sample, std::vector<SoundOnset>& found) {
        if (!hops_.add(sample)) return;
        const std::int64_t hop = hops_.full() - 1 - behind;
        if (hop < first_heard || !rises(hop) || !is_pick(hop)) return;
        const std::int64_t at = first_frame(hop);
        if (last_ && at < *last_ + dead_) return;
        last_ = at;
        found.push_back({Frames(at), level_db(hop)});
    }

    [[nodiscard]] Frames frames() const { return Frames(hops_.frames()); }

  private:
    using Energy = double AttackHop::*;

    [[nodiscard]] double largest(Energy energy, std::int64_t from, std::int64_t to) const {
        double most = 0;
        for (std::int64_t i = std::max<std::int64_t>(0, from); i <= to; ++i) {
            most = std::max(most, hops_.at(i).*energy);
        }
        return most;
    }
    [[nodiscard]] double mean(Energy energy, std::int64_t from, std::int64_t to) const {
        double sum = 0;
        from = std::max<std::int64_t>(0, from);
        for (std::int64_t i = from; i <= to; ++i) sum += hops_.at(i).*energy;
        return sum / static_cast<double>(to - from + 1);
    }

    [[nodiscard]] double times_louder(Energy energy, std::int64_t hop) const {
        const double floor = softest_ * softest_ * 1e-3;
        const double was = largest(energy, hop - rise - before, hop - rise);
        return std::min(at_most, (hops_.at(hop).*energy + floor) / (was + floor));
    }

    [[nodiscard]] bool rises(std::int64_t hop) const {
        return times_louder(&AttackHop::bright, hop) * times_louder(&AttackHop::brightest, hop) >
               stands_out;
    }

    /// A finger that slides along a string swells; a pick is there at once, or a body follows.
    [[nodiscard]] bool is_pick(std::int64_t hop) const {
        const auto bright = &AttackHop::bright;
        const double attack = largest(bright, hop - rise, hop + 1);
        const double later = largest(bright, hop + 2, hop + behind);
        if (std::max(attack, later) < softest_ * softest_ / 4) return false;
        const double more_low = mean(&AttackHop::low, hop + body_from, hop + behind) -
                                mean(&AttackHop::low, hop - before / 2, hop - rise);
        return attack > part_at_once * later || more_low > of_bright * later;
    }

    /// Where a tenth of the attack is there, in the part that stands out more; and back from there
    /// to where it leaves what was before it.
    [[nodiscard]] std::int64_t first_frame(std::int64_t hop) const {
        const std::int64_t ms = hops_.length();
        const std::int64_t from = (hop - rise - 1) * ms;
        const std::int64_t to = (hop + 3) * ms;
        const auto part =
            times_louder(&AttackHop::brightest, hop) > times_louder(&AttackHop::bright, hop)
                ? AttackHops::Bright::highest
                : AttackHops::Bright::all;
        const float was = 1.3F * hops_.largest_size(part, from - 16 * ms, from);
        const float enough = std::max(was, 0.1F * hops_.largest_size(part, from, to));
        std::int64_t at = from;
        while (at < to && hops_.size_at(part, at) < enough) ++at;
        const std::int64_t room = std::max<std::int64_t>(2, ms / 3);
        for (std::int64_t back = at; back > from && at - back <= room; --back) {
            if (hops_.size_at(part, back) > was) at = back;
        }
        return at;
    }

    [[nodiscard]] double level_db(std::int64_t hop) const {
        float peak = 0;
        for (std::int64_t i = hop - rise; i <= hop + level_over; ++i) {
            peak = std::max(peak, hops_.at(i).peak);
        }
        constexpr double nothing = 1e-10;
        return std::min(0.0, 20 * std::log10(std::max<double>(peak, nothing)));
    }

    AttackHops hops_;
    std::int64_t dead_;
    double softest_;
    std::optional<std::int64_t> last_;
};

SoundOnsets::SoundOnsets(time::SampleRate rate, const AttackSettings& settings)
    : ear_(std::make_unique<Ear>(rate, settings)) {}
SoundOnsets::~SoundOnsets() = default;
SoundOnsets::SoundOnsets(SoundOnsets&&) noexcept = default;
SoundOnsets& SoundOnsets::operator=(SoundOnsets&&) noexcept = default;

std::vector<SoundOnset> SoundOnsets::add(std::span<const float> samples) {
    std::vector<SoundOnset> found;
    for (const float sample : samples) ear_->add(sample, found);
    return found;
}

Frames SoundOnsets::frames() const { return ear_->frames(); }

}  // namespace compline::listen
