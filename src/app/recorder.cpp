#include "recorder.hpp"

#include "session_files.hpp"

#include <compline/midi/smf.hpp>
#include <compline/practice/pedal.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <system_error>

namespace compline::app {

namespace {

/// So much may be missing of a take whose program was killed.
constexpr time::Seconds heartbeat{0.5};

/// So much may be missing of a take whose machine lost its power.
constexpr time::Seconds between_syncs{1};

bool has_notes(const practice::Take& take) {
    const auto pedal = practice::pedal_among_music(*take.info);
    return std::any_of(take.messages.begin(), take.messages.end(), [&](const auto& timed) {
        return timed.message.starts_note() && !(pedal && pedal->is_meant_by(timed.message));
    });
}

}  // namespace

Recorder::Recorder(const std::optional<std::filesystem::path>& wished,
                   const practice::Opening& opening)
    : opening_(opening),
      is_wished_(wished.has_value()),
      first_path_(wished ? *wished : new_take_path()) {
    open();
}

void Recorder::open() {
    path_ = numbered(first_path_, run_);
    syncer_.reset();
    file_.emplace(path_, opening_, files::Access::own);
    syncer_.emplace([this] { file_->sync(); });
    written_until_ = -opening_.map.lead();
    synced_ = written_until_;
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

void Recorder::start_over(const practice::Opening& opening) {
    opening_ = opening;
    if (kept_) go_to_free_name();
    open();
}

void Recorder::add(const practice::Played& news,
                   const std::vector<practice::TimedDecision>& decided, time::Seconds now) {
    append(news, decided, now);
    sync(now);
}

void Recorder::append(const practice::Played& news,
                      const std::vector<practice::TimedDecision>& decided, time::Seconds now) {
    // Behind an event of which only a part was written nothing could be read.
    if (half_written_) return;
    try {
        for (const auto& decision : decided) file_->add(decision);
        for (const auto& timed : news.messages) file_->add(timed);
        for (const auto at : news.interruptions) file_->add_interruption(at);
        for (const auto& event : news.cable) file_->add(event);
        for (const auto& timed : news.pedal) file_->add_pedal(timed);
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
    return midi::write_smf(practice::to_file(take, opening_.map));
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

practice::Take Recorder::finish(practice::Take take) {
    // It is of the evening on which it began, whoever hands it over.
    if (take.info) take.info->made = opening_.info.made;
    const auto bytes = write(take);
    kept_ = is_wished_ || has_notes(take);
    std::error_code stays;  // an empty take too many does no harm
    if (!kept_) std::filesystem::remove(path_, stays);
    // What is judged is what is in the file: `score` says the same of it.
    return practice::read_take(midi::read_smf(bytes).file);
}

}  // namespace compline::app
