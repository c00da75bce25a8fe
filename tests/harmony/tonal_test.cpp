#include "support/catch.hpp"

#include <compline/harmony/quality.hpp>
#include <compline/text/bad_input.hpp>

#include <nlohmann/json.hpp>

#include <fstream>
#include <map>
#include <optional>
#include <set>
#include <string>

using namespace compline::harmony;

// Against tonal (npm, MIT), a library of music theory: the table beside this file is written by
// tools/chord_table.

namespace {

using Names = std::map<std::string, std::string>;

const char* const font_trick = "the caret is a key of some chord fonts, no lead-sheet notation";
const char* const no_notation = "no lead sheet writes it so";
const char* const flat_five = "tonal reads b5 beside another tension as #11 and keeps the fifth";

/// Ways to write a chord that we do not read, and why.
const Names unread = {
    {"^", font_trick},
    {"^7", font_trick},
    {"^9", font_trick},
    {"^13", font_trick},
    {"^#5", font_trick},
    {"^7b6", font_trick},
    {"^7#5", font_trick},
    {"^7#11", font_trick},
    {"^9#11", font_trick},
    {"-^7", font_trick},
    {"-^9", font_trick},
    {"h", "an h for the half-diminished is a key of some chord fonts"},
    {"h7", "an h for the half-diminished is a key of some chord fonts"},
    {"dom", no_notation},
    {"67", no_notation},
    {"mb6M7", no_notation},
    {"o7M7", "a diminished seventh with its major seventh as well: no chart needs it"},
    {"4", "either sus4 or fourths on fourths; sus4 says the one"},
    {"quartal", no_notation},
    {"m11A", no_notation},
    {"phryg", "a mode, no chord symbol; 7b9sus4 says it"},
    {"alt7", no_notation},
};

/// Names that both read, differently, and why ours is the musician's reading.
const Names otherwise = {
    {"M7b6", "tonal leaves the fifth out; a fifth is always optional here"},
    {"7b13", "tonal leaves the fifth out; a fifth is always optional here"},
    {"9b13", "tonal leaves the fifth out; a fifth is always optional here"},
    {"mb6b9", "tonal leaves the fifth out; a fifth is always optional here"},
    {"maj#4", "maj alone is a triad: no seventh without a 7"},
    {"M7add13", "an added thirteenth brings no ninth with it"},
    {"m7#5", "tonal spells a written sharp fifth as a flat sixth"},
    {"m9#5", "tonal spells a written sharp fifth as a flat sixth"},
    {"7alt", "alt is any alteration of fifth and ninth, not b13 and #9 alone"},
    {"b9sus", "a flat behind the root is the root's: Cb9sus is C flat"},
    {"6b5", flat_five},
    {"M6b5", flat_five},
    {"7b5b13", flat_five},
    {"7b5#9", flat_five},
    {"7#9b5", flat_five},
    {"9b5b13", flat_five},
    {"7b5b9", flat_five},
    {"7b9b5", flat_five},
    {"7b5b9b13", flat_five},
};

std::set<std::string> words(const std::string& text) {
    std::set<std::string> found;
    for (std::size_t at = 0; at < text.size();) {
        const auto end = std::min(text.find(' ', at), text.size());
        found.insert(text.substr(at, end - at));
        at = end + 1;
    }
    return found;
}

std::set<std::string> notes_of(const std::string& symbol) {
    const Chord chord = read_chord(symbol);
    std::set<std::string> notes;
    for (const auto& degree : chord_tones(chord)) {
        notes.insert(spell(chord.root, degree).name(Accidentals::letters));
    }
    return notes;
}

enum class Reading { same, different, not_read };

/// Of one name of one chord type, on every root of the table: the same everywhere, or not.
Reading compare(const std::string& name, const nlohmann::json& notes) {
    for (const auto& [root, theirs] : notes.items()) {
        try {
            if (notes_of(root + name) != words(theirs.get<std::string>())) {
                return Reading::different;
            }
        } catch (const compline::text::BadInput&) {
            return Reading::not_read;
        }
    }
    return Reading::same;
}

}  // namespace

TEST_CASE("tones and spelling agree with tonal's for every symbol that both read") {
    std::ifstream file(COMPLINE_SOURCE_DIR "/tests/harmony/tonal_chords.json");
    const auto table = nlohmann::json::parse(file);
    REQUIRE(table["types"].size() == 106);
    REQUIRE(table["types"][0]["notes"].size() == 17);
    int types = 0;
    std::size_t left_out = 0;
    for (const auto& type : table["types"]) {
        bool agrees = false;
        for (const std::string name : type["names"]) {
            const auto reading = compare(name, type["notes"]);
            const auto expected = unread.count(name) != 0      ? Reading::not_read
                                  : otherwise.count(name) != 0 ? Reading::different
                                                               : Reading::same;
            INFO(name << " = " << type["degrees"]);
            CHECK(reading == expected);
            agrees = agrees || reading == Reading::same;
            left_out += reading != Reading::same;
        }
        types += agrees;
    }
    CHECK(types == 94);  // at least 85 of its 106 types by one name or more
    CHECK(left_out == unread.size() + otherwise.size());
}
