#include "measure.d/compare.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace compline::measure {

namespace {

using assess::Change;
using assess::Tones;
using simulate::Deed;
using simulate::PlayedChange;
using time::Seconds;

constexpr Seconds same_moment{0.001};
/// Off-beats may be measured from the player's own.
constexpr Seconds same_off_beat{0.040};

bool is_whole(double beats) { return beats == std::floor(beats); }

bool is_own_word(const PlayedChange& done, const Change& said) {
    const auto word = verdict_of(said);
    const auto is_word = [&](simulate::Outcome landing) { return name_of(landing) == word; };
    return std::any_of(done.landings.begin(), done.landings.end(), is_word);
}

/// Where the judge says that it landed, less where it did.
Seconds off_by(const PlayedChange& done, const Change& said, const roadmap::RoadMap& map) {
    const time::Ticks point(std::llround(said.beats_in.value_or(0) * 960));
    return map.time_of(done.at + point) + *said.lateness - *done.landing;
}

bool is_own_strum(const PlayedChange& done, const Change& said, const roadmap::RoadMap& map) {
    // Another word than was meant first is about another strum.
    if (verdict_of(said) != name_of(done.landings.front())) return true;
    if (!done.landing) return !said.lateness || done.deed == Deed::lost;  // where, nobody asks
    if (!said.lateness) return false;
    const double in = said.beats_in.value_or(0);
    if (done.beats_in && *done.beats_in != in) return false;
    return time::abs(off_by(done, said, map)) < (is_whole(in) ? same_moment : same_off_beat);
}

std::optional<double> error_of(const PlayedChange& done, const Change& said,
                               const roadmap::RoadMap& map) {
    if (!done.landing || !said.lateness || !is_whole(said.beats_in.value_or(0))) {
        return std::nullopt;
    }
    return off_by(done, said, map).milliseconds();
}

bool tones_as_done(const PlayedChange& done, const Change& said, bool strings_known) {
    if (done.foreign) return true;
    if (done.wrong) {
        if (said.tones != Tones::wrong || said.wrong.size() != 1) return false;
        const auto& wrong = said.wrong.front();
        const bool stuck = wrong.stuck_finger == (done.deed == Deed::stuck_finger);
        return wrong.note == *done.wrong && (stuck || !strings_known);
    }
    if (done.missing) {
        return said.tones == Tones::incomplete && said.missing.size() == 1 &&
               said.missing.front().pitch_class() == *done.missing;
    }
    return said.tones != Tones::wrong && said.tones != Tones::incomplete;
}

/// Of a few changes elsewhere in the form the tones may be said instead.
bool is_said_one_by_one(const PlayedChange& done, const Change& said) {
    return done.deed == Deed::lost && done.landings.size() > 1 && said.tones == Tones::wrong;
}

}  // namespace

std::string verdict_of(const Change& change) {
    return std::string(assess::name_of(change.verdict));
}

Compared compare(const PlayedChange& done, const Change& said, const roadmap::RoadMap& map,
                 bool strings_known) {
    Compared compared;
    compared.alarm = said.cost() > 0;
    compared.error_ms = error_of(done, said, map);
    compared.own_word = is_own_word(done, said);
    compared.strum = compared.own_word && is_own_strum(done, said, map);
    compared.named = (compared.strum && tones_as_done(done, said, strings_known)) ||
                     is_said_one_by_one(done, said);
    return compared;
}

std::string in_words(const Change& change) {
    auto text = verdict_of(change);
    if (change.lateness) text += fmt::format(" {:+.0f} ms", change.lateness->milliseconds());
    if (change.beats_in.value_or(0) != 0)
        text += fmt::format(" from {:g} beats in", *change.beats_in);
    text += fmt::format(", tones {}", assess::name_of(change.tones));
    for (const auto& wrong : change.wrong) {
        text += fmt::format(", {} {}", wrong.stuck_finger ? "stuck" : "foreign",
                            harmony::note_name(wrong.note, wrong.spelling));
    }
    for (const auto& degree : change.missing) text += fmt::format(", no {}", degree.name());
    return text;
}

std::vector<const Change*> judged_of(const std::vector<PlayedChange>& done,
                                     const assess::Assessment& assessment,
                                     const roadmap::RoadMap& map) {
    std::vector<const Change*> judged;
    auto said = assessment.changes.begin();
    for (const auto& one : done) {
        const auto due = map.time_of(one.at);
        while (said != assessment.changes.end() && said->at < due - same_moment) ++said;
        const bool found =
            said != assessment.changes.end() && time::abs(said->at - due) < same_moment;
        judged.push_back(found ? &*said : nullptr);
    }
    return judged;
}

}  // namespace compline::measure
