#include <compline/midi/message.hpp>

#include <cassert>

namespace compline::midi {

namespace {

std::uint8_t status(Message::Kind kind, int channel) {
    assert(channel >= 1 && channel <= 16);
    return static_cast<std::uint8_t>(static_cast<int>(kind) | ((channel - 1) & 0x0F));
}

std::uint8_t data(int value) {
    assert(value >= 0 && value <= 127);
    return static_cast<std::uint8_t>(value & 0x7F);
}

}  // namespace

Message note_on(int channel, int note, int velocity) {
    return {status(Message::Kind::note_on, channel), data(note), data(velocity)};
}

Message note_off(int channel, int note, int velocity) {
    return {status(Message::Kind::note_off, channel), data(note), data(velocity)};
}

Message pitch_bend(int channel, int value) {
    assert(value >= -8192 && value <= 8191);
    const int wire = value + 8192;  // 14 bits, the low seven first
    return {status(Message::Kind::pitch_bend, channel), data(wire & 0x7F), data(wire >> 7)};
}

Message control_change(int channel, int controller, int value) {
    return {status(Message::Kind::control_change, channel), data(controller), data(value)};
}

Message program_change(int channel, int program) {
    return {status(Message::Kind::program_change, channel), data(program), 0};
}

}  // namespace compline::midi
