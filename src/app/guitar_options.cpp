#include "guitar_options.hpp"

#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::app {

namespace {

constexpr int fewest_frets_left = 4;  ///< above the capo
constexpr int highest_note = 127;

int read_or(const AsGiven& given, int usual, int least, int most) {
    return given.empty() ? usual : read_whole_number(given.name, given.text, least, most);
}

/// A text that a reader of another layer takes; what is wrong with it is known at once.
ValueReader checked(AsGiven* place, std::function<void(const std::string& text)> check) {
    return {ValueReader::Takes::one, [=](const std::string& name, const std::string& text) {
                read_option(name, text, Echo::value, check);
                *place = {text, name};
            }};
}

ValueReader number_as_given(AsGiven* place, int least, int most) {
    return {ValueReader::Takes::one, [=](const std::string& name, const std::string& text) {
                (void)read_whole_number(name, text, least, most);
                *place = {text, name};
            }};
}

std::vector<harmony::MidiNote> standard_tuning() {
    const auto standard = guitar::Fretboard::standard();
    std::vector<harmony::MidiNote> open;
    for (int string = 1; string <= standard.strings(); ++string) {
        open.push_back(standard.open(string));
    }
    return open;
}

std::vector<harmony::MidiNote> open_strings(const AsGiven& tuning, int frets) {
    if (tuning.empty()) return standard_tuning();
    auto open = guitar::read_tuning(tuning.text);
    const auto highest = std::max_element(open.begin(), open.end());
    if (highest->number() + frets > highest_note) {
        throw BadInput(
            text::option_place(tuning.name, tuning.text),
            fmt::format("string {} is too high for {} frets", highest - open.begin() + 1, frets),
            "");
    }
    return open;
}

}  // namespace

Option which_guitar(GuitarOptions& options) {
    return {guitar_option, "NAME", "Which of the guitars that your settings describe you play.\n",
            "the one whose port it is, else the settings'", as_typed(&options.name)};
}

std::vector<Option> options_of(GuitarOptions& options) {
    const auto check_tuning = [](const std::string& text) { (void)guitar::read_tuning(text); };
    std::vector<Option> rows = {
        {"--tuning", "NOTES",
         "The open strings from the lowest on: \"D2 A2 D3 G3 B3 E4\"; 4 to 8 of them.\n",
         "E2 A2 D3 G3 B3 E4", checked(&options.tuning, check_tuning)},
        {"--capo", "FRET", "The fret it lies on, 0 to 11; frets are counted from it.", "none",
         number_as_given(&options.capo, 0, guitar::highest_capo)},
        {"--frets", "N", "Frets of the neck, 12 to 36.", "22",
         number_as_given(&options.frets, guitar::fewest_frets, guitar::most_frets)}};
    for (auto& row : rows) row = of_guitar(as_setting(row));
    return rows;
}

Option left_handed_option(GuitarOptions& options) {
    return of_guitar(as_setting({"--left-handed", "", "Diagrams for a left-handed player.",
                                 "right-handed", flag(&options.left_handed)}));
}

guitar::Fretboard read_fretboard(const GuitarOptions& options) {
    const auto standard = guitar::Fretboard::standard();
    const int frets =
        read_or(options.frets, standard.frets(), guitar::fewest_frets, guitar::most_frets);
    const int capo = read_or(options.capo, 0, 0, guitar::highest_capo);
    if (frets - capo < fewest_frets_left) {
        const auto& said = options.capo.empty() ? options.frets : options.capo;
        throw BadInput(fmt::format("{} {}", said.name, said.text), "",
                       fmt::format("that leaves {} of {} frets: {} at least are needed",
                                   frets - capo, frets, fewest_frets_left));
    }
    return {open_strings(options.tuning, frets), frets, capo};
}

}  // namespace compline::app
