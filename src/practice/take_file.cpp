#include "take_track.hpp"

#include <compline/practice/take_file.hpp>

#include <algorithm>

namespace compline::practice {

using time::Seconds;

TakeFile::TakeFile(const std::filesystem::path& path, Opening opening, files::Access access)
    : opening_(std::move(opening)), access_(access), file_(path, access) {
    try {
        file_.append(midi::open_smf(file_with(opening_.info, opening_.map, {})));
    } catch (const files::FileError&) {
        file_.remove();  // a take without a beginning is none
        throw;
    }
}

void TakeFile::add(const midi::TimedMessage& timed) { append(timed.at, timed.message); }

void TakeFile::add(const TimedDecision& decided) {
    append(decided.at, midi::text_event(midi::meta::text, to_text(decided.decision)));
}

void TakeFile::add_interruption(Seconds at) {
    append(at, midi::text_event(midi::meta::text, interruption_text));
}

void TakeFile::add(const listen::CableEvent& event) { append(event.at, cable_event(event)); }

void TakeFile::add_pedal(const midi::TimedMessage& timed) {
    append(std::min(timed.at, last_), pedal_event(timed.message));
}

void TakeFile::listened_until(Seconds at) {
    append(at, midi::text_event(midi::meta::text, listening_text));
}

void TakeFile::append(Seconds at, const midi::Event& event) {
    const std::int64_t tick = std::max(tick_, TakeTicks(opening_.map)(at));
    last_ = std::max(last_, at);
    const auto put = [this](std::int64_t to, const midi::Event& e) {
        file_.append(midi::event_bytes(tick_, {to, e}));
        tick_ = to;
    };
    bridge(tick_, tick, put);
    put(tick, event);
}

std::vector<std::uint8_t> TakeFile::finish(const Take& take) {
    auto bytes = midi::write_smf(to_file(take, opening_.map));
    // Only our own file is replaced: the player may have put it away, and another there.
    const auto existing = file_.is_in_place() ? files::Existing::replace : files::Existing::keep;
    files::save_bytes(file_.path(), bytes, existing, access_);
    return bytes;
}

}  // namespace compline::practice
