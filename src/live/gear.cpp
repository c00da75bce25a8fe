#include "sound_source.hpp"

#include <compline/band/place.hpp>
#include <compline/live/gear.hpp>

#include <cstdlib>
#include <future>
#include <utility>

#ifdef __GLIBC__
#include <malloc.h>
#endif

namespace compline::live {

namespace {

using SharedBank = std::shared_ptr<const sound::Bank>;

SharedBank make_bank(time::SampleRate rate, sound::Bank::Guitar guitar) {
    return std::make_shared<const sound::Bank>(rate, guitar);
}

/// At the likely rate, while the devices open.
std::future<SharedBank> begin_bank(const AudioStream::Request& request,
                                   sound::Bank::Guitar guitar) {
    const auto rate = request.rate.value_or(time::SampleRate(48000));
    return std::async(std::launch::async, make_bank, rate, guitar);
}

SharedBank bank_for(time::SampleRate rate, std::future<SharedBank> begun,
                    sound::Bank::Guitar guitar) {
    auto bank = begun.get();
    return bank->rate() == rate ? bank : make_bank(rate, guitar);
}

/// Sounds are made in double precision and kept in single: what that needed, and what looking for
/// devices did, lies between them. glibc returns none of it by itself.
void return_free_memory() {
#ifdef __GLIBC__
    (void)::malloc_trim(0);
#endif
}

}  // namespace

Gear open_gear(const GearChoice& choice, const band::Players& players) {
    const auto guitar = band::guitar_sounds_for(players);
    auto begun = begin_bank(choice.stream, guitar);
    Gear gear;
    if (choice.input) gear.port = open_input(*choice.input, choice.output.api);
    if (choice.pedal) gear.pedal = open_pedal(*choice.pedal);
    auto request = choice.stream;
    request.input = choice.sound;
    gear.stream = open_output(choice.output, request);
    if (choice.sound) gear.ear = std::make_unique<SoundEar>(gear.stream->rate());
    if (choice.sound && !choice.input) gear.port = sound_port(*choice.sound, *gear.ear);
    gear.bank = bank_for(gear.stream->rate(), std::move(begun), guitar);
    return_free_memory();
    return gear;
}

}  // namespace compline::live
