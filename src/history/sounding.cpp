#include "transitions.hpp"

#include <compline/chart/transpose.hpp>
#include <compline/harmony/chord.hpp>
#include <compline/harmony/transpose.hpp>

namespace compline::history {

namespace {

/// By one name of those that sound the same.
harmony::Spelling one_of_twelve(const harmony::Spelling& spelling) {
    constexpr int in_fifths = 12;  // C is 0
    const int place = harmony::place_in_fifths(spelling) % in_fifths;
    return harmony::spelling_at(place < 0 ? place + in_fifths : place);
}

std::string sound_of(harmony::Chord chord) {
    chord.root = one_of_twelve(chord.root);
    if (chord.bass) chord.bass = one_of_twelve(*chord.bass);
    return chord.symbol(harmony::Accidentals::letters);
}

harmony::Chord in_key(const harmony::Chord& chord, const chart::Key& own, const std::string& key) {
    const auto played = chart::read_key_for(own, key);
    const int fifths = harmony::place_in_fifths(played.tonic) - harmony::place_in_fifths(own.tonic);
    return fifths == 0 ? chord : harmony::transposed(chord, fifths, chart::sharps_of(played));
}

}  // namespace

const std::optional<chart::Key>& Sounding::own_key() {
    if (!chart_was_read_) {
        chart_was_read_ = true;
        try {
            own_key_ = chart::read_chart(tune_.chart_text, tune_.chart_file).key;
        } catch (const chart::ChartError&) {
            own_key_.reset();  // an older chart, by rules that are no more: TuneHistory::bars is 0
        }
    }
    return own_key_;
}

std::optional<Sounding::SoundingChord> Sounding::hear(const std::string& symbol,
                                                      const std::string& key) {
    if (!key.empty() && !own_key()) return std::nullopt;
    try {
        auto chord = harmony::read_chord(symbol);
        if (!key.empty()) chord = in_key(chord, *own_key(), key);
        return SoundingChord{chord.symbol(harmony::Accidentals::letters), sound_of(chord)};
    } catch (const text::BadInput&) {
        return std::nullopt;
    }
}

const Sounding::SoundingChord* Sounding::of(const std::string& chord, const std::string& key) {
    auto found = heard_.find({chord, key});
    if (found == heard_.end())
        found = heard_.emplace(std::pair(chord, key), hear(chord, key)).first;
    return found->second ? &*found->second : nullptr;
}

}  // namespace compline::history
