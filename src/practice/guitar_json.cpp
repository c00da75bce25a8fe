#include "guitar_json.hpp"

#include <algorithm>
#include <vector>

namespace compline::practice {

namespace {

constexpr int highest_note = 127;

}  // namespace

nlohmann::ordered_json to_json(const guitar::Fretboard& fretboard) {
    std::vector<int> open;
    for (int string = 1; string <= fretboard.strings(); ++string) {
        open.push_back(fretboard.open(string).number() - fretboard.capo());
    }
    return {{"open", open},
            {"frets", fretboard.frets() + fretboard.capo()},
            {"capo", fretboard.capo()}};
}

guitar::Fretboard read_guitar(const JsonValue& json) {
    std::vector<harmony::MidiNote> open;
    const int frets = json.at("frets").count(1, guitar::most_frets);
    const int capo = json.at("capo").count(0, std::min(frets, guitar::highest_capo));
    const auto strings = json.at("open").items();
    if (strings.size() < guitar::fewest_strings || strings.size() > guitar::most_strings) {
        json.at("open").refuse("4 to 8 strings");
    }
    for (const auto& string : strings) {
        open.emplace_back(string.count(0, highest_note - frets));
    }
    return {open, frets, capo};
}

}  // namespace compline::practice
