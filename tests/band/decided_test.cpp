// What is decided while the band plays: what was heard is what the final road map gives at once.

#include "roadmap/scenes.hpp"
#include "support/booking.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"
#include "support/voicings.hpp"

#include <compline/band/part_writer.hpp>
#include <compline/band/place.hpp>

#include <algorithm>
#include <tuple>
#include <utility>
#include <vector>

using namespace compline;
using roadmap::Decision;
using roadmap::RoadMap;
using sound::Cue;
using time::Frames;
using time::Ticks;

namespace {

constexpr time::SampleRate rate(48000);
constexpr Frames zero(1'000'000);
constexpr Ticks bar_of_four(3840);

chart::Form blues() {
    return tests::make_form(time::Meter(4), time::Bpm(132),
                            {"F7", "Bb7", "F7", "Cm7 F7", "Bb7", "Bdim7", "F7", "Am7b5 D7b9", "Gm7",
                             "C7", "F7 D7", "Gm7 C7"});
}

/// Hands the band over by a road map that changes, as it is done live: a time through at a time,
/// and anew from where something was decided.
class Bandstand {
  public:
    Bandstand(RoadMap map, band::Players players, const band::Stage& stage)
        : map_(std::move(map)), stage_(stage), writers_{{map_, std::move(players)}} {}

    /// All that begins before a bar, and more.
    void play_to(std::int64_t bar) {
        while (map_.first_bar(writers_.back().written() + 1) <= bar && write()) {
        }
    }

    void decide(const Decision& decision) {
        map_ = map_.with(decision);
        const auto before = std::max<std::int64_t>(decision.from_bar - 1, 1);
        const auto kept = static_cast<std::size_t>(map_.bar(before).time_through);
        writers_.erase(
            writers_.begin() + static_cast<std::ptrdiff_t>(std::min(kept, writers_.size())),
            writers_.end());
        writers_.back().follow(map_);
        const bool ends = decision.from_bar > map_.bars().value_or(decision.from_bar);
        const auto at = map_.time_of(ends ? map_.end() : map_.bar(decision.from_bar).start);
        from_ = zero + time::nearest_frame(at - band::furthest_behind, rate);
        if (decision.from_bar == 1) from_ = Frames(0);
        cues_.erase(std::remove_if(cues_.begin(), cues_.end(),
                                   [&](const Cue& cue) { return cue.at >= from_; }),
                    cues_.end());
    }

    [[nodiscard]] const std::vector<Cue>& heard() const { return cues_; }
    [[nodiscard]] const RoadMap& map() const { return map_; }

  private:
    bool write() {
        auto writer = writers_.back();
        const auto part = writer.next();
        if (!part) return false;
        writers_.push_back(std::move(writer));
        for (const auto& cue : band::place(*part, map_, rate, zero, stage_)) {
            if (cue.at >= from_) cues_.push_back(cue);
        }
        return true;
    }

    RoadMap map_;
    band::Stage stage_;
    std::vector<band::PartWriter> writers_;  ///< before each time through, and behind the last
    std::vector<Cue> cues_;
    Frames from_;
};

auto as_tuple(const Cue& cue) { return std::tuple(cue.at, cue.stop, cue.sound, cue.gain, cue.pan); }

std::vector<Cue> in_order(std::vector<Cue> cues) {
    std::sort(cues.begin(), cues.end(),
              [](const Cue& a, const Cue& b) { return as_tuple(a) < as_tuple(b); });
    return cues;
}

band::Players random_players(const chart::Form& form, tests::Chance& chance) {
    band::Players players;
    players.fills = chance.one_in(2);
    players.crash = chance.one_in(2);
    players.seed = static_cast<std::uint64_t>(chance.below(1000));
    for (int beat = 0; beat < 48 && chance.below(200) > 0; ++beat) {
        players.melody.push_back(
            {time::Beats(beat + 0.5), time::Beats(1.25), harmony::MidiNote(65), 90});
    }
    if (chance.one_in(2)) players.voicings = tests::plan_by_hand(form);
    return players;
}

band::Stage random_stage(tests::Chance& chance) {
    band::Stage stage;
    for (auto& seat : stage.seats) {
        seat.behind = time::from_milliseconds(chance.from_to(-20, 20));
    }
    return stage;
}

/// What is asked and decided there, ending somewhere.
tests::Scene random_evening(const band::Players& players, tests::Chance& chance) {
    tests::Scene evening;
    evening.form = blues();
    evening.asked = tests::random_asked(evening.form, chance);
    evening.asked.melody = !players.melody.empty();
    evening.asked.guitar = players.voicings.has_value();
    evening.decided = tests::random_decisions(evening.form, evening.asked, chance);
    const auto map = evening.map();
    if (map.goes_on()) {
        evening.decided.push_back(
            {evening.decided.back().from_bar + chance.from_to(1, 20), roadmap::Stopped{}});
    }
    return evening;
}

}  // namespace

TEST_CASE("whatever was decided when, what was heard is what the last road map gives at once") {
    std::size_t cues = 0;
    for (unsigned seed = 0; seed < 150; ++seed) {
        tests::Chance chance(seed);
        const auto players = random_players(blues(), chance);
        const auto stage = random_stage(chance);
        const auto evening = random_evening(players, chance);
        Bandstand stand(RoadMap(evening.form, evening.asked), players, stage);
        for (const auto& decision : evening.decided) {
            stand.play_to(decision.from_bar + chance.below(9));
            stand.decide(decision);
        }
        stand.play_to(*stand.map().bars());
        const auto map = evening.map();
        const auto heard = in_order(stand.heard());
        const auto whole =
            in_order(band::place(band::arrange(map, players), map, rate, zero, stage));
        cues += heard.size();
        CAPTURE(seed, heard.size(), whole.size());
        const auto differ =
            std::mismatch(heard.begin(), heard.end(), whole.begin(), whole.end(),
                          [](const Cue& a, const Cue& b) { return as_tuple(a) == as_tuple(b); });
        if (differ.first == heard.end() && differ.second == whole.end()) continue;
        const auto at = differ.second == whole.end() ? differ.first->at : differ.second->at;
        const auto bar = map.bar_at(map.position_at(time::time_of(at - zero, rate)));
        CAPTURE(bar.number, bar.time_through, at.count());
        FAIL("what was heard is another thing");
    }
    CHECK(cues > 20'000);
}

TEST_CASE("a wait is silent but for a bar counted in, where it is long enough for one") {
    const auto form = blues();
    auto booking = tests::Booking::of(form.whole(), 1, 0);
    const auto sticks = [&](int beats) {
        const auto map = booking.map(
            form, {{3, roadmap::Paused{}}, {3, roadmap::Waited{beats, booking.asked.way}}});
        const auto part = band::arrange(map, booking.players);
        std::vector<int> found;  // quarter notes before it goes on
        for (const auto& stroke : part.strokes) {
            if (stroke.at < bar_of_four * 2 || stroke.at >= map.bar(4).start) continue;
            REQUIRE(stroke.drum == band::Drum::stick);
            found.push_back(static_cast<int>((map.bar(4).start - stroke.at) / time::quarter_note));
        }
        for (const auto& note : part.notes) {
            CHECK((note.at < bar_of_four * 2 || note.at >= map.bar(4).start));
        }
        return found;
    };
    CHECK(sticks(3).empty());
    CHECK(sticks(4) == std::vector<int>{4, 3, 2, 1});
    CHECK(sticks(9) == std::vector<int>{4, 3, 2, 1});
}

TEST_CASE("who lays out by decision plays what would have been played, where he is back") {
    const auto form = blues();
    const auto booking = tests::Booking::of(form.whole(), 2);
    const auto usual = band::arrange(booking.map(form), booking.players);
    const roadmap::WhoPlays bass{false, true, false, false};
    const auto out = band::arrange(
        booking.map(form, {{5, roadmap::LaysOut{bass}}, {16, roadmap::LaysOut{bass, false}}}),
        booking.players);
    CHECK(out.strokes == usual.strokes);
    std::vector<band::BassNote> left;
    for (const auto& note : usual.notes) {
        if (note.at < bar_of_four * 4 || note.at >= bar_of_four * 15) left.push_back(note);
    }
    CHECK(out.notes == left);
}

TEST_CASE("a note that rings where the tempo changes ends as it would have") {
    const auto form = blues();
    const auto map = tests::Booking::of(form.whole(), 1).map(form);
    const auto slower = map.with({3, roadmap::NewTempo{time::Bpm(66)}});
    band::Part part;
    part.notes.push_back({bar_of_four * 2 - Ticks(480), Ticks(1440), harmony::MidiNote(40), 80});
    part.notes.push_back({bar_of_four * 2, Ticks(960), harmony::MidiNote(40), 80});
    const auto before = band::place(part, map, rate, zero);
    const auto after = band::place(part, slower, rate, zero);
    CHECK(after[0].at == before[0].at);
    CHECK(after[0].stop == before[0].stop);
    CHECK(after[1].at == before[1].at);
    CHECK(after[1].stop > before[1].stop);
}
