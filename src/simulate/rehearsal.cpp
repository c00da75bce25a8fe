#include "chord_place.hpp"
#include "grips.hpp"

#include <compline/simulate/chance.hpp>
#include <compline/simulate/rehearsal.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace compline::simulate {

namespace {

using guitar::Shape;
using time::Seconds;
using time::Ticks;

constexpr Ticks half_beat{480};
constexpr int home_fret = 5;        // around the middle of a comper's neck
constexpr double push_rate = 0.12;  // of chords
constexpr int bars_between_mistakes = 2;

/// One chord of the form as it will be played.
struct Chord : ChordPlace {
    bool changes = true;  ///< differs from the chord before
    bool pushed = false;
    Shape shape;
    std::optional<Mistake> mistake;
};

class Player {
  public:
    Player(const chart::Form& form, const time::Groove& groove, const RehearsalRequest& request)
        : form_(form), groove_(groove), request_(request), chance_(request.seed) {}

    Rehearsal play() {
        read_form();
        for (const auto kind : {Mistake::missed, Mistake::stuck_finger, Mistake::wrong_tone,
                                Mistake::missing_tone, Mistake::late}) {
            plant(kind);
        }
        for (std::size_t i = 0; i < chords_.size(); ++i) strum(i);
        let_go();
        std::sort(rehearsal_.mistakes.begin(), rehearsal_.mistakes.end(),
                  [](const PlantedMistake& a, const PlantedMistake& b) {
                      return std::tie(a.pass, a.bar, a.beat) < std::tie(b.pass, b.bar, b.beat);
                  });
        return std::move(rehearsal_);
    }

  private:
    void read_form() {
        int near_fret = home_fret;
        for (const auto& place : chord_places(form_, request_.times_through)) {
            Chord chord;
            static_cast<ChordPlace&>(chord) = place;
            chord.changes = chords_.empty() || chords_.back().chord != chord.chord;
            chord.pushed = !chords_.empty() && chance_.uniform() < push_rate;
            chord.shape = voicing(place, near_fret);
            near_fret = (lowest_fret(chord.shape) + home_fret) / 2;
            chords_.push_back(chord);
        }
    }

    Shape voicing(const ChordPlace& place, int near_fret) const {
        if (request_.voicings != nullptr) {
            const auto in_form = place.at - form_.length() * (place.pass - 1);
            if (const auto* planned = request_.voicings->at(in_form)) return planned->grip.shape;
        }
        return guitar::shell(fretboard_, place.chord, near_fret);
    }

    bool is_free(std::size_t i) const {
        return std::none_of(chords_.begin(), chords_.end(), [&](const Chord& other) {
            const auto apart = chords_[i].at - other.at;
            const auto room = form_.chart.meter.bar() * bars_between_mistakes;
            return other.mistake && apart < room && -apart < room;
        });
    }

    void plant(Mistake kind) {
        const std::size_t start = 1 + chance_.below(chords_.size() - 1);
        for (std::size_t n = 0; n + 1 < chords_.size(); ++n) {
            const std::size_t i = 1 + (start - 1 + n) % (chords_.size() - 1);
            if (!chords_[i].changes || !is_free(i)) continue;
            const auto words = try_to_plant(kind, i);
            if (!words) continue;
            chords_[i].mistake = kind;
            chords_[i].pushed = false;
            rehearsal_.mistakes.push_back(
                {kind, chords_[i].pass, chords_[i].bar, chords_[i].beat, *words});
            return;
        }
    }

    std::optional<std::string> try_to_plant(Mistake kind, std::size_t i) {
        switch (kind) {
            case Mistake::late:
                return fmt::format("{} comes {:.0f} ms late", chords_[i].chord.symbol(),
                                   request_.late_by.milliseconds());
            case Mistake::wrong_tone:
                return plant_wrong_tone(i);
            case Mistake::stuck_finger:
                return plant_stuck_finger(i);
            case Mistake::missing_tone:
                return plant_missing_tone(i);
            case Mistake::missed:
                return plant_missed(i);
        }
        return std::nullopt;
    }

    HandChange hand_change(std::size_t i) const {
        return {chords_[i - 1].chord, chords_[i - 1].shape, chords_[i].chord, chords_[i].shape,
                form_.chart.key};
    }

    std::optional<std::string> plant_wrong_tone(std::size_t i) {
        for (const auto& grip : with_finger_off(hand_change(i))) {
            if (grip.in_the_bass()) continue;
            chords_[i].shape = grip.shape;
            return fmt::format("{} is played {}: string {} a fret too {}",
                               chords_[i].chord.symbol(), grip.shape.text(), grip.string,
                               grip.moved > 0 ? "high" : "low");
        }
        return std::nullopt;
    }

    std::optional<std::string> plant_stuck_finger(std::size_t i) {
        for (const auto& grip : with_stuck_finger(hand_change(i))) {
            if (grip.in_the_bass() || grip.moved == 0) continue;
            chords_[i].shape = grip.shape;
            return fmt::format("{} is played {}: a finger stays on string {} from {}",
                               chords_[i].chord.symbol(), grip.shape.text(), grip.string,
                               chords_[i - 1].chord.symbol());
        }
        return std::nullopt;
    }

    std::optional<std::string> plant_missing_tone(std::size_t i) {
        // Of a shell the plain remainder are two strings, of a fuller voicing there are more.
        const bool shells = request_.voicings == nullptr;
        for (const auto& grip : with_tone_left_out(hand_change(i))) {
            if (grip.in_the_bass() || (shells && strings_of(grip.shape) != 2)) continue;
            chords_[i].shape = grip.shape;
            return fmt::format("{} is played {}: without its {}", chords_[i].chord.symbol(),
                               grip.shape.text(),
                               grip.left_out->name(harmony::Accidentals::symbols));
        }
        return std::nullopt;
    }

    std::optional<std::string> plant_missed(std::size_t i) {
        if (hand_change(i).old_grip_will_do()) return std::nullopt;
        const auto words = fmt::format("{} is played on through {}", chords_[i - 1].chord.symbol(),
                                       chords_[i].chord.symbol());
        chords_[i].shape = chords_[i - 1].shape;
        return words;
    }

    Seconds scattered() { return request_.scatter * chance_.scatter() * 0.8; }

    void strum(std::size_t i) {
        const Chord& chord = chords_[i];
        const Ticks start = chord.pushed ? chord.at - half_beat : chord.at;
        const Seconds late = chord.mistake == Mistake::late ? request_.late_by : scattered();
        add(start, late, chord.shape);
        // The Charleston: 1, and the off-beat after 2.
        if (chord.length >= time::quarter_note * 3) {
            const bool room = chord.length > time::quarter_note * 2;
            if (room) add(chord.at + half_beat * 3, scattered(), chord.shape);
        }
    }

    void add(Ticks at, Seconds lateness, const Shape& shape) {
        ScriptedStrum strum;
        strum.at = at;
        strum.lateness = lateness;
        strum.shape = shape;
        strum.velocity = 72 + static_cast<int>(chance_.below(17));
        rehearsal_.script.push_back(strum);
    }

    /// Every grip rings for a beat and a half at most, and is let go as the next one is struck.
    void let_go() {
        auto& script = rehearsal_.script;
        for (std::size_t i = 0; i < script.size(); ++i) {
            const Seconds on = groove_.time_of(script[i].at) + script[i].lateness;
            Seconds length = groove_.timeline.tempo().beat() * 1.5;
            if (i + 1 < script.size()) {
                const Seconds next = groove_.time_of(script[i + 1].at) + script[i + 1].lateness;
                length = std::min(length, next - on);
            }
            script[i].length = length;
        }
    }

    const chart::Form& form_;
    time::Groove groove_;
    RehearsalRequest request_;
    Chance chance_;
    guitar::Fretboard fretboard_ = guitar::Fretboard::standard();
    std::vector<Chord> chords_;
    Rehearsal rehearsal_;
};

}  // namespace

std::string name_of(Mistake mistake) {
    constexpr std::array<const char*, 5> names = {"late", "wrong tone", "stuck finger",
                                                  "missing tone", "missed"};
    return names[static_cast<std::size_t>(mistake)];
}

Rehearsal rehearse(const chart::Form& form, const time::Groove& groove,
                   const RehearsalRequest& request) {
    return Player(form, groove, request).play();
}

}  // namespace compline::simulate
