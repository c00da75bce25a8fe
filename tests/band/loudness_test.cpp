// The band as a whole, at the level of music: integrated loudness by EBU R 128 (ITU-R BS.1770), as
// libebur128 measures it, and the largest sample.

#include "support/loudness.hpp"

#include "support/booking.hpp"
#include "support/catch.hpp"
#include "support/our_forms.hpp"
#include "support/voicings.hpp"

#include <compline/band/band.hpp>
#include <compline/band/place.hpp>
#include <compline/sound/render.hpp>

#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <vector>

using namespace compline;
using chart::Drums;
using chart::Feel;
using tests::full_bank;
using time::Bpm;
using time::Frames;

namespace {

struct Case {
    const chart::Form& form;
    chart::AskedManner manner;
    double bpm;
    bool guitar = false;
};

tests::Loudness measure(const Case& played, bool all_on = false) {
    const int bars = std::min(static_cast<int>(played.form.bars.size()), 12);
    auto booking = tests::Booking::of({1, bars}, 1);
    booking.asked.manner = played.manner;
    booking.players.fills = booking.players.crash = all_on;
    if (played.guitar) booking.players.voicings = tests::plan_by_hand(played.form);
    booking.asked.tempo = Bpm(played.bpm);
    const auto cues = band::place(booking.play(played.form), booking.map(played.form),
                                  full_bank().rate(), Frames(0));
    const auto sound = sound::render(
        cues, full_bank(), {cues.front().at, sound::end_of(cues, full_bank(), Frames(0))});
    const auto loudness = tests::loudness_of(sound, full_bank().rate());
    if (std::getenv("COMPLINE_SHOW_LOUDNESS") != nullptr) {
        std::cout << played.form.chart.meter.beats() << " " << played.bpm << " "
                  << (played.manner.feel ? chart::name_of(*played.manner.feel) : "-") << " "
                  << (played.manner.drums ? chart::name_of(*played.manner.drums) : "-") << " "
                  << (played.guitar ? "guitar " : "") << loudness.integrated_lufs << " LUFS "
                  << loudness.peak_dbfs << " dBFS\n";
    }
    return loudness;
}

void check(const Case& played, bool all_on = false) {
    const auto loudness = measure(played, all_on);
    CAPTURE(played.form.chart.title, played.bpm, loudness.integrated_lufs, loudness.peak_dbfs);
    CAPTURE(played.manner.feel ? chart::name_of(*played.manner.feel) : "the chart's",
            played.manner.drums ? chart::name_of(*played.manner.drums) : "by tempo");
    CHECK(loudness.integrated_lufs == Approx(-20.0).margin(2.0));
    CHECK(loudness.peak_dbfs < -1.0);
}

}  // namespace

TEST_CASE("on our charts the band is at -20 LUFS within 2 and under -1 dBFS, in every feel") {
    for (const auto& form : tests::our_forms()) {
        for (const auto feel : {Feel::swing, Feel::straight, Feel::bossa, Feel::ballad}) {
            check({form, {feel, {}, {}}, form.chart.tempo.count()});
        }
    }
}

TEST_CASE("the band is as loud at every tempo, and with all that it can add") {
    const auto forms = tests::our_forms();
    for (const double bpm : {50.0, 79.0, 100.0, 140.0, 180.0, 220.0, 260.0, 300.0}) {
        check({forms.front(), {}, bpm});
        check({forms.back(), {}, bpm}, true);
        check({forms.front(), {{}, {}, {}, false, chart::Phrasing::breathing}, bpm}, true);
        check({forms[1], {Feel::swing, Drums::brushes, {}}, bpm}, true);
    }
}

TEST_CASE("with a comping guitar the band is as loud, in every feel and at every tempo") {
    const auto forms = tests::our_forms();
    for (const auto& form : forms) {
        for (const auto feel : {Feel::swing, Feel::bossa, Feel::ballad}) {
            check({form, {feel, {}, {}}, form.chart.tempo.count(), true});
        }
    }
    for (const double bpm : {50.0, 100.0, 180.0, 300.0}) {
        check({forms.front(), {}, bpm, true}, true);
        check({forms[1], {Feel::swing, Drums::brushes, {}}, bpm, true}, true);
    }
}
