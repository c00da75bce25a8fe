#include "guide_tones_text.hpp"

#include "section_parts.hpp"
#include "voicing_words.hpp"
#include "words.hpp"

#include <compline/harmony/pitch.hpp>
#include <compline/report/columns.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

namespace compline::report {

namespace {

using guitar::PlannedVoicing;
using guitar::StringAndFret;
using guitar::VoicingPlan;

constexpr int tone_columns = 18;
constexpr int voice_columns = 25;

/// "fret 7  A, 3"
std::string tone_words(const VoicingPlan& plan, const PlannedVoicing& voicing,
                       const StringAndFret& place) {
    const int tone = plan.fretboard.note(place).pitch_class();
    return fmt::format("fret {:>2}  {}, {}", place.fret, voicing.palette.name(tone).name(),
                       degree_in(voicing.palette, tone).name(harmony::Accidentals::symbols));
}

std::string way_words(int frets) {
    if (frets == 0) return "stays";
    return fmt::format("{} {}", frets > 0 ? "up" : "down", std::abs(frets));
}

class LineText {
  public:
    LineText(const chart::Form& form, const VoicingPlan& plan) : form_(form), plan_(plan) {
        for (const auto& voicing : plan.voicings) {
            place_columns_ = std::max(place_columns_, columns_of(place_words(voicing.change)));
            symbol_columns_ = std::max(symbol_columns_, columns_of(voicing.change.to.symbol()));
        }
    }

    [[nodiscard]] std::string text() const {
        const auto places = plan_.voicings.front().grip.shape.places();
        auto text = fmt::format("Guide tones, on strings {0} and {1} ({0} first)\n\n",
                                places.front().string, places.back().string);
        const auto parts = parts_of(form_, plan_);
        for (const auto& part : parts) text += part_text(parts, part);
        return text + sum() + "\n";
    }

  private:
    [[nodiscard]] std::string part_text(const std::vector<SectionPart>& parts,
                                        const SectionPart& part) const {
        const auto name = text::printable(part.section, part.section.size());
        if (part.as) {
            return fmt::format("{} again, {}: as {}\n\n", name, bars_words(part.bars),
                               bars_words(parts[*part.as].bars));
        }
        auto text = fmt::format("{}, {}\n", name, bars_words(part.bars));
        for (std::size_t i = part.first; i < part.end; ++i) text += line(i);
        return text + "\n";
    }

    [[nodiscard]] std::string line(std::size_t i) const {
        const auto& voicing = plan_.voicings[i];
        auto text = fmt::format("  {}  {}", padded(place_words(voicing.change), place_columns_),
                                padded(voicing.change.to.symbol(), symbol_columns_));
        for (const auto& place : voicing.grip.shape.places()) {
            const auto before = fret_before(i, place.string);
            const auto way = before ? way_words(place.fret - *before) : "";
            text += "  " + padded(padded(tone_words(plan_, voicing, place), tone_columns) + way,
                                  voice_columns);
        }
        text.erase(text.find_last_not_of(' ') + 1);
        return text + "\n";
    }

    [[nodiscard]] std::optional<int> fret_before(std::size_t i, int string) const {
        const auto n = plan_.voicings.size();
        return plan_.voicings[(i + n - 1) % n].grip.shape.on(string);
    }

    [[nodiscard]] std::string sum() const {
        int stay = 0;
        int semitone = 0;
        int all = 0;
        for (const auto& move : plan_.moves) {
            for (const auto& voice : move.voices) {
                ++all;
                stay += voice.semitones() == 0 ? 1 : 0;
                semitone += voice.semitones() == 1 ? 1 : 0;
            }
        }
        return fmt::format("  of {} voices that go on {} stay and {} move a semitone\n", all, stay,
                           semitone);
    }

    const chart::Form& form_;
    const VoicingPlan& plan_;
    int place_columns_ = 0;
    int symbol_columns_ = 0;
};

}  // namespace

std::string guide_tones_text(const chart::Form& form, const VoicingPlan& plan) {
    if (plan.voicings.empty()) return "";
    return LineText(form, plan).text();
}

}  // namespace compline::report
