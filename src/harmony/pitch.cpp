#include <compline/harmony/pitch.hpp>

#include <array>
#include <cmath>

namespace compline::harmony {

namespace {

constexpr std::array<int, 7> natural_pitch_class = {0, 2, 4, 5, 7, 9, 11};

std::string accidental_text(int accidental, Accidentals style) {
    const bool symbols = style == Accidentals::symbols;
    std::string text;
    // Double accidentals have signs of their own.
    for (; symbols && accidental >= 2; accidental -= 2) text += "𝄪";
    for (; symbols && accidental <= -2; accidental += 2) text += "𝄫";
    for (; accidental > 0; --accidental) text += symbols ? "♯" : "#";
    for (; accidental < 0; ++accidental) text += symbols ? "♭" : "b";
    return text;
}

struct AccidentalSign {
    std::string_view text;
    int value;
};
constexpr std::array<AccidentalSign, 6> accidental_signs = {
    {{"b", -1}, {"#", 1}, {"♭", -1}, {"♯", 1}, {"𝄫", -2}, {"𝄪", 2}}};

}  // namespace

double MidiNote::hz() const { return 440.0 * std::exp2((number_ - 69) / 12.0); }

int Spelling::pitch_class() const {
    const int natural = natural_pitch_class[static_cast<std::size_t>(letter)];
    return ((natural + accidental) % 12 + 12) % 12;
}

std::string Spelling::name(Accidentals style) const {
    return std::string(1, "CDEFGAB"[static_cast<std::size_t>(letter)]) +
           accidental_text(accidental, style);
}

std::optional<Spelling> read_spelling(std::string_view text, std::size_t& length) {
    length = 0;
    const std::string_view letters = "CDEFGAB";
    if (text.empty()) return std::nullopt;
    const auto letter = letters.find(text.front());
    if (letter == std::string_view::npos) return std::nullopt;
    Spelling spelling{static_cast<Letter>(letter), 0};
    length = 1;
    bool found = true;
    while (found && std::abs(spelling.accidental) < 2) {
        found = false;
        for (const auto& sign : accidental_signs) {
            const bool mixed = spelling.accidental * sign.value < 0;
            if (mixed || std::abs(spelling.accidental + sign.value) > 2) continue;
            if (text.substr(length, sign.text.size()) != sign.text) continue;
            spelling.accidental += sign.value;
            length += sign.text.size();
            found = true;
            break;
        }
    }
    return spelling;
}

int Degree::pitch_class() const {
    const int natural = natural_pitch_class[static_cast<std::size_t>((number - 1) % 7)];
    return ((natural + alteration) % 12 + 12) % 12;
}

std::string Degree::name(Accidentals style) const {
    // A degree is lowered twice, a note has a double flat: ♭♭7 is B𝄫 on C.
    std::string text;
    for (int i = 0; i < std::abs(alteration); ++i)
        text += accidental_text(alteration < 0 ? -1 : 1, style);
    return text + std::to_string(number);
}

Spelling spell(const Spelling& root, const Degree& degree) {
    const int letter = (static_cast<int>(root.letter) + degree.number - 1) % 7;
    Spelling spelling{static_cast<Letter>(letter), 0};
    const int wanted = (root.pitch_class() + degree.pitch_class()) % 12;
    int difference = (wanted - spelling.pitch_class() + 12) % 12;
    if (difference > 6) difference -= 12;
    spelling.accidental = difference;
    return spelling;
}

std::string note_name(MidiNote note, const Spelling& spelling, Accidentals style) {
    // The octave of the letter itself: take the accidental away first.
    const int letter_note = note.number() - spelling.accidental;
    const int octave = (letter_note >= 0 ? letter_note / 12 : (letter_note - 11) / 12) - 1;
    return spelling.name(style) + std::to_string(octave);
}

}  // namespace compline::harmony
