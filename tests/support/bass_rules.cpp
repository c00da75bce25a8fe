#include "support/bass_rules.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <optional>

namespace compline::tests {

namespace {

using time::Ticks;

/// Third and fifth in semitones, read off the printed symbol as a bass player would: not by the
/// tables that the line was made from.
struct ThirdAndFifth {
    int third;
    int fifth;
};
ThirdAndFifth of(const harmony::Chord& chord) {
    const auto root = chord.root.name(harmony::Accidentals::letters);
    const auto quality = chord.symbol(harmony::Accidentals::letters).substr(root.size());
    const auto says = [&](const char* word) { return quality.find(word) != std::string::npos; };
    ThirdAndFifth tones{4, 7};
    const bool minor = quality.starts_with('m') && !quality.starts_with("maj");
    if (minor || says("dim")) tones.third = 3;
    if (says("sus4")) tones.third = 5;
    if (says("sus2")) tones.third = 2;
    if (says("b5") || says("dim")) tones.fifth = 6;
    if (says("#5") || says("aug")) tones.fifth = 8;
    return tones;
}

struct Moment {
    std::optional<harmony::Chord> chord;
    bool starts = false;
    int beat_of_bar = 1;
    int lasts = 0;  // beats from here to the next start
};

/// The chord on every beat of all times through.
std::vector<Moment> moments_of(const chart::Form& form, chart::Passage passage, int times) {
    const auto meter = form.chart.meter;
    std::vector<Moment> moments;
    for (int time = 0; time < times; ++time) {
        for (const auto& span : form.spans) {
            if (span.bar < passage.from || span.bar > passage.to) continue;
            const bool seam = span.bar == passage.from && span.start % meter.bar() == Ticks(0);
            for (Ticks at; at < span.length; at += meter.beat()) {
                Moment moment{span.chord};
                moment.starts = at == Ticks(0) && (seam || moments.back().chord != span.chord);
                moment.beat_of_bar =
                    static_cast<int>((span.start + at) % meter.bar() / meter.beat()) + 1;
                moments.push_back(moment);
            }
        }
    }
    int lasts = 0;
    std::for_each(moments.rbegin(), moments.rend(), [&lasts](Moment& moment) {
        moment.lasts = ++lasts;
        if (moment.starts) lasts = 0;
    });
    return moments;
}

int root_of(const harmony::Chord& chord) { return chord.bass.value_or(chord.root).pitch_class(); }

class Teacher {
  public:
    Teacher(const std::vector<band::BassNote>& line, const chart::Form& form,
            chart::Passage passage, int times)
        : meter_(form.chart.meter), moments_(moments_of(form, passage, times)) {
        for (const auto& note : line) put(note);
    }

    std::vector<std::string> listen() {
        for (std::size_t i = 0; i < moments_.size(); ++i) {
            silence_or_note(i);
            if (notes_.count(i) == 0) continue;
            roots(i);
            strong_beats(i);
            approaches(i);
            motion(i);
        }
        return faults_;
    }

  private:
    void fault(std::size_t beat, const std::string& what) {
        const auto bar = beat / static_cast<std::size_t>(meter_.beats()) + 1;
        const auto& chord = moments_[beat].chord;
        faults_.push_back(fmt::format("bar {} beat {} ({}): {}", bar, moments_[beat].beat_of_bar,
                                      chord ? chord->symbol() : "N.C.", what));
    }

    void put(const band::BassNote& note) {
        const auto end = meter_.beat() * static_cast<std::int64_t>(moments_.size());
        if (note.at < Ticks(0) || note.at + note.length > end) {
            faults_.emplace_back("a note outside the passage");
        } else if (note.at % meter_.beat() != Ticks(0)) {
            faults_.emplace_back("a note off the beat");
        } else if (note.at < sounding_until_) {
            faults_.emplace_back("a note before the one before it has ended");
        } else if (note.length <= Ticks(0) || note.velocity < 1 || note.velocity > 127) {
            faults_.emplace_back("a note without length or loudness");
        } else {
            notes_[static_cast<std::size_t>(note.at / meter_.beat())] = note.note.number();
        }
        sounding_until_ = note.at + note.length;
    }

    void silence_or_note(std::size_t i) {
        if (moments_[i].chord && notes_.count(i) == 0) fault(i, "nothing is played");
        if (!moments_[i].chord && notes_.count(i) > 0) fault(i, "played on N.C.");
    }

    void roots(std::size_t i) {
        const bool last = i + 1 == moments_.size();
        if (!moments_[i].starts && !last) return;
        if (notes_[i] % 12 != root_of(*moments_[i].chord)) fault(i, "not the root");
    }

    void strong_beats(std::size_t i) {
        const bool waltz = meter_.beats() == 3;
        if (moments_[i].beat_of_bar != (waltz ? 2 : 3)) return;
        // The chord holds the whole bar: it is there on 1 and still after this beat.
        const auto first = i + 1 - static_cast<std::size_t>(moments_[i].beat_of_bar);
        for (auto beat = first + 1; beat <= first + static_cast<std::size_t>(meter_.beats()) - 1;
             ++beat) {
            if (moments_[beat].starts) return;
        }
        const auto tones = of(*moments_[i].chord);
        const int above = (notes_[i] - moments_[i].chord->root.pitch_class() + 12) % 12;
        if (above != tones.third && above != tones.fifth) fault(i, "neither third nor fifth");
    }

    void approaches(std::size_t i) {
        if (i + 1 == moments_.size() || moments_[i].starts) return;
        const Moment& next = moments_[i + 1];
        if (!next.starts || !next.chord || notes_.count(i + 1) == 0) return;
        const int away = std::abs(notes_[i + 1] - notes_[i]);
        if (away < 1 || (away > 2 && away != 5 && away != 7)) {
            fault(i, fmt::format("no approach to {}: {} semitones", next.chord->symbol(), away));
        }
    }

    void motion(std::size_t i) {
        const int note = notes_[i];
        if (note < 28 || note > 55) fault(i, fmt::format("note {} is out of range", note));
        if (last_ && std::abs(note - *last_) > 12) fault(i, "a leap over an octave");
        // The very last beat may strike the root of a short last chord again.
        const bool walking = !moments_[i].starts && i + 1 < moments_.size();
        if (last_ == note && walking) {
            fault(i, "stands still");
        }
        last_ = note;
    }

    time::Meter meter_;
    std::vector<Moment> moments_;
    std::map<std::size_t, int> notes_;  // by beat
    std::vector<std::string> faults_;
    std::optional<int> last_;
    Ticks sounding_until_;
};

}  // namespace

std::vector<std::string> faults_of(const std::vector<band::BassNote>& line, const chart::Form& form,
                                   chart::Passage passage, int times) {
    return Teacher(line, form, passage, times).listen();
}

}  // namespace compline::tests
