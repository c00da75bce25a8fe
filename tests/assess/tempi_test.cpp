// Where the tempo changes on the way. When each strum is played is summed up here by hand, in
// seconds: the road map that is measured against has no part in it.

#include "support/catch.hpp"
#include "support/comper.hpp"
#include "support/twelve_bars.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

using namespace compline;
using assess::Verdict;
using roadmap::NewTempo;

namespace {

constexpr int bars_of_form = 12;

double beat_of(double bpm) { return 60 / bpm; }

/// What drummers do at these tempi, written out: see time::Swing::at().
double short_note(double bpm) { return 0.0481 + 0.1735 * beat_of(bpm); }

/// Ten parts in a hundred of the beat, 25 to 60 ms, and no more than a third of the short note.
double tolerance_ms(double bpm) {
    return 1000 * std::min(std::clamp(beat_of(bpm) / 10, 0.025, 0.060), short_note(bpm) / 3);
}

struct Scripted {
    int bar = 1;  ///< as they are played, from 1
    double beat = 1;
    double late_ms = 0;
    double bpm = 0;
    double at = 0;
};

/// A guitarist who plays by a stopwatch.
class Stopwatch {
  public:
    /// tempi: of each bar that is played.
    explicit Stopwatch(std::vector<double> tempi) : tempi_(std::move(tempi)) {}

    /// The shell of the bar on a beat, or on the swung off-beat after it (2.5).
    void strum(int bar, double beat, double late_ms) {
        const double bpm = tempi_.at(static_cast<std::size_t>(bar - 1));
        double at = 0;
        for (int before = 0; before < bar - 1; ++before) {
            at += 4 * beat_of(tempi_[static_cast<std::size_t>(before)]);
        }
        at += std::floor(beat - 1) * beat_of(bpm);
        if (beat != std::floor(beat)) at += beat_of(bpm) - short_note(bpm);
        script_.push_back({bar, beat, late_ms, bpm, at + late_ms / 1000});
    }

    [[nodiscard]] const std::vector<Scripted>& script() const { return script_; }

    [[nodiscard]] assess::Performance heard() const {
        assess::Performance heard;
        for (const auto& strum : script_) {
            const auto grip = tests::shape(tests::shell((strum.bar - 1) % bars_of_form + 1));
            for (const auto& place : grip.places()) {
                listen::Note note;
                note.on = time::Seconds(strum.at);
                note.off = time::Seconds(strum.at + 0.15);
                note.note = heard.fretboard.note(place);
                note.string = place.string;
                note.fret = place.fret;
                heard.notes.push_back(note);
            }
        }
        return heard;
    }

    /// The form some times through; a decision at each bar with another tempo than the one before.
    [[nodiscard]] roadmap::RoadMap map() const {
        const auto form = tests::form_of(tests::twelve_bars);
        const auto times = static_cast<int>(tempi_.size()) / bars_of_form;
        auto asked = roadmap::Asked::of(form.whole(), times);
        asked.tempo = time::Bpm(tempi_.front());
        std::vector<roadmap::Decision> decided;
        for (std::size_t bar = 1; bar < tempi_.size(); ++bar) {
            if (tempi_[bar] == tempi_[bar - 1]) continue;
            decided.push_back(
                {static_cast<std::int64_t>(bar) + 1, NewTempo{time::Bpm(tempi_[bar])}});
        }
        return {form, asked, decided};
    }

  private:
    std::vector<double> tempi_;
    std::vector<Scripted> script_;
};

/// A strum on each beat, and no allowance for the player.
assess::Settings by_the_beat() {
    auto settings = tests::with_rhythm("four");
    settings.pushes = false;
    settings.against = assess::Against::beat;
    return settings;
}

/// 96, 100, 104 ... 132, another one each time through.
std::vector<double> by_time_through() {
    std::vector<double> tempi;
    for (int bpm = 96; bpm <= 132; bpm += 4) tempi.insert(tempi.end(), bars_of_form, bpm);
    return tempi;
}

/// At 132, and slower in each of the last four bars.
std::vector<double> with_ritardando() {
    std::vector<double> tempi(bars_of_form, 132.0);
    constexpr double slower[] = {121, 112, 104, 97};
    std::copy(std::begin(slower), std::end(slower), tempi.end() - 4);
    return tempi;
}

/// In time up to 112 bpm, and off the beat from 116 on.
constexpr double sometimes_in_time = 46.4;

double lateness(int bar) {
    if (bar % bars_of_form == 3 || bar % bars_of_form == 11) return sometimes_in_time;
    if (bar % bars_of_form == 7 || bar % bars_of_form == 0) return -sometimes_in_time;
    return -80 + 8.0 * ((bar * 7) % 26);  // to 120 ms late
}

/// Each chord on 1, and struck again on 2&.
Stopwatch played(std::vector<double> tempi) {
    const auto bars = static_cast<int>(tempi.size());
    Stopwatch guitarist(std::move(tempi));
    for (int bar = 1; bar <= bars; ++bar) {
        guitarist.strum(bar, 1, lateness(bar));
        guitarist.strum(bar, 2.5, -20 + 5 * (bar % 10));
    }
    return guitarist;
}

Verdict verdict_of(const Scripted& strum) {
    const double tolerance = tolerance_ms(strum.bpm);
    REQUIRE(std::fabs(std::fabs(strum.late_ms) - tolerance) > 0.2);  // not on the edge
    if (std::fabs(strum.late_ms) < tolerance) return Verdict::on_time;
    return strum.late_ms > 0 ? Verdict::late : Verdict::early;
}

/// How many are in time of those that are so at some of the tempi only.
int check_all_come_back(const Stopwatch& guitarist) {
    const auto assessment = assess::assess(guitarist.map(), guitarist.heard(), by_the_beat());
    const auto& script = guitarist.script();
    REQUIRE(assessment.strums.size() == script.size());
    REQUIRE(assessment.changes.size() == script.size() / 2);
    int in_time = 0;
    for (std::size_t n = 0; n < script.size(); ++n) {
        const auto& scripted = script[n];
        INFO("bar " << scripted.bar << " beat " << scripted.beat << " at " << scripted.bpm << ": "
                    << scripted.late_ms << " ms");
        const auto& strum = assessment.strums[n];
        CHECK(strum.time_through == (scripted.bar - 1) / bars_of_form + 1);
        CHECK(strum.bar == (scripted.bar - 1) % bars_of_form + 1);
        CHECK(strum.beat.number() == scripted.beat);
        CHECK(strum.asynchrony.milliseconds() == Approx(scripted.late_ms).margin(0.1));
        if (scripted.beat != 1) continue;
        const auto& change = assessment.changes[n / 2];
        CHECK(change.lateness.value().milliseconds() == Approx(scripted.late_ms).margin(0.1));
        CHECK(assess::name_of(change.verdict) == assess::name_of(verdict_of(scripted)));
        const bool sometimes = std::fabs(scripted.late_ms) == sometimes_in_time;
        if (sometimes && change.verdict == Verdict::on_time) ++in_time;
    }
    return in_time;
}

}  // namespace

TEST_CASE("known lateness comes back where each time through has a tempo of its own") {
    // Four a time through, in time at 96 to 112 bpm.
    CHECK(check_all_come_back(played(by_time_through())) == 5 * 4);
}

TEST_CASE("known lateness comes back through a ritardando") {
    // Bars 11 and 12; 3 and 7 are as far off at 132.
    CHECK(check_all_come_back(played(with_ritardando())) == 2);
}

TEST_CASE("the tolerance that is reported is that of the first tempo") {
    const auto guitarist = played(by_time_through());
    const auto assessment = assess::assess(guitarist.map(), guitarist.heard(), by_the_beat());
    CHECK(assessment.tolerance.milliseconds() == Approx(tolerance_ms(96)).margin(0.01));
}

namespace {

/// Twelve bars at 120 and twelve at 240: every chord so late, and struck again on the beats after
/// it, 20 ms ahead and behind in turn.
std::vector<Verdict> verdicts_of_unsteady(double late_ms, const assess::Settings& settings) {
    std::vector<double> tempi(2 * bars_of_form, 120.0);
    std::fill(tempi.begin() + bars_of_form, tempi.end(), 240.0);
    Stopwatch guitarist(tempi);
    for (int bar = 1; bar <= 2 * bars_of_form; ++bar) {
        guitarist.strum(bar, 1, late_ms);
        for (int beat = 2; beat <= 4; ++beat) {
            guitarist.strum(bar, beat, (bar + beat) % 2 == 0 ? 20 : -20);
        }
    }
    const auto changes = assess::assess(guitarist.map(), guitarist.heard(), settings).changes;
    REQUIRE(changes.size() == 2 * bars_of_form);
    std::vector<Verdict> verdicts;
    for (const auto& change : changes) verdicts.push_back(change.verdict);
    return verdicts;
}

/// One verdict at 120, and one at 240.
std::vector<Verdict> first_and_second(Verdict first, Verdict second) {
    std::vector<Verdict> verdicts(bars_of_form, first);
    verdicts.insert(verdicts.end(), bars_of_form, second);
    return verdicts;
}

}  // namespace

TEST_CASE("the player's own scatter widens what is in time as far as each tempo lets it") {
    // 51 ms by the scatter, where 45 and 25 would be: but never over half the short note, which is
    // 67 ms at 120 and 46 at 240.
    const auto settings = by_the_beat();
    CHECK(verdicts_of_unsteady(48.5, settings) ==
          first_and_second(Verdict::on_time, Verdict::late));
    CHECK(verdicts_of_unsteady(44, settings) ==
          first_and_second(Verdict::on_time, Verdict::on_time));
}

TEST_CASE("a tolerance that is asked for holds at every tempo") {
    auto settings = by_the_beat();
    settings.tolerance = time::from_milliseconds(40);
    CHECK(verdicts_of_unsteady(39, settings) ==
          first_and_second(Verdict::on_time, Verdict::on_time));
    CHECK(verdicts_of_unsteady(41, settings) == first_and_second(Verdict::late, Verdict::late));
}

TEST_CASE("drift over a silence is against the tempi that it has") {
    std::vector<double> tempi(bars_of_form, 120.0);
    std::fill(tempi.begin() + 6, tempi.end(), 108.0);
    Stopwatch guitarist(tempi);
    for (int bar = 1; bar <= bars_of_form; ++bar) {
        for (int beat = 1; beat <= 4; ++beat) {
            // Until, on the beat on which the band is back, the off-beat before is nearer.
            const bool alone = bar >= 5 && (bar <= 8 || (bar == 9 && beat == 1));
            guitarist.strum(bar, beat, alone ? -40 * (bar - 5 + (beat - 1) / 4.0) : 0);
        }
    }
    const auto map = guitarist.map();
    const auto silent_from = [](std::int64_t bar, bool alone) {
        return roadmap::Decision{bar, roadmap::LaysOut{roadmap::everybody, alone}};
    };
    auto decided = map.decided();
    decided.insert(decided.begin(), silent_from(5, true));
    decided.push_back(silent_from(9, false));
    const roadmap::RoadMap alone(map.form(), map.asked(), decided);
    const auto time = assess::assess(alone, guitarist.heard(), by_the_beat()).time;
    REQUIRE(time.silences.size() == 1);
    CHECK(time.silences[0].first_bar == 5);
    CHECK(time.silences[0].bars == 4);
    CHECK(time.silences[0].strums == 17);
    CHECK(*time.silences[0].came_back_ms == Approx(-160).margin(0.1));
    CHECK(*time.drift_ms_per_bar == Approx(-40).margin(0.01));
}

TEST_CASE("a melody keeps the player company: without drums and bass no bar is silent") {
    std::vector<double> tempi(bars_of_form, 120.0);
    Stopwatch guitarist(tempi);
    for (int bar = 1; bar <= bars_of_form; ++bar) {
        for (int beat = 1; beat <= 4; ++beat) guitarist.strum(bar, beat, 2.0 * bar);
    }
    auto asked = guitarist.map().asked();
    asked.manner.drums = chart::Drums::off;
    asked.manner.bass = chart::Bass::off;
    const auto time_with_melody = [&](bool melody) {
        asked.melody = melody;
        const roadmap::RoadMap map(guitarist.map().form(), asked);
        return assess::assess(map, guitarist.heard(), by_the_beat()).time;
    };
    CHECK_FALSE(time_with_melody(true).drift_ms_per_bar);
    CHECK(time_with_melody(true).silences.empty());
    CHECK(*time_with_melody(false).drift_ms_per_bar == Approx(2).margin(0.05));
    CHECK(time_with_melody(false).silences.size() == 1);
}
