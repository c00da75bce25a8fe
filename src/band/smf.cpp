#include <compline/band/smf.hpp>

#include <algorithm>
#include <cmath>

namespace compline::band {

namespace {

using time::Ticks;

constexpr int division = 15360;
constexpr int drum_channel = 10;
constexpr int bass_channel = 2;
constexpr int melody_channel = 1;
constexpr int guitar_channel = 3;
// General MIDI level 1, counted from 0.
constexpr int acoustic_bass = 32;
constexpr int steel_guitar = 25;
constexpr int jazz_guitar = 26;
constexpr int standard_kit = 0;
constexpr Ticks stroke_length{240};

/// Level 1 has no brushes: a tap is its snare, a sweep the maracas, which come nearest. The count's
/// sticks are the claves, since the side stick is the bossa's.
int key_of(Drum drum) {
    switch (drum) {
        case Drum::crash:
            return 49;
        case Drum::cross_stick:
            return 37;
        case Drum::snare:
        case Drum::brush_tap:
            return 38;
        case Drum::tom:
            return 41;
        case Drum::brush_sweep:
            return 70;
        case Drum::ride:
            return 51;
        case Drum::hihat_foot:
            return 44;
        case Drum::kick:
            return 36;
        case Drum::stick:
            return 75;
    }
    return 75;
}

/// Collects a track's events and puts them in order: offs before ons on one tick.
class Writer {
  public:
    Writer(const time::Groove& groove, Ticks start) : groove_(groove), start_(start) {}

    [[nodiscard]] std::int64_t tick(Ticks at) const {
        return tick(groove_.swing_at(at).played(at));
    }
    [[nodiscard]] std::int64_t tick(time::Beats played) const {
        return std::llround((played + time::Beats(start_)).count() * division);
    }
    void add(std::int64_t at, const midi::Message& message) { track_.add(at, message); }
    template <typename Position>
    void note(int channel, int key, int velocity, Position from, Position to, std::int64_t behind) {
        // Nothing is laid ahead of the file's beginning.
        const std::int64_t on = std::max<std::int64_t>(tick(from) + behind, 0);
        add(on, midi::note_on(channel, key, velocity));
        add(std::max(tick(to) + behind, on + 1), midi::note_off(channel, key));
    }
    /// A string of a strum: struck in its turn, let go with the others.
    void strum(int channel, const GuitarNote& note, std::int64_t behind, std::int64_t rolled) {
        const std::int64_t on = std::max<std::int64_t>(tick(note.at) + behind, 0) + rolled;
        const std::int64_t off = std::max(tick(note.at + note.length) + behind, on + 1);
        add(on, midi::note_on(channel, note.note.number(), note.velocity));
        add(off, midi::note_off(channel, note.note.number()));
    }
    void meta(std::int64_t at, midi::MetaEvent meta) { track_.add(at, std::move(meta)); }
    midi::Track finish(std::int64_t end) {
        const auto rank = [](const midi::TrackEvent& event) {
            const auto* const message = std::get_if<midi::Message>(&event.event);
            return message == nullptr || message->ends_note() ? 0 : 1;
        };
        std::stable_sort(track_.events.begin(), track_.events.end(),
                         [&](const midi::TrackEvent& a, const midi::TrackEvent& b) {
                             return a.tick != b.tick ? a.tick < b.tick : rank(a) < rank(b);
                         });
        track_.end = end;
        if (!track_.events.empty()) track_.end = std::max(end, track_.events.back().tick);
        return std::move(track_);
    }

  private:
    const time::Groove& groove_;
    Ticks start_;
    midi::Track track_;
};

void add_markers(Writer& writer, const chart::Form& form, const chart::Route& route) {
    const auto marker = [&](Ticks at, std::string text) {
        writer.meta(writer.tick(at), midi::text_event(midi::meta::marker, std::move(text)));
    };
    marker(Ticks(0), "compline:start");
    const auto times = static_cast<int>(route.stretches.size());
    for (int time_through = 1; time_through <= times; ++time_through) {
        const auto& stretch = route.stretch(time_through);
        const Ticks start = route.start(time_through, form.chart.meter);
        const Ticks first = form.bar(stretch.passage.from).start;
        if (!stretch.name.empty()) marker(start, stretch.name);
        for (int number = stretch.passage.from; number <= stretch.passage.to; ++number) {
            const auto& bar = form.bar(number);
            if (bar.bar_in_section != 1) continue;
            marker(start + bar.start - first, "section " + bar.section);
        }
        for (const auto& span : form.spans_of(stretch.passage)) {
            marker(start + span.start,
                   span.chord ? span.chord->symbol(harmony::Accidentals::letters) : "N.C.");
        }
    }
}

/// A role's track: its name, its program, then its notes.
Writer role(const char* name, int channel, int program, const time::Groove& groove, Ticks start) {
    Writer writer(groove, start);
    writer.meta(0, midi::text_event(midi::meta::track_name, name));
    writer.add(0, midi::program_change(channel, program));
    return writer;
}

}  // namespace

midi::File to_smf(const chart::Form& form, const Setup& setup, const Part& part,
                  const time::Groove& groove, const Stage& stage) {
    const auto meter = form.chart.meter;
    const auto times = static_cast<int>(setup.route.stretches.size());
    const Ticks start = meter.bar() * setup.count_in_bars;
    Writer conductor(groove, start);
    const auto held = setup.route.held_ending ? meter.bar() : Ticks(0);
    const std::int64_t end = conductor.tick(setup.route.start(times + 1, meter) + held);
    conductor.meta(0, midi::text_event(midi::meta::track_name, form.chart.title));
    conductor.meta(0, midi::tempo_event(groove.timeline.tempo()));
    conductor.meta(0, midi::time_signature_event(meter.beats(), 4));
    add_markers(conductor, form, setup.route);

    const double ticks_a_second = division / groove.timeline.tempo().beat().count();
    const auto behind = [&](Chair chair) {
        return std::llround(stage.seat(chair).behind.count() * ticks_a_second);
    };
    auto drums = role("Drums", drum_channel, standard_kit, groove, start);
    for (const auto& stroke : part.strokes) {
        drums.note(drum_channel, key_of(stroke.drum), stroke.velocity, stroke.at,
                   stroke.at + stroke_length, behind(chair_of(stroke.drum)));
    }
    auto bass = role("Bass", bass_channel, acoustic_bass, groove, start);
    for (const auto& note : part.notes) {
        bass.note(bass_channel, note.note.number(), note.velocity, note.at, note.at + note.length,
                  behind(Chair::bass));
    }
    midi::File file;
    file.format = 1;
    file.division = division;
    file.tracks = {conductor.finish(end), drums.finish(end), bass.finish(end)};
    if (!part.melody.empty()) {
        auto melody = role("Melody", melody_channel, steel_guitar, groove, start);
        for (const auto& note : part.melody) {
            melody.note(melody_channel, note.note.number(), note.velocity, note.at,
                        note.at + note.length, behind(Chair::melody));
        }
        file.tracks.push_back(melody.finish(end));
    }
    if (!part.guitar.empty()) {
        auto guitar = role("Guitar", guitar_channel, jazz_guitar, groove, start);
        for (const auto& note : part.guitar) {
            const auto rolled = std::llround(note.rolled.count() * ticks_a_second);
            guitar.strum(guitar_channel, note, behind(Chair::guitar), rolled);
        }
        file.tracks.push_back(guitar.finish(end));
    }
    return file;
}

}  // namespace compline::band
