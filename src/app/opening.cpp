#include "evening.hpp"

#include <compline/listen/pickup_words.hpp>

namespace compline::app {

practice::TakeInfo opening_of(const AskedEvening& asked) {
    auto info = practice::info_of(asked.map, asked.chart_text);
    info.program = program;
    info.players = asked.players;
    info.stage = asked.stage;
    info.voicings = asked.voicing_words;
    info.fretboard = asked.fretboard;
    info.player = asked.player;
    info.delay = listen::live_delay(asked.offset, asked.string_offsets, asked.rules.pickup);
    if (asked.hears_sound()) {
        info.heard = practice::HeardBy::sound;
        info.delay = {asked.offset};
    }
    info.pickup = asked.rules.pickup;
    const auto& rules = asked.rules;
    if (rules.rhythm) info.settings.rhythm = *rules.rhythm;
    if (rules.strictness) info.settings.strictness = *rules.strictness;
    if (rules.against) info.settings.against = *rules.against;
    info.settings.tolerance = rules.tolerance;
    info.settings.pushes = rules.pushes.value_or(true);
    return info;
}

}  // namespace compline::app
