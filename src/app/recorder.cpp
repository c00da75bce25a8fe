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

/// So much may be missing of a take whose machine lost its power.
constexpr time::Seconds between_syncs{1};

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
    const auto& band = evening.on_stage.band;
    const auto tempo = evening.groove.timeline.tempo();
    info.chart_hash = chart::chart_hash(evening.form.chart);
    info.tempo_bpm = tempo.count();
    info.route = band.route;
    info.cut_short = true;
    info.silent_bars = band::silent_bars(evening.form, band, tempo, most_silent_bars);
    if (band.manner.feel) info.feel = chart::name_of(*band.manner.feel);
    if (band.manner.drums) info.drums = chart::name_of(*band.manner.drums);
    info.swing = evening.swing;
    info.placement = band::placement_in_words(evening.on_stage.stage);
    listen::PickupSettings ears;
    ears.delay = {evening.offset, listen::usual_cycles};
    listen::read_pickup(evening.rules.pickup, ears);
    info.delay = ears.delay;
    info.pickup = evening.rules.pickup;
    const auto& rules = evening.rules;
    if (rules.rhythm) info.rhythm = rules.rhythm->name();
    if (rules.strictness) info.strictness = harmony::name_of(*rules.strictness);
    if (rules.against) info.against = assess::name_of(*rules.against);
    if (rules.tolerance) info.tolerance_ms = rules.tolerance->milliseconds();
    return info;
}

void Recorder::open() {
    path_ = numbered(first_path_, run_);
    const practice::Opening opening{take_info(evening_), evening_.groove.timeline.tempo(),
                                    evening_.form.chart.meter, lead_};
    syncer_.reset();
    file_.emplace(path_, opening, files::Access::own);
    syncer_.emplace([this] { file_->sync(); });
    written_until_ = -lead_;
    synced_ = -lead_;
    half_written_ = false;
    complaint_.clear();
    kept_ = true;
}

void Recorder::go_to_free_name() {
    std::error_code unknown;
    do {
        ++run_;
    } while (std::filesystem::exists(numbered(first_path_, run_), unknown));
}

void Recorder::start_over() {
    if (kept_) go_to_free_name();
    open();
}

void Recorder::add(const practice::Played& news, time::Seconds now) {
    append(news, now);
    sync(now);
}

void Recorder::append(const practice::Played& news, time::Seconds now) {
    // Behind an event of which only a part was written nothing could be read.
    if (half_written_) return;
    try {
        for (const auto& timed : news.messages) file_->add(timed);
        for (const auto at : news.interruptions) file_->add_interruption(at);
        if (!news.messages.empty()) written_until_ = news.messages.back().at;
        if (now - written_until_ < heartbeat) return;
        file_->listened_until(now);
        written_until_ = now;
    } catch (const files::FileError& error) {
        half_written_ = true;
        complaint_ = error.what();
    }
}

void Recorder::sync(time::Seconds now) {
    if (complaint_.empty()) complaint_ = syncer_->complaint();
    if (now - synced_ < between_syncs) return;
    syncer_->ask();
    synced_ = now;
}

std::vector<std::uint8_t> Recorder::bytes_of(const practice::Take& take) const {
    return midi::write_smf(practice::to_file(take, evening_.groove.timeline.tempo(),
                                             evening_.form.chart.meter, lead_));
}

std::vector<std::uint8_t> Recorder::write(const practice::Take& take) {
    syncer_.reset();
    complaint_.clear();
    try {
        return file_->finish(take);
    } catch (const files::AlreadyThere&) {
        return write_elsewhere(take);
    } catch (const files::FileError& error) {
        complaint_ = error.what();
        return bytes_of(take);
    }
}

/// The player has put another file where the take was.
std::vector<std::uint8_t> Recorder::write_elsewhere(const practice::Take& take) {
    auto bytes = bytes_of(take);
    go_to_free_name();
    path_ = numbered(first_path_, run_);
    try {
        files::save_bytes(path_, bytes, files::Existing::keep, files::Access::own);
    } catch (const files::FileError& error) {
        complaint_ = error.what();
    }
    return bytes;
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
    const auto bars = take.info->route.bars_before(std::max(1, times_through) + 1);
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
