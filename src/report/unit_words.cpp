#include <compline/report/unit_words.hpp>

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstdlib>

namespace compline::report {

namespace {

/// Nearer than this nobody hears it beside a band (common practice, no source).
constexpr int in_tune_cents = 5;
constexpr int cents_in_semitone = 100;
/// A note as soft as this is taken for a ghost beside louder ones, or lost.
constexpr int too_soft = 20;
constexpr int loudest = 127;

/// Without a key: by the names that tunings are mostly given in.
std::string name_of(harmony::MidiNote note) {
    using harmony::Letter;
    static constexpr std::array<harmony::Spelling, 12> names = {{{Letter::C, 0},
                                                                 {Letter::C, 1},
                                                                 {Letter::D, 0},
                                                                 {Letter::E, -1},
                                                                 {Letter::E, 0},
                                                                 {Letter::F, 0},
                                                                 {Letter::F, 1},
                                                                 {Letter::G, 0},
                                                                 {Letter::A, -1},
                                                                 {Letter::A, 0},
                                                                 {Letter::B, -1},
                                                                 {Letter::B, 0}}};
    return harmony::note_name(note, names[static_cast<std::size_t>(note.pitch_class())]);
}

/// How far it is from the open string, in cents.
int off(int string, const listen::NoteSeen& note, const guitar::Fretboard& fretboard) {
    const int semitones = note.key.number() - fretboard.open(string).number();
    return semitones * cents_in_semitone + static_cast<int>(std::lround(note.cents));
}

std::string tuning_words(int cents) {
    if (std::abs(cents) <= in_tune_cents) {
        return cents == 0 ? "in tune"
                          : fmt::format("in tune ({} {} {})", std::abs(cents),
                                        std::abs(cents) == 1 ? "cent" : "cents",
                                        cents > 0 ? "sharp" : "flat");
    }
    return fmt::format("{} cents {}: tune it", std::abs(cents), cents > 0 ? "sharp" : "flat");
}

std::string loudness(int velocity) { return velocity == 0 ? "-" : fmt::format("{}", velocity); }

std::string advice(int soft, int hard) {
    if (soft == 0 && hard == 0) return "not heard: is its sensitivity right down?";
    if (soft == 0) return "the soft one was not heard: raise its sensitivity";
    if (soft < too_soft) return "the soft one is too soft: raise its sensitivity";
    if (hard >= loudest) return "the hard one is at the top: lower its sensitivity";
    return "good";
}

}  // namespace

bool is_open_string(int string, const listen::NoteSeen& note, const guitar::Fretboard& fretboard) {
    return std::abs(off(string, note, fretboard)) <= cents_in_semitone;
}

std::string open_string_words(int string, const listen::NoteSeen& note,
                              const guitar::Fretboard& fretboard) {
    if (!is_open_string(string, note, fretboard)) {
        return fmt::format("that was {}, on channel {}: string {} is {}", name_of(note.key),
                           note.channel, string, name_of(fretboard.open(string)));
    }
    return fmt::format("string {}: {}, {}, on channel {}", string, name_of(fretboard.open(string)),
                       tuning_words(off(string, note, fretboard)), note.channel);
}

std::string sensitivity_words(const std::vector<int>& soft, const std::vector<int>& hard) {
    std::string text = "string   soft   hard\n";
    for (std::size_t i = 0; i < soft.size(); ++i) {
        text += fmt::format("  {:<6} {:>4}   {:>4}   {}\n", i + 1, loudness(soft[i]),
                            loudness(hard[i]), advice(soft[i], hard[i]));
    }
    return text;
}

}  // namespace compline::report
