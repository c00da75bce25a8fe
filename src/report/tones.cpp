#include <compline/harmony/palette.hpp>
#include <compline/harmony/quality.hpp>
#include <compline/report/columns.hpp>
#include <compline/report/tones.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace compline::report {

namespace {

using harmony::Accidentals;
using harmony::Chord;
using harmony::Degree;

constexpr int columns_of_label = 28;

std::string tone(const Chord& chord, const Degree& degree) {
    return degree.name(Accidentals::symbols) + " " + harmony::spell(chord.root, degree).name();
}

std::string one_of(const Chord& chord, const harmony::Demand& demand) {
    std::string text = demand.size() > 1 ? "one of " : "";
    for (std::size_t i = 0; i < demand.size(); ++i) {
        text += (i == 0 ? "" : ", ") + tone(chord, demand[i]);
    }
    return text;
}

std::vector<std::string> words_of(const Chord& chord, const std::vector<Degree>& degrees) {
    std::vector<std::string> words;
    words.reserve(degrees.size());
    for (const auto& degree : degrees) words.push_back(tone(chord, degree));
    return words;
}

/// A label and what belongs to it, on as many lines as it takes.
std::string line(std::string_view label, const std::vector<std::string>& words) {
    if (words.empty()) return "";
    std::string text = fmt::format("  {:<{}}", label, columns_of_label - 2);
    int column = columns_of_label;
    bool first = true;
    for (const auto& word : words) {
        const int width = columns_of(word) + (first ? 0 : 3);
        if (!first && column + width > terminal_columns) {
            text += "\n" + std::string(columns_of_label, ' ');
            column = columns_of_label;
            first = true;
        }
        text += (first ? "" : "   ") + word;
        column += width;
        first = false;
    }
    return text + "\n";
}

std::vector<std::string> must_sound(const Chord& chord) {
    std::vector<std::string> words;
    for (const auto& demand : harmony::defining_tones(chord))
        words.push_back(one_of(chord, demand));
    const auto enough = harmony::Palette(chord, {}, harmony::Strictness::working).short_of({});
    if (enough < words.size()) {
        words.front() = fmt::format("any {} of {}", enough == 2 ? "two" : "three", words.front());
    }
    return words;
}

/// What `--strictness written` demands besides.
std::vector<std::string> must_sound_as_written(const Chord& chord) {
    const auto usual = harmony::defining_tones(chord);
    std::vector<std::string> words;
    for (const auto& demand : harmony::defining_tones(chord, true)) {
        const bool known = std::find(usual.begin(), usual.end(), demand) != usual.end();
        if (!known) words.push_back(one_of(chord, demand));
    }
    return words;
}

std::string label_of(harmony::Ground ground) {
    constexpr std::array<const char*, 7> labels = {"may sound too",
                                                   "falling a fifth, semitone",
                                                   "as I7 or IV7 of a blues",
                                                   "for two beats or more",
                                                   "as minor tonic",
                                                   "as IV of a major key",
                                                   "substitutions"};
    return labels.at(static_cast<std::size_t>(ground));
}

/// Beside what a tone may sound.
std::string proviso_words(const harmony::OptionalTone& option) {
    const auto name = [](const Degree& degree) { return degree.name(Accidentals::symbols); };
    if (option.instead_of) return " for the " + name(*option.instead_of);
    if (option.above) return " above the " + name(*option.above);
    if (option.never_with == Degree{3, 0}) return " until the third sounds";
    if (option.never_with) return " without the " + name(*option.never_with);
    return "";
}

/// The tones that may sound, ground by ground, and those that never may: each with its note once.
class Grants {
  public:
    explicit Grants(const Chord& chord) : chord_(chord) {
        for (const auto& degree : harmony::chord_tones(chord)) said_.push_back({degree, true});
        for (const auto& demand : harmony::defining_tones(chord)) {
            for (const auto& degree : demand) said_.push_back({degree, true});
        }
        if (chord.bass) bass_ = (chord.bass->pitch_class() - chord.root.pitch_class() + 12) % 12;
    }

    std::vector<std::string> words_of(const harmony::Grant& grant) {
        const bool anywhere = grant.ground == harmony::Ground::working;
        std::vector<std::string> words;
        std::string again;  // what another ground has granted
        for (const auto& option : grant.options) {
            const auto* const before = said(option.degree);
            const bool in_bass = option.degree.pitch_class() == bass_;
            if (before == nullptr && !in_bass) {
                words.push_back(tone(chord_, option.degree) + proviso_words(option));
                said_.push_back({option.degree, anywhere});
            } else if (option.instead_of) {
                words.push_back(option.degree.name(Accidentals::symbols) + proviso_words(option));
            } else if (before != nullptr && !before->anywhere) {
                again += before->degree.name(Accidentals::symbols) + " ";
            }
        }
        if (!again.empty()) {
            words.push_back(again +
                            (grant.ground == harmony::Ground::substitutions ? "anywhere" : "too"));
        }
        if (grant.options.front().colour) {
            words.emplace_back("with three of its own tones, the next above too");
        }
        return words;
    }

    std::vector<std::string> never() {
        std::vector<std::string> words;
        for (const auto& degree : harmony::contradicted_tones(chord_)) {
            if (said(degree) != nullptr) continue;
            words.push_back(tone(chord_, degree));
            said_.push_back({degree, true});
        }
        return words;
    }

  private:
    struct Said {
        Degree degree;
        bool anywhere = false;  ///< on whatever ground
    };
    [[nodiscard]] const Said* said(const Degree& degree) const {
        const auto found = std::find_if(said_.begin(), said_.end(), [&](const Said& it) {
            return it.degree.pitch_class() == degree.pitch_class();
        });
        return found == said_.end() ? nullptr : &*found;
    }

    const Chord& chord_;
    std::optional<int> bass_;
    std::vector<Said> said_;
};

}  // namespace

std::string tones_text(const Chord& chord) {
    std::string text = chord.symbol() + "\n";
    text += line("as written", words_of(chord, harmony::chord_tones(chord)));
    if (chord.bass) text += line("in the bass", {chord.bass->name()});
    text += line("must sound", must_sound(chord));
    text += line("  in strictness written", must_sound_as_written(chord));
    if (const auto sus = harmony::sus_reading(chord)) text += line("or played as", {sus->symbol()});
    Grants granted(chord);
    for (const auto& grant : harmony::grants(chord)) {
        text += line(label_of(grant.ground), granted.words_of(grant));
    }
    return text + line("never", granted.never());
}

}  // namespace compline::report
