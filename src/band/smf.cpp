#include <compline/band/smf.hpp>

#include <algorithm>
#include <cmath>

namespace compline::band {

namespace {

using time::Ticks;

constexpr int division = 15360;
constexpr int drum_channel = 10;
constexpr int bass_channel = 2;
constexpr int acoustic_bass = 32;  // General MIDI level 1: program 33, counted from 1
constexpr Ticks stroke_length{240};

int key_of(Drum drum) {
    switch (drum) {
        case Drum::ride:
            return 51;
        case Drum::hihat_foot:
            return 44;
        case Drum::kick:
            return 36;
        case Drum::stick:
            return 37;
    }
    return 37;
}

/// Collects a track's events and puts them in order: offs before ons on one tick.
class Writer {
  public:
    Writer(const time::Groove& groove, Ticks start) : swing_(groove.swing), start_(start) {}

    [[nodiscard]] std::int64_t tick(Ticks at) const {
        const double beats = swing_.played(at).count() + time::Beats(start_).count();
        return std::llround(beats * division);
    }
    void add(std::int64_t at, const midi::Message& message) { track_.add(at, message); }
    void note(int channel, int key, int velocity, Ticks from, Ticks to) {
        add(tick(from), midi::note_on(channel, key, velocity));
        add(std::max(tick(to), tick(from) + 1), midi::note_off(channel, key));
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
    time::Swing swing_;
    Ticks start_;
    midi::Track track_;
};

void add_markers(Writer& writer, const chart::Form& form, const Request& request) {
    const auto spans = form.spans_of(request.passage);
    const Ticks pass = form.chart.meter.bar() * request.passage.bars();
    const Ticks first = form.bar(request.passage.from).start;
    const auto marker = [&](Ticks at, std::string text) {
        writer.meta(writer.tick(at), midi::text_event(midi::meta::marker, std::move(text)));
    };
    marker(Ticks(0), "compline:start");
    for (int n = 0; n < request.times_through; ++n) {
        for (int number = request.passage.from; number <= request.passage.to; ++number) {
            const auto& bar = form.bar(number);
            if (bar.bar_in_section != 1) continue;
            marker(pass * n + bar.start - first, "section " + bar.section);
        }
        for (const auto& span : spans) {
            marker(pass * n + span.start,
                   span.chord ? span.chord->symbol(harmony::Accidentals::letters) : "N.C.");
        }
    }
}

}  // namespace

midi::File to_smf(const chart::Form& form, const Request& request, const Part& part,
                  const time::Groove& groove) {
    const Ticks start = form.chart.meter.bar() * request.count_in_bars;
    const Ticks length = form.chart.meter.bar() * request.passage.bars() * request.times_through;
    Writer conductor(groove, start);
    const std::int64_t end = conductor.tick(length);
    conductor.meta(0, midi::text_event(midi::meta::track_name, form.chart.title));
    conductor.meta(0, midi::tempo_event(groove.timeline.tempo()));
    conductor.meta(0, midi::time_signature_event(form.chart.meter.beats(), 4));
    add_markers(conductor, form, request);

    Writer drums(groove, start);
    drums.meta(0, midi::text_event(midi::meta::track_name, "Drums"));
    for (const auto& stroke : part.strokes) {
        drums.note(drum_channel, key_of(stroke.drum), stroke.velocity, stroke.at,
                   stroke.at + stroke_length);
    }
    Writer bass(groove, start);
    bass.meta(0, midi::text_event(midi::meta::track_name, "Bass"));
    bass.add(0, midi::program_change(bass_channel, acoustic_bass));
    for (const auto& note : part.notes) {
        bass.note(bass_channel, note.note.number(), note.velocity, note.at, note.at + note.length);
    }
    midi::File file;
    file.format = 1;
    file.division = division;
    file.tracks = {conductor.finish(end), drums.finish(end), bass.finish(end)};
    return file;
}

}  // namespace compline::band
