#include "target.hpp"

#include <compline/harmony/quality.hpp>

#include <algorithm>

namespace compline::assess {

namespace {

using chart::Form;
using harmony::Chord;
using time::Ticks;

int steps_up(const harmony::Spelling& from, const harmony::Spelling& to) {
    return (to.pitch_class() - from.pitch_class() + 12) % 12;
}

bool is_dominant_on(const chart::Span& span, int degree, const chart::Key& key) {
    return span.chord && harmony::is_dominant(*span.chord) &&
           steps_up(key.tonic, span.chord->root) == degree;
}

constexpr int unison = 0;
constexpr int fourth = 5;
constexpr int semitone_below = 11;

/// A blues, for the purpose of its blue notes: the key's own I and IV are both dominants.
bool is_blues(const Form& form) {
    const auto has = [&](int degree) {
        return std::any_of(form.spans.begin(), form.spans.end(), [&](const chart::Span& span) {
            return is_dominant_on(span, degree, form.chart.key);
        });
    };
    return !form.chart.key.minor && has(unison) && has(fourth);
}

/// Walks a passage some times through and collects the changes.
class Collector {
  public:
    Collector(const Form& form, chart::Passage passage) : form_(form), passage_(passage) {}

    std::vector<Target> collect(int times_through) {
        const auto spans = form_.spans_of(passage_);
        const Ticks length = form_.chart.meter.bar() * passage_.bars();
        for (int pass = 1; pass <= times_through; ++pass) {
            for (const auto& span : spans) take(span, pass, length * (pass - 1));
        }
        return std::move(targets_);
    }

  private:
    void take(const chart::Span& span, int pass, Ticks offset) {
        if (!span.chord) {
            sounding_.reset();
            return;
        }
        if (sounding_ && sounding_->symbol() == span.chord->symbol()) {
            targets_.back().length += span.length;
            return;
        }
        const auto& bar = form_.bar(span.bar);
        const Ticks in_bar = span.start + form_.bar(passage_.from).start - bar.start;
        Target target{};
        target.pass = pass;
        target.bar = span.bar;
        target.beat = 1 + time::Beats(in_bar).count();
        target.section = bar.section;
        target.seam = pass > 1 && span.start == Ticks(0) && passage_ != form_.whole();
        target.at = offset + span.start;
        target.length = span.length;
        target.from = sounding_;
        target.to = *span.chord;
        targets_.push_back(target);
        sounding_ = span.chord;
    }

    const Form& form_;
    chart::Passage passage_;
    std::optional<Chord> sounding_;
    std::vector<Target> targets_;
};

harmony::Surroundings surroundings(const Target& target, const Chord& next, const Form& form,
                                   bool blues) {
    harmony::Surroundings around;
    const auto& key = form.chart.key;
    const int fall = steps_up(target.to.root, next.root);
    const int degree = steps_up(key.tonic, target.to.root);
    const bool dominant = harmony::is_dominant(target.to);
    around.falls = dominant && (fall == fourth || fall == semitone_below);
    around.tonic_minor = key.minor && degree == unison && harmony::is_minor(target.to);
    around.blues = blues && dominant && (degree == unison || degree == fourth);
    around.two_beats = target.length >= form.chart.meter.beat() * 2;
    return around;
}

}  // namespace

Targets find_targets(const Form& form, chart::Passage passage, int times_through,
                     harmony::Strictness strictness) {
    Targets targets;
    targets.due = Collector(form, passage).collect(times_through);
    const bool blues = is_blues(form);
    for (std::size_t i = 0; i < targets.due.size(); ++i) {
        // The last change leads back to the first, as the tune (or the loop) does.
        const Target& target = targets.due[i];
        const Chord& next = targets.due[(i + 1) % targets.due.size()].to;
        targets.palettes.emplace_back(target.to, surroundings(target, next, form, blues),
                                      strictness);
    }
    return targets;
}

}  // namespace compline::assess
