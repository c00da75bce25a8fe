#include <compline/sound/bank.hpp>
#include <compline/sound/wav.hpp>

#include <cassert>

namespace compline::sound {

namespace {

constexpr int drum_count = first_tuned.index();
constexpr int bass_count = highest_bass_sound.number() - lowest_bass_sound.number() + 1;

SoundId id(int index) { return SoundId(static_cast<std::uint16_t>(index)); }

}  // namespace

SoundId bass(harmony::MidiNote note) {
    assert(note >= lowest_bass_sound && note <= highest_bass_sound);
    return id(drum_count + note.number() - lowest_bass_sound.number());
}

SoundId guitar(harmony::MidiNote note) {
    assert(note >= lowest_guitar_sound && note <= highest_guitar_sound);
    return id(drum_count + bass_count + note.number() - lowest_guitar_sound.number());
}

Bank::Bank(time::SampleRate rate, Guitar guitar) : rate_(rate) {
    // In the order of their ids.
    sounds_ = {make_ride(rate),      make_hihat_foot(rate),  make_kick(rate),  make_stick(rate),
               make_crash(rate),     make_cross_stick(rate), make_snare(rate), make_tom(rate),
               make_brush_tap(rate), make_brush_sweep(rate)};
    for (auto note = lowest_bass_sound; note <= highest_bass_sound;
         note = harmony::MidiNote(note.number() + 1)) {
        sounds_.push_back(make_bass(note, rate));
    }
    for (auto note = lowest_guitar_sound; note <= highest_guitar_sound;
         note = harmony::MidiNote(note.number() + 1)) {
        sounds_.push_back(guitar == Guitar::with ? make_guitar(note, rate) : Samples{});
    }
}

namespace {

/// Made before anything plays: a function's own would be made, and its end registered, within the
/// first callback that asks for it.
const Samples silence;

}  // namespace

void Bank::refuse_without(Guitar needed) const {
    if (needed == Guitar::without || has(guitar(lowest_guitar_sound))) return;
    throw std::logic_error("the guitar's sounds are asked for and were not made");
}

const Samples& Bank::samples(SoundId sound) const noexcept {
    return sound.index() < sounds_.size() ? sounds_[sound.index()] : silence;
}

}  // namespace compline::sound
