#include "recorder.hpp"

#include "session_files.hpp"

#include <compline/band/place.hpp>
#include <compline/chart/chart_hash.hpp>
#include <compline/listen/pickup_words.hpp>
#include <compline/midi/smf.hpp>

#include <algorithm>
#include <system_error>

namespace compline::app {

namespace {

/// Longer than an evening: 1,000 bars last half an hour at 132 bpm.
constexpr int most_silent_bars = 10000;

/// So much may be missing of a take whose program was killed.
constexpr time::Seconds heartbeat{0.5};

bool has_notes(const practice::Played& played) {
    return std::any_of(played.messages.begin(), played.messages.end(),
                       [](const auto& timed) { return timed.message.starts_note(); });
}

}  // namespace

Recorder::Recorder(const Evening& evening, time::Seconds lead)
    : evening_(evening), lead_(lead), first_path_(evening.take ? *evening.take : new_take_path()) {
    open();
}

practice::TakeInfo take_info(const Evening& evening) {
    practice::TakeInfo info;
    const auto& band = evening.plan.band;
    const auto tempo = evening.groove.timeline.tempo();
    info.chart_hash = chart::chart_hash(evening.form.chart);
    info.tempo_bpm = tempo.count();
    info.route = band.route;
    info.cut_short = true;
    info.silent_bars = band::silent_bars(evening.form, band, tempo, most_silent_bars);
    if (band.style.feel) info.feel = chart::name_of(*band.style.feel);
    info.swing = evening.swing;
    info.placement = band::placement_in_words(evening.plan.stage);
    listen::Settings ears;
    ears.delay = {evening.offset, listen::usual_cycles};
    listen::read_pickup(evening.rules.pickup, ears);
    info.delay = ears.delay;
    info.pickup = evening.rules.pickup;
    const auto& rules = evening.rules;
    if (rules.rhythm) info.rhythm = rules.rhythm->name();
    if (rules.strictness) info.strictness = harmony::name_of(*rules.strictness);
    if (rules.tolerance) info.tolerance_ms = rules.tolerance->milliseconds();
    return info;
}

void Recorder::open() {
    path_ = numbered(first_path_, run_);
    const practice::Opening opening{take_info(evening_), evening_.groove.timeline.tempo(),
                                    evening_.form.chart.meter, lead_};
    file_.emplace(path_, opening, midi::Access::own);
    written_until_ = -lead_;
    kept_ = true;
}

void Recorder::start_over() {
    std::error_code unknown;
    if (kept_) {
        do {
            ++run_;
        } while (std::filesystem::exists(numbered(first_path_, run_), unknown));
    }
    complaint_.clear();
    open();
}

void Recorder::add(const practice::Played& news, time::Seconds now) {
    // Behind an event of which only a part was written nothing could be read.
    if (!complaint_.empty()) return;
    try {
        for (const auto& timed : news.messages) file_->add(timed);
        for (const auto at : news.interruptions) file_->add_interruption(at);
        if (!news.messages.empty()) written_until_ = news.messages.back().at;
        if (now - written_until_ < heartbeat) return;
        file_->listened_until(now);
        written_until_ = now;
    } catch (const midi::FileError& error) {
        complaint_ = error.what();
    }
}

std::vector<std::uint8_t> Recorder::write(const practice::Take& take) {
    try {
        complaint_.clear();
        return file_->finish(take);
    } catch (const midi::FileError& error) {
        complaint_ = error.what();
        return midi::write_smf(practice::to_file(take, evening_.groove.timeline.tempo(),
                                                 evening_.form.chart.meter, lead_));
    }
}

practice::Take Recorder::finish(const practice::Played& played, int times_through,
                                const practice::Machine& machine, time::Seconds end) {
    practice::Take take;
    take.messages = played.messages;
    take.interruptions = played.interruptions;
    take.info = take_info(evening_);
    take.info->cut_short = false;
    take.info->route = take.info->route.first(std::max(1, times_through));
    auto& silent = take.info->silent_bars;
    const auto bars = take.info->route.bars_before(std::max(1, times_through));
    silent.erase(std::lower_bound(silent.begin(), silent.end(), bars), silent.end());
    take.info->machine = machine;
    take.end = std::max(end, time::Seconds(0));
    const auto bytes = write(take);
    kept_ = evening_.take || has_notes(played);
    std::error_code stays;  // an empty take too many does no harm
    if (!kept_) std::filesystem::remove(path_, stays);
    // What is judged is what is in the file: `score` says the same of it.
    return practice::read_take(midi::read_smf(bytes).file);
}

}  // namespace compline::app
