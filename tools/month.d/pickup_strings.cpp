#include "pickup_strings.hpp"

#include <algorithm>

namespace compline::month {

using time::Seconds;

namespace {

constexpr Seconds lifted{0.015};
constexpr Seconds a_string{0.004};  // later than the one before

}  // namespace

void PickupStrings::strike(Seconds at, const guitar::Shape& shape, int velocity) {
    static const auto board = guitar::Fretboard::standard();
    damp(at - lifted);
    auto onset = at;
    for (const auto& place : shape.places()) {
        const int note = board.note(place).number();
        send(onset, midi::note_on(place.string, note, velocity));
        sounding_.at(static_cast<std::size_t>(place.string - 1)) = note;
        onset += a_string;
    }
}

void PickupStrings::damp(Seconds at) {
    for (std::size_t string = 0; string < sounding_.size(); ++string) {
        if (!sounding_[string]) continue;
        send(at, midi::note_off(static_cast<int>(string) + 1, *sounding_[string]));
        sounding_[string].reset();
    }
}

std::vector<midi::TimedMessage> PickupStrings::sent_until(Seconds now) {
    const auto later = std::partition_point(waiting_.begin(), waiting_.end(),
                                            [&](const auto& timed) { return timed.at <= now; });
    std::vector<midi::TimedMessage> sent(waiting_.begin(), later);
    waiting_.erase(waiting_.begin(), later);
    return sent;
}

void PickupStrings::send(Seconds at, const midi::Message& message) {
    const auto later = std::upper_bound(waiting_.begin(), waiting_.end(), at,
                                        [](Seconds t, const auto& timed) { return t < timed.at; });
    waiting_.insert(later, {at, message});
}

}  // namespace compline::month
