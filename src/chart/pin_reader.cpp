#include "pin_reader.hpp"

#include "chart_line.hpp"

#include <compline/chart/pins.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>
#include <compline/yaml/map_reader.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>

namespace compline::chart {

namespace {

using Kind = yaml::TreeNode::Kind;

constexpr std::string_view how_to_say_where =
    "write a chord such as Dm7, bars such as 9, 9-12 or A@2:1-4, or a chord in bars such as "
    "\"B:3 G7\"";

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// A key of the map in its two parts; bars begin with a digit, have a colon, or are those of an
/// ending, since the name of a section alone may be a chord too.
struct PinKey {
    std::string_view bars;
    std::string_view chord;
    std::size_t chord_at = 0;  ///< bytes from the beginning
};

PinKey split(std::string_view key) {
    constexpr std::string_view of_ending = " ending ";
    const std::size_t colon = key.find(':');
    const std::size_t ending = key.find(of_ending);
    const bool numbered = !key.empty() && is_digit(key.front());
    const bool named = ending != std::string_view::npos;
    if (colon == std::string_view::npos && !numbered && !named) return {{}, key, 0};
    // The name of a section may have blanks.
    const std::size_t name_end = named ? ending + of_ending.size() : colon;
    const std::size_t blank = key.find(' ', numbered ? 0 : name_end);
    if (blank == std::string_view::npos) return {key, {}, key.size()};
    const std::size_t chord = std::min(key.find_first_not_of(' ', blank), key.size());
    return {key.substr(0, blank), key.substr(chord), chord};
}

std::string in_bars(const Passage& bars) {
    return bars.bars() == 1 ? fmt::format("bar {}", bars.from)
                            : fmt::format("bars {}-{}", bars.from, bars.to);
}

/// Reads one entry after the other.
class PinReader {
  public:
    PinReader(const yaml::TreeNode& map, const Form* form, const yaml::FileReading& reading)
        : map_(map, "chart", reading), form_(form), reading_(reading) {}

    [[nodiscard]] std::vector<Pin> take() { return std::move(pins_); }

    void read(const yaml::TreeNode& key, const yaml::TreeNode& value) {
        const auto frets = map_.value_of(&value, read_shape_text);
        if (key.kind == Kind::refused) return;
        if (key.kind != Kind::text) {
            reading_.problems.add(key.offset,
                                  fmt::format("{} cannot say where a voicing belongs: {}",
                                              yaml::kind_name(key), how_to_say_where));
            return;
        }
        const auto before = reading_.problems.count();
        auto pin = read_where(key);
        if (reading_.problems.count() != before || !frets) return;
        pin.frets = *frets;
        pins_.push_back(std::move(pin));
        places_.push_back(key.offset);
        keys_.push_back(key.text);
    }

  private:
    void complain(const yaml::TreeNode& key, std::size_t byte, const std::string& what) {
        reading_.problems.add(yaml::offset_in_text(key, byte, reading_.source), what);
    }

    [[nodiscard]] Pin read_where(const yaml::TreeNode& key) {
        const auto where = split(key.text);
        Pin pin{std::string(where.bars), std::nullopt, {}};
        const auto before = reading_.problems.count();
        const auto bars = read_bars(key, where);
        pin.chord = read_chord(key, where);
        if (reading_.problems.count() != before || form_ == nullptr) return pin;
        check_there(key, where, *bars, pin.chord);
        check_new(key, *bars, pin.chord);
        return pin;
    }

    /// Nothing where the form is not known, or has no such bars.
    [[nodiscard]] std::optional<Passage> read_bars(const yaml::TreeNode& key, const PinKey& where) {
        if (form_ == nullptr) return std::nullopt;
        if (where.bars.empty()) return form_->whole();
        try {
            return read_passage(*form_, where.bars);
        } catch (const text::BadInput& error) {
            complain(key, 0, text::printable(error.what(), std::string::npos));
            return std::nullopt;
        }
    }

    [[nodiscard]] std::optional<harmony::Chord> read_chord(const yaml::TreeNode& key,
                                                           const PinKey& where) {
        if (where.chord.empty() && !where.bars.empty()) return std::nullopt;
        if (where.chord.empty()) {
            complain(key, 0, fmt::format("nothing says where this belongs: {}", how_to_say_where));
            return std::nullopt;
        }
        try {
            return harmony::read_chord(where.chord);
        } catch (const text::BadInput& error) {
            if (names_section(where)) {
                complain(key, 0, bars_of_section(where.chord));
            } else {
                // The key of a YAML map may go over several lines.
                complain(key, where.chord_at + error.offset().value_or(0),
                         text::printable(error.what(), std::string::npos));
            }
            return std::nullopt;
        }
    }

    /// The chord that is none, or is not in the tune, is a section's name (`A@2`: with a number).
    [[nodiscard]] bool names_section(const PinKey& where) const {
        if (form_ == nullptr || !where.bars.empty()) return false;
        const auto name = where.chord.substr(0, where.chord.find('@'));
        return std::any_of(form_->bars.begin(), form_->bars.end(),
                           [&](const FormBar& bar) { return bar.section == name; });
    }

    [[nodiscard]] static std::string bars_of_section(std::string_view name) {
        return fmt::format(
            "{} is no chord of the tune: for bars of a section write which, such as "
            "{}:1-4",
            text::quoted(name), text::printable(name));
    }

    void check_there(const yaml::TreeNode& key, const PinKey& where, const Passage& bars,
                     const std::optional<harmony::Chord>& chord) {
        const bool there =
            std::any_of(form_->spans.begin(), form_->spans.end(), [&](const Span& span) {
                const bool inside = span.bar >= bars.from && span.bar <= bars.to;
                return inside && span.chord && (!chord || *span.chord == *chord);
            });
        if (there) return;
        if (!chord) {
            complain(key, 0, fmt::format("{} no chord: nothing is played there", has(bars)));
        } else if (!where.bars.empty()) {
            complain(key, where.chord_at,
                     fmt::format("{} no {}: the chord{} there {}", has(bars), chord->symbol(),
                                 chords_in(bars).size() == 1 ? "" : "s", chords_there(bars)));
        } else if (names_section(where)) {
            complain(key, 0, bars_of_section(where.chord));
        } else {
            complain(key, where.chord_at,
                     fmt::format("there is no {} in the tune: write one of its chords, or delete "
                                 "this",
                                 chord->symbol()));
        }
    }

    [[nodiscard]] static std::string has(const Passage& bars) {
        return fmt::format("{} ha{}", in_bars(bars), bars.bars() == 1 ? "s" : "ve");
    }

    [[nodiscard]] std::vector<std::string> chords_in(const Passage& bars) const {
        std::vector<std::string> chords;
        for (const auto& span : form_->spans_of(bars)) {
            const auto symbol = span.chord ? span.chord->symbol() : "N.C.";
            if (std::find(chords.begin(), chords.end(), symbol) == chords.end()) {
                chords.push_back(symbol);
            }
        }
        return chords;
    }

    [[nodiscard]] std::string chords_there(const Passage& bars) const {
        const auto chords = chords_in(bars);
        return fmt::format("{} {}", chords.size() == 1 ? "is" : "are", text::listed(chords));
    }

    /// Two keys may mean the same in other words: Dm7 and D-7, 9 and B:1.
    void check_new(const yaml::TreeNode& key, const Passage& bars,
                   const std::optional<harmony::Chord>& chord) {
        const bool everywhere = split(key.text).bars.empty();
        for (std::size_t i = 0; i < pins_.size(); ++i) {
            const auto& pin = pins_[i];
            if (keys_[i] == key.text) continue;  // said already
            if (pin.bars.empty() != everywhere || pin.chord != chord) continue;
            if (!everywhere && !(read_passage(*form_, pin.bars) == bars)) continue;
            complain(key, 0,
                     fmt::format("{} is in line {} already, in other words: keep one of them",
                                 text::quoted(key.text), reading_.source.place(places_[i]).line));
            return;
        }
    }

    yaml::MapReader map_;
    const Form* form_;
    const yaml::FileReading& reading_;
    std::vector<Pin> pins_;
    std::vector<std::size_t> places_;  ///< of the pins' keys, and what they say
    std::vector<std::string> keys_;
};

}  // namespace

std::vector<Pin> read_pins(const yaml::TreeNode& map, const Form* form,
                           const yaml::FileReading& reading) {
    if (map.kind == Kind::refused) return {};
    if (map.kind != Kind::map) {
        reading.problems.add(map.offset,
                             fmt::format("{} where voicings were expected: write each as where and "
                                         "shape, such as {{Dm7: x5x56x, \"9\": 3x344x}}",
                                         yaml::kind_name(map)));
        return {};
    }
    if (map.entries.size() > std::size_t{most_pins}) {
        reading.problems.add(map.offset, fmt::format("{} voicings: at most {} are read",
                                                     map.entries.size(), most_pins));
        return {};
    }
    yaml::refuse_duplicate_keys(map, reading);
    PinReader pins(map, form, reading);
    for (const auto& [key, value] : map.entries) pins.read(key, value);
    return pins.take();
}

}  // namespace compline::chart
