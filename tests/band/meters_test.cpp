// A tune whose bars are not all of one meter, bar by bar. No chart can say so yet.

#include "support/booking.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"

#include <compline/band/smf.hpp>

#include <cstdint>
#include <tuple>
#include <vector>

using namespace compline;
using time::Meter;
using time::Ticks;

namespace {

/// Four bars, of which the two in the middle have another meter.
chart::Form form_with(Meter meter) {
    auto form = tests::make_form(Meter(4), time::Bpm(120), {"F7", "F7", "F7", "F7"});
    Ticks start;
    for (std::size_t i = 0; i < 4; ++i) {
        auto& bar = form.bars[i];
        if (i == 1 || i == 2) bar.meter = meter;
        bar.start = form.spans[i].start = start;
        form.spans[i].length = bar.meter.bar();
        start += bar.meter.bar();
    }
    return form;
}

tests::Booking without_bass() {
    auto booking = tests::Booking::of({1, 4}, 1, 1);
    booking.asked.manner.bass = chart::Bass::off;
    return booking;
}

/// Time signatures: their ticks, and what stands above and below.
std::vector<std::tuple<std::int64_t, int, int>> meters_in(const midi::File& file) {
    constexpr int time_signature = 0x58;
    std::vector<std::tuple<std::int64_t, int, int>> meters;
    for (const auto& event : file.tracks.front().events) {
        const auto* const meta = std::get_if<midi::MetaEvent>(&event.event);
        if (meta == nullptr || meta->type != time_signature) continue;
        meters.emplace_back(event.tick, meta->data[0], 1 << meta->data[1]);
    }
    return meters;
}

using Meters = std::vector<std::tuple<std::int64_t, int, int>>;
constexpr std::int64_t quarter = 15360;

/// Key signatures: their ticks, sharps (flats below 0), and whether the key is minor.
std::vector<std::tuple<std::int64_t, int, bool>> keys_in(const midi::File& file) {
    constexpr int key_signature = 0x59;
    std::vector<std::tuple<std::int64_t, int, bool>> keys;
    for (const auto& event : file.tracks.front().events) {
        const auto* const meta = std::get_if<midi::MetaEvent>(&event.event);
        if (meta == nullptr || meta->type != key_signature) continue;
        const auto sharps = static_cast<signed char>(meta->data.at(0));
        keys.emplace_back(event.tick, sharps, meta->data.at(1) == 1);
    }
    return keys;
}
using Keys = std::vector<std::tuple<std::int64_t, int, bool>>;

}  // namespace

TEST_CASE("a drummer keeps time in each bar by the bar's own meter") {
    std::vector<Ticks> feet;
    for (const auto& stroke : without_bass().play(form_with(Meter(3))).strokes) {
        if (stroke.drum == band::Drum::hihat_foot) feet.push_back(stroke.at);
    }
    // On 2 and 4, in the waltz on 2.
    CHECK(feet == std::vector{Ticks(960), Ticks(2880), Ticks(4800), Ticks(7680), Ticks(10560),
                              Ticks(12480)});
}

TEST_CASE("a MIDI file has a time signature wherever the meter changes, as it is written") {
    const auto in_three = without_bass().map(form_with(Meter(3)));
    CHECK(meters_in(band::to_smf(in_three, {})) ==
          Meters{{0, 4, 4}, {8 * quarter, 3, 4}, {14 * quarter, 4, 4}});
    const auto in_six_eight = without_bass().map(form_with(Meter(Ticks(1440), {1, 1})));
    CHECK(meters_in(band::to_smf(in_six_eight, {})) ==
          Meters{{0, 4, 4}, {8 * quarter, 6, 8}, {14 * quarter, 4, 4}});
}

TEST_CASE("half-time and double-time stand in a MIDI file as the meter that is written") {
    for (const auto& felt : {*Meter(4).half_time(), *Meter(4).double_time()}) {
        CHECK(meters_in(band::to_smf(without_bass().map(form_with(felt)), {})) ==
              Meters{{0, 4, 4}});
    }
}

TEST_CASE("a MIDI file has a key signature at its start and wherever the key changes") {
    auto form = form_with(Meter(4));
    form.bars[1].key = {{harmony::Letter::E, -1}, false};
    form.bars[2].key = {{harmony::Letter::F, 1}, true};
    form.bars[3].key = {{harmony::Letter::A, 0}, false};
    CHECK(keys_in(band::to_smf(without_bass().map(form), {})) == Keys{{0, 0, false},
                                                                      {8 * quarter, -3, false},
                                                                      {12 * quarter, 3, true},
                                                                      {16 * quarter, 3, false}});
    form.bars[3].key = form.bars[2].key;
    CHECK(keys_in(band::to_smf(without_bass().map(form), {})).size() == 3);
}
