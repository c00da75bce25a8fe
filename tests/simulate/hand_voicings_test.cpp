#include "support/catch.hpp"
#include "support/our_forms.hpp"

#include <compline/simulate/hand_voicings.hpp>

#include <nlohmann/json.hpp>

#include <fstream>
#include <map>
#include <set>
#include <string>

using namespace compline;
using simulate::hand_voicings;
using simulate::known_grips;

namespace {

/// Tones above the root of every chord type of tonal's (tests/harmony), by its names.
std::map<std::string, std::set<int>> spelled() {
    std::ifstream file(COMPLINE_SOURCE_DIR "/tests/harmony/tonal_chords.json");
    const auto table = nlohmann::json::parse(file);
    std::map<std::string, std::set<int>> chords;
    for (const auto& type : table.at("types")) {
        std::set<int> tones;
        const auto notes = type.at("notes").at("C").get<std::string>() + " ";
        for (std::size_t at = 0; at < notes.size(); at = notes.find(' ', at) + 1) {
            std::size_t length = 0;
            tones.insert(
                harmony::read_spelling(std::string_view(notes).substr(at), length)->pitch_class());
        }
        for (const auto& name : type.at("names")) chords[name.get<std::string>()] = tones;
    }
    return chords;
}

/// Our symbol as tonal writes it.
std::string as_tonal(std::string_view quality) {
    static const std::map<std::string_view, std::string> otherwise = {
        {"", "M"}, {"m(maj7)", "mM7"}, {"m(maj9)", "mM9"}, {"m6/9", "m69"}, {"dim(maj7)", "oM7"},
    };
    const auto found = otherwise.find(quality);
    return found == otherwise.end() ? std::string(quality) : found->second;
}

/// What a player adds unasked: the ninth of a maj7, ninth and thirteenth of a dominant.
std::set<int> colours_of(std::string_view quality) {
    if (quality == "maj7") return {2};
    if (quality == "7") return {2, 9};
    if (quality == "7alt") return {1, 3, 6, 8};
    return {};
}

std::set<int> tones_of(std::string_view frets) {
    std::set<int> tones;
    std::vector<std::optional<int>> from_lowest;
    for (std::string rest = std::string(frets) + "-"; !rest.empty();) {
        const auto word = rest.substr(0, rest.find('-'));
        from_lowest.push_back(word == "x" ? std::nullopt : std::optional(std::stoi(word)));
        rest = rest.substr(word.size() + 1);
    }
    const auto board = guitar::Fretboard::standard();
    for (const auto& place : guitar::Shape::of(from_lowest).places())
        tones.insert(board.note(place).pitch_class());
    return tones;
}

}  // namespace

TEST_CASE("every row of the voicings sounds its chord and nothing but it") {
    const auto chords = spelled();
    for (const auto& row : hand_voicings()) {
        INFO("C" << row.quality << " " << row.frets);
        const auto chord = chords.find(as_tonal(row.quality));
        REQUIRE(chord != chords.end());
        const auto tones = tones_of(row.frets);
        const auto colours = colours_of(row.quality);
        for (const int tone : tones)
            CHECK((chord->second.contains(tone) || colours.contains(tone)));
        // The root and the fifth are the bass player's, and so is the ninth under an 11 or a 13;
        // of an alt any alteration will do.
        for (const int tone : chord->second) {
            const bool optional = tone == 0 || tone == 7 || tone == 2 || colours.contains(tone);
            if (!optional) CHECK(tones.contains(tone));
        }
    }
}

TEST_CASE("every row of the voicings is three to five strings that one hand reaches") {
    for (const auto& row : hand_voicings()) {
        INFO("C" << row.quality << " " << row.frets);
        const auto chord = harmony::read_chord("C" + std::string(row.quality));
        for (const auto& grip : known_grips(chord)) {
            const auto places = grip.places();
            CHECK(places.size() >= 3);
            CHECK(places.size() <= 5);
            int low = 24;
            int high = 0;
            for (const auto& place : places) {
                low = std::min(low, place.fret);
                high = std::max(high, place.fret);
            }
            CHECK(low >= 1);
            CHECK(high - low <= 3);
        }
    }
}

TEST_CASE("a grip moved along the neck sounds the same chord on another root") {
    for (const char* quality : {"maj7", "7b9", "m7b5", "m6", "13"}) {
        const auto on_c = simulate::sounds_of(harmony::read_chord("C" + std::string(quality)));
        for (const char* root : {"Db", "F#", "Bb"}) {
            const auto chord = harmony::read_chord(root + std::string(quality));
            INFO(chord.symbol());
            const auto grips = known_grips(chord);
            CHECK(grips.size() >= 3);
            for (const auto& grip : grips) {
                const auto board = guitar::Fretboard::standard();
                for (const auto& place : grip.places()) {
                    const int above = board.note(place).pitch_class() - chord.root.pitch_class();
                    CHECK(on_c.test(static_cast<std::size_t>((above + 12) % 12)));
                }
            }
        }
    }
}

TEST_CASE("every chord of our charts has grips, and so have the symbols that players write") {
    for (const auto& form : tests::our_forms()) {
        for (const auto& span : form.spans) {
            INFO(form.chart.title << " " << span.chord->symbol());
            CHECK(known_grips(*span.chord).size() >= 2);
        }
    }
    for (const char* symbol :
         {"C",      "Cm",       "Cdim", "Caug",   "C7b9#11", "C7#9b13", "C13b9", "C11",
          "Cmaj11", "Cmaj7#11", "Cm11", "CmM7",   "C7/E",    "Cm9b5",   "C6/9",  "C9sus4",
          "C7b5#9", "Cadd9",    "C5",   "C13#11", "Cm13",    "Cmaj7#5"}) {
        INFO(symbol);
        CHECK_FALSE(known_grips(harmony::read_chord(symbol)).empty());
    }
}

TEST_CASE("of a slash chord the upper chord is played") {
    CHECK(known_grips(harmony::read_chord("Cm7/Bb")) == known_grips(harmony::read_chord("Cm7")));
}
