#include <compline/practice/pedal.hpp>

#include <algorithm>

namespace compline::practice {

using time::Seconds;
using Kind = midi::Message::Kind;

bool Pedal::Switch::is_meant_by(const midi::Message& message) const {
    if (message.data1 != number) return false;
    if (kind != Kind::note_on) return message.kind() == kind;
    return message.kind() == Kind::note_on || message.kind() == Kind::note_off ||
           message.kind() == Kind::key_pressure;
}

/// Whether it is pressed by that message, and was not before.
bool Pedal::Switch::goes_down(const midi::TimedMessage& timed) {
    const auto& message = timed.message;
    const bool is_controller = kind == Kind::control_change;
    const bool ends = is_controller ? down && message.data2 < let_go_below : message.ends_note();
    if (ends) {
        down = false;
        released = timed.at;
        return false;
    }
    if (!is_controller) return kind == Kind::program_change || message.starts_note();
    if (down || message.data2 < pressed_from) return false;
    down = true;
    return true;
}

bool Pedal::Switch::counts(Seconds at) {
    if (pressed && at - *pressed < dead_time) return false;
    if (released && at - *released < bounce) return false;
    pressed = at;
    return true;
}

bool Pedal::is_meant_by(const midi::Message& message) const {
    return std::any_of(switches_.begin(), switches_.end(),
                       [&](const Switch& one) { return one.is_meant_by(message); });
}

std::optional<Want> Pedal::take(const midi::TimedMessage& timed) {
    for (auto& one : switches_) {
        if (!one.is_meant_by(timed.message)) continue;
        if (one.goes_down(timed) && one.counts(timed.at)) return one.want;
        return std::nullopt;
    }
    return std::nullopt;
}

std::vector<Want> Pedal::take(std::span<const midi::TimedMessage> news, const Session& session) {
    std::vector<Want> wants;
    for (const auto& timed : news) {
        const auto want = take({session.in_the_stream(timed.at), timed.message});
        if (want) wants.push_back(*want);
    }
    return wants;
}

void Pedal::let_go() {
    for (auto& one : switches_) one.down = false;
}

std::optional<Pedal> pedal_among_music(const TakeInfo& info) {
    if (info.pedal.words.empty() || info.pedal.own_port) return std::nullopt;
    return Pedal(info.pedal.words);
}

}  // namespace compline::practice
