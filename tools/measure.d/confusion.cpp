#include "measure.d/confusion.hpp"

#include "measure.d/compare.hpp"

#include <compline/listen/listener.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace compline::measure {

namespace {

using simulate::Deed;
using simulate::PlayedChange;
using time::Seconds;

constexpr std::array<int, tempo_bands> band_ends = {110, 160, 210, 1000};
constexpr Seconds laid_back{0.015};
constexpr Seconds short_overlap{0.030};

double rate(int part, int whole) {
    return whole == 0 ? 1 : static_cast<double>(part) / static_cast<double>(whole);
}

std::size_t sustain_of(const simulate::Habits& habits) {
    if (habits.staccato > 0) return 2;
    return habits.overlap > short_overlap ? 1 : 0;
}

bool is_mistake(const PlayedChange& done) { return done.deed && simulate::is_mistake(*done.deed); }

void count_clean(Figures& figures, const Compared& it, const std::string& verdict) {
    ++figures.clean;
    figures.false_alarms += it.alarm ? 1 : 0;
    figures.own_word += it.own_word ? 1 : 0;
    figures.strum += it.strum ? 1 : 0;
    figures.clean_called_late += verdict == "late" ? 1 : 0;
}

void count(Figures& figures, const PlayedChange& done, const assess::Change& said,
           const Compared& it) {
    const auto verdict = verdict_of(said);
    if (is_mistake(done)) {
        ++figures.mistakes;
        figures.found += it.alarm ? 1 : 0;
        figures.named += it.named ? 1 : 0;
    } else if (done.deed != Deed::wait) {
        count_clean(figures, it, verdict);
    }
    if (verdict == "missed") {
        ++figures.called_missed;
        const bool so = done.deed == Deed::missed || done.deed == Deed::lost;
        figures.truly_missed += so ? 1 : 0;
    }
    if (verdict == "early") {
        ++figures.called_early;
        figures.truly_early += done.deed == Deed::early ? 1 : 0;
    }
    // Another strum is another matter: that is counted as such.
    constexpr double another_strum_ms = 60;
    if (!is_mistake(done) && it.error_ms && std::fabs(*it.error_ms) < another_strum_ms) {
        ++figures.timed;
        figures.error_sum += *it.error_ms;
        figures.error_squares += *it.error_ms * *it.error_ms;
    }
}

void count(DeedFigures& figures, const PlayedChange& done, const Compared& it) {
    const bool wrong = is_mistake(done);
    const bool waited = done.deed == Deed::wait;
    ++figures.done;
    figures.found += it.alarm == wrong || waited ? 1 : 0;
    figures.named += (wrong ? it.named : it.strum && (waited || !it.alarm)) ? 1 : 0;
}

std::string where(const Pupil& pupil, const PlayedChange& done) {
    return fmt::format(
        "{}, {:g} bpm, {}{}, {}, place {:.0f}, seed {}, time {} bar {} beat {:g}, {}",
        pupil.map.form().chart.title, pupil.map.tempo().count(), name_of(pupil.habits.comping),
        pupil.habits.staccato > 0
            ? fmt::format(" staccato {:.2f}", pupil.habits.staccato)
            : fmt::format(" overlap {:.0f}", pupil.habits.overlap.milliseconds()),
        name_of(pupil.channels), pupil.habits.place.milliseconds(), pupil.seed, done.time_through,
        done.bar, done.beat.number(), done.chord.symbol());
}

}  // namespace

double Figures::false_alarms_in_100() const {
    return clean == 0 ? 0 : 100.0 * rate(false_alarms, clean);
}
double Figures::found_rate() const { return rate(found, mistakes); }
double Figures::named_rate() const { return rate(named, mistakes); }
double Figures::own_word_rate() const { return rate(own_word, clean); }
double Figures::strum_rate() const { return rate(strum, clean); }
double Figures::missed_precision() const { return rate(truly_missed, called_missed); }
double Figures::early_precision() const { return rate(truly_early, called_early); }
double Figures::error_sd_ms() const {
    if (timed < 2) return 0;
    const double mean = error_sum / timed;
    return std::sqrt(std::max(0.0, error_squares / timed - mean * mean));
}

std::size_t tempo_band(double bpm) {
    std::size_t band = 0;
    while (bpm >= band_ends.at(band)) ++band;
    return band;
}

std::string tempo_band_name(int band) {
    constexpr std::array<const char*, tempo_bands> names = {"70 to 109", "110 to 159", "160 to 209",
                                                            "210 to 280"};
    return names.at(static_cast<std::size_t>(band));
}
std::string sustain_name(int sustain) {
    constexpr std::array<const char*, sustains> names = {"legato to 30 ms", "legato to 80 ms",
                                                         "staccato"};
    return names.at(static_cast<std::size_t>(sustain));
}
std::string place_name(int place) { return place == 0 ? "on the beat" : "laid back"; }

Disagreement disagreement(const Pupil& pupil, const PlayedChange& done,
                          const assess::Change& said) {
    auto words = done.deed ? fmt::format("{}: {}", name_of(*done.deed), done.words)
                           : std::string("simply played");
    words += fmt::format(" [{}", name_of(done.landings.front()));
    if (done.landing) {
        const auto off = *done.landing - pupil.map.time_of(done.at);
        words += fmt::format(" {:+.0f} ms", off.milliseconds());
    }
    return {!is_mistake(done), where(pupil, done), words + "]", in_words(said)};
}

void Confusion::add(const Pupil& pupil, const simulate::PlayedTune& played,
                    const assess::Assessment& assessment) {
    const auto& habits = pupil.habits;
    const std::array<Figures*, 6> rows = {&all,
                                          &by_comping.at(static_cast<std::size_t>(habits.comping)),
                                          &by_tempo.at(tempo_band(pupil.map.tempo().count())),
                                          &by_sustain.at(sustain_of(habits)),
                                          &by_channels.at(static_cast<std::size_t>(pupil.channels)),
                                          &by_place.at(habits.place >= laid_back ? 1 : 0)};
    for (auto* row : rows) ++row->takes;
    const auto said = judged_of(played.changes, assessment, pupil.map);
    const bool strings = pupil.channels != simulate::ChannelLayout::one_for_all;
    for (std::size_t i = 0; i < said.size(); ++i) {
        const auto& done = played.changes[i];
        if (said[i] == nullptr) {
            for (auto* row : rows) ++row->unjudged;
            continue;
        }
        const auto it = compare(done, *said[i], pupil.map, strings);
        for (auto* row : rows) count(*row, done, *said[i], it);
        count(done.deed ? deeds.at(static_cast<std::size_t>(*done.deed)) : simply_played, done, it);
        if (done.after_nothing && !done.deed) count(after_nothing, done, it);
        const bool agreed = is_mistake(done) ? it.named : it.strum && !it.alarm;
        const bool waited = done.deed == Deed::wait && it.strum;
        if (!agreed && !waited) disagreements.push_back(disagreement(pupil, done, *said[i]));
    }
}

assess::Assessment judged(const Pupil& pupil, const simulate::PlayedTune& played) {
    const auto board = guitar::Fretboard::standard();
    const auto messages =
        simulate::sent_on(pupil.channels, simulate::perform(played.script, pupil.map, board));
    assess::Performance performance;
    performance.fretboard = board;
    performance.end = pupil.map.time_of(pupil.map.end());
    performance.notes = listen::hear(messages, {}, performance.end + Seconds(1)).notes;
    return assess::assess(pupil.map, performance, {});
}

Confusion confusion(const std::vector<chart::Form>& forms, int takes, std::uint64_t seed) {
    return over_pupils<Confusion>(forms, takes, seed, judged);
}

}  // namespace compline::measure
