#include "support/bass_ear.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"
#include "support/our_forms.hpp"

#include <algorithm>

// Places that a teacher of rhythm sections has circled in red, bar by bar: the rules that mend them
// are held by bass_chords_test.cpp.

using namespace compline;
using chart::Bass;
using chart::Feel;

namespace {

constexpr std::uint64_t seeds = 20;

}  // namespace

TEST_CASE("a dominant is walked through in the key that it falls to, wherever it comes from") {
    // A flat and E flat are behind the G7 and ahead of its C7, whose third is E all the same.
    const auto form = tests::make_form(time::Meter(4), time::Bpm(160),
                                       {"Eb7", "Abmaj7", "G7", "C7", "F9", "Bb7"});
    int naturals = 0;
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
        const chart::AskedManner walking{Feel::swing, {}, Bass::walking};
        for (const auto& note : tests::hear_bass(form, walking, seed, 2)) {
            if (note.symbol != "G7" || note.is_last_quarter()) continue;
            CAPTURE(seed, note.note);
            CHECK(note.above_root != 8);
            naturals += note.above_root == 9 ? 1 : 0;
        }
    }
    CHECK(naturals > 10);
}

TEST_CASE("the places that a teacher circled are played otherwise, whatever the seed") {
    struct Circled {
        const char* title;
        int bar;
        const char* symbol;
        int above_root;
        Bass bass;
    };
    const Circled all[] = {{"A Coat", 6, "Bb7b9", 3, Bass::two_feel},
                           {"A Coat", 20, "Bb7#5", 3, Bass::two_feel},
                           {"A Coat", 20, "Bb7#5", 7, Bass::two_feel},
                           {"A Coat", 9, "Dbmaj7", 10, Bass::two_feel},
                           {"Five Stiles", 15, "C7sus4", 3, Bass::walking},
                           {"Five Stiles", 15, "C7sus4", 4, Bass::walking},
                           {"The Ferryman", 8, "Dm7b5", 7, Bass::two_feel},
                           {"The Ferryman", 8, "Dm7b5", 7, Bass::walking},
                           {"Salt", 24, "A7b9", 3, Bass::walking},
                           {"Blue Kettle", 6, "Bdim7", 1, Bass::walking},
                           {"Three Lamps", 21, "G7", 8, Bass::walking}};
    const auto charts = tests::our_forms();
    for (const auto& it : all) {
        const auto form = std::find_if(charts.begin(), charts.end(), [&](const auto& chart) {
            return chart.chart.title.starts_with(it.title);
        });
        REQUIRE(form != charts.end());
        int heard = 0;
        for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
            const chart::AskedManner manner{Feel::swing, {}, it.bass};
            for (const auto& note : tests::hear_bass(*form, manner, seed, 2)) {
                if (note.bar != it.bar || note.symbol != it.symbol) continue;
                ++heard;
                CAPTURE(it.title, it.bar, seed, note.note);
                CHECK_FALSE((note.above_root == it.above_root && !note.is_last_quarter()));
                if (note.length > time::quarter_note) CHECK(note.above_root != it.above_root);
            }
        }
        CAPTURE(it.title, it.bar);
        CHECK(heard > 20);
    }
}
