#include <compline/harmony/quality.hpp>
#include <compline/roadmap/road_map.hpp>

#include <algorithm>
#include <utility>

namespace compline::roadmap {

namespace {

using harmony::Chord;
using time::Ticks;

int steps_up(const harmony::Spelling& from, const harmony::Spelling& to) {
    return (to.pitch_class() - from.pitch_class() + 12) % 12;
}

constexpr int unison = 0;
constexpr int fourth = 5;
constexpr int tritone = 6;
constexpr int fifth = 7;
constexpr int semitone_below = 11;

bool has_minor_third(const Chord& chord) {
    const auto tones = harmony::chord_tones(chord);
    return std::find(tones.begin(), tones.end(), harmony::Degree{3, -1}) != tones.end();
}

/// Chords in playing order; the last leads back to the first, as a tune and a loop do.
class Progression {
  public:
    void add(const Chord& chord) { chords_.push_back(chord); }
    [[nodiscard]] bool ends_with(const Chord& chord) const {
        return !chords_.empty() && chords_.back().symbol() == chord.symbol();
    }
    [[nodiscard]] std::size_t size() const { return chords_.size(); }
    [[nodiscard]] const Chord& at(std::size_t i) const { return chords_[i % chords_.size()]; }

    /// Where the chord at `i` leads: the first after it that is not the same dominant in other
    /// clothes (its sus, another alteration, its tritone substitute).
    [[nodiscard]] std::size_t next(std::size_t i) const {
        std::size_t next = i + 1;
        while (next < i + size() && goes_on(at(i), at(next))) ++next;
        return next;
    }

    /// A dominant that leads a fifth or a semitone down, at once or past a ii-V.
    [[nodiscard]] bool falls(std::size_t i) const {
        return is_dominant(at(i)) && (falls_at_once(i) || falls_past_ii_v(i));
    }

    /// A dominant that leads a fifth down to a chord with a minor third, were it the next ii.
    [[nodiscard]] bool falls_into_minor(std::size_t i) const {
        if (!is_dominant(at(i))) return false;
        const auto goal = next(i);
        return steps_up(at(i).root, at(goal).root) == fourth && has_minor_third(at(goal));
    }

  private:
    static bool goes_on(const Chord& dominant, const Chord& next) {
        const int step = steps_up(dominant.root, next.root);
        return is_dominant(next) && (step == unison || step == tritone);
    }

    [[nodiscard]] bool falls_at_once(std::size_t i) const {
        const int step = steps_up(at(i).root, at(next(i)).root);
        return step == fourth || step == semitone_below;
    }

    /// A ii-V put before where a dominant leads: its own (G7, Dm7 G7, C), or the one of the chord
    /// that it leads to (D7, Dm7 G7).
    [[nodiscard]] bool falls_past_ii_v(std::size_t i) const {
        const std::size_t ii = next(i);
        const bool ii_v = has_minor_third(at(ii)) && is_dominant(at(ii + 1)) &&
                          steps_up(at(ii).root, at(ii + 1).root) == fourth;
        const int to_ii = steps_up(at(i).root, at(ii).root);
        return ii_v && (to_ii == unison || (to_ii == fifth && falls_at_once(ii + 1)));
    }

    std::vector<Chord> chords_;
};

/// What the whole tune says of its chords, whatever passage of it is played.
class WholeTune {
  public:
    explicit WholeTune(const chart::Form& form) : key_(form.chart.key) {
        for (const auto& span : form.spans) {
            if (!span.chord || chords_.ends_with(*span.chord)) continue;
            chords_.add(*span.chord);
            starts_.push_back(span.start);
        }
        blues_ = !key_.minor && goes_between_one_and_four();
    }

    [[nodiscard]] bool falls(Ticks at) const {
        const auto after = std::upper_bound(starts_.begin(), starts_.end(), at);
        return chords_.falls(static_cast<std::size_t>(after - starts_.begin()) - 1);
    }
    [[nodiscard]] bool falls_into_minor(Ticks at) const {
        const auto after = std::upper_bound(starts_.begin(), starts_.end(), at);
        return chords_.falls_into_minor(static_cast<std::size_t>(after - starts_.begin()) - 1);
    }
    [[nodiscard]] int degree(const Chord& chord) const { return steps_up(key_.tonic, chord.root); }
    [[nodiscard]] bool is_minor() const { return key_.minor; }
    /// For the purpose of its blue notes: the key's own I and IV, both dominants, follow one
    /// another.
    [[nodiscard]] bool is_blues() const { return blues_; }

  private:
    [[nodiscard]] bool goes_between_one_and_four() const {
        for (std::size_t i = 0; i < chords_.size(); ++i) {
            const Chord& chord = chords_.at(i);
            const Chord& next = chords_.at(chords_.next(i));
            if (!is_dominant(chord) || !is_dominant(next)) continue;
            const auto step = std::pair(degree(chord), degree(next));
            if (step == std::pair(unison, fourth) || step == std::pair(fourth, unison)) return true;
        }
        return false;
    }

    chart::Key key_;
    Progression chords_;
    std::vector<Ticks> starts_;  ///< of each chord, in the form
    bool blues_ = false;
};

/// Goes from bar to bar and collects the changes.
class Collector {
  public:
    void take(const PlayedBar& bar) {
        if (bar.waits) {
            sounding_.reset();
            return;
        }
        for (const auto& span : bar.chords) take(span, bar);
    }
    std::vector<DueChange> changes() { return std::move(changes_); }

  private:
    void take(const chart::Span& span, const PlayedBar& bar) {
        if (!span.chord) {
            sounding_.reset();
            return;
        }
        if (sounding_ == span.chord) {
            changes_.back().length += span.length;
            changes_.back().optional = changes_.back().optional && span.optional;
            return;
        }
        const Ticks in_bar = span.start - bar.written->start;
        DueChange change;
        change.time_through = bar.time_through;
        change.bar = span.bar;
        change.beat = bar.meter().beat_of_bar(in_bar);
        change.section = bar.written->section;
        change.seam = bar.seam && in_bar == Ticks(0);
        change.at = bar.start + in_bar;
        change.in_form = span.start;
        change.length = span.length;
        change.from = sounding_;
        change.to = *span.chord;
        change.optional = span.optional;
        changes_.push_back(change);
        sounding_ = span.chord;
    }

    std::optional<Chord> sounding_;
    std::vector<DueChange> changes_;
};

}  // namespace

std::vector<DueChange> RoadMap::changes() const {
    Collector collector;
    for (std::int64_t number = 1; number <= bars().value(); ++number) collector.take(bar(number));
    auto changes = collector.changes();
    const WholeTune tune(form());
    Progression played;
    for (const auto& change : changes) played.add(change.to);
    for (std::size_t i = 0; i < changes.size(); ++i) {
        auto& change = changes[i];
        const bool dominant = is_dominant(change.to);
        const int degree = tune.degree(change.to);
        // At the end of a loop it leads where the tune goes, and where the loop does.
        change.around.falls = dominant && (tune.falls(change.in_form) || played.falls(i));
        change.around.into_minor = dominant && tune.falls_into_minor(change.in_form);
        change.around.tonic_minor =
            tune.is_minor() && degree == unison && harmony::is_minor(change.to);
        change.around.subdominant = !tune.is_minor() && degree == fourth;
        change.around.blues = tune.is_blues() && dominant && (degree == unison || degree == fourth);
        change.around.two_beats = change.length >= form().bar(change.bar).meter.beat() * 2;
    }
    return changes;
}

}  // namespace compline::roadmap
