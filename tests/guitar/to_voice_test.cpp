#include "../../src/guitar/to_voice.hpp"

#include "support/catch.hpp"
#include "support/forms.hpp"

#include <string>
#include <vector>

using namespace compline;
using guitar::Line;
using guitar::ToVoice;

// What a chord's place in the tune asks of its voicing.

namespace {

std::vector<ToVoice> chords(const std::vector<std::string>& bars,
                            const guitar::VoicingWishes& wishes = {}) {
    const auto form = tests::make_form(time::Meter{4}, time::Bpm(120), bars);
    return guitar::chords_to_voice(form, form.whole(), wishes);
}

bool leads_into_minor(const std::vector<std::string>& bars) {
    return chords(bars).front().place.into_minor;
}

}  // namespace

TEST_CASE("a dominant leads into a minor chord a fifth below, its own alterations between",
          "[guitar]") {
    CHECK(leads_into_minor({"A7", "Dm7"}));
    CHECK(leads_into_minor({"A7sus4 A7", "Dm6"}));
    CHECK(leads_into_minor({"A7", "Dm7b5"}));
    CHECK_FALSE(leads_into_minor({"A7", "Dmaj7"}));
    CHECK_FALSE(leads_into_minor({"A7", "Bm7", "Dm7"}));
    CHECK_FALSE(leads_into_minor({"A7", "Abm7"}));  // a semitone below
    CHECK_FALSE(leads_into_minor({"Am7", "Dm7"}));
}

TEST_CASE("in a loop the point of the first change is seen from the last chord", "[guitar]") {
    const auto tune = chords({"Bdim7", "Bb7"});
    CHECK(tune.front().place.point == harmony::PitchClasses(1U << 11U));
}

TEST_CASE("the key's own tones are told apart from others", "[guitar]") {
    const auto key = chords({"Cmaj7"}).front().place.key;
    CHECK(key.count() == 7);
    CHECK(key[11]);
    CHECK_FALSE(key[10]);
}

TEST_CASE("a chord that is to move has a piece for each bar, two up and two down", "[guitar]") {
    guitar::VoicingWishes wishes;
    wishes.long_chords_move = true;
    const auto tune = chords({"G7 Dm7", "%", "Dm7", "%", "Cmaj7"}, wishes);
    std::vector<Line> lines;
    for (const auto& item : tune) lines.push_back(item.line);
    // G7, Dm7 | G7, Dm7 | Dm7 | (Dm7 goes on) | Cmaj7: the last Dm7 lasts two bars and a half.
    CHECK(lines == std::vector<Line>{Line::free, Line::free, Line::free, Line::free, Line::up,
                                     Line::up, Line::free});
    CHECK(tune[4].goes_on);
    CHECK(tune[4].change.bar == 3);
    CHECK(tune[4].place.point.none());
    CHECK(chords({"G7 Dm7", "%", "Dm7", "%", "Cmaj7"}).size() == 5);
}

TEST_CASE("a chord that is to move goes on at each bar line, whatever meter the bars have",
          "[guitar]") {
    auto form = tests::make_form(time::Meter(4), time::Bpm(120), {"G7", "G7", "G7", "G7"});
    time::Ticks start;
    for (const std::size_t i : {0U, 1U, 2U, 3U}) {
        auto& bar = form.bars[i];
        bar.meter = time::Meter(std::vector{4, 3, 5, 4}[i]);
        bar.start = form.spans[i].start = start;
        form.spans[i].length = bar.meter.bar();
        start += bar.meter.bar();
    }
    guitar::VoicingWishes wishes;
    wishes.long_chords_move = true;
    const auto pieces = guitar::chords_to_voice(form, form.whole(), wishes);
    REQUIRE(pieces.size() == 4);
    for (const std::size_t i : {0U, 1U, 2U, 3U}) {
        CHECK(pieces[i].change.bar == form.bars[i].number);
        CHECK(pieces[i].change.in_form == form.bars[i].start);
        CHECK(pieces[i].change.at == form.bars[i].start);
        CHECK(pieces[i].change.length == form.bars[i].meter.bar());
    }
}
