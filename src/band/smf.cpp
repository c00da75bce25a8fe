#include <compline/band/smf.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string_view>

namespace compline::band {

namespace {

using time::Ticks;

constexpr int division = 15360;
constexpr int gm_drum_channel = 10;
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
    explicit Writer(const roadmap::RoadMap& map) : map_(map), start_(map.count_in()) {}

    [[nodiscard]] std::int64_t tick(Ticks at) const { return tick(map_.played(at)); }
    [[nodiscard]] std::int64_t tick(time::Beats played) const {
        return std::llround((played + time::Beats(start_)).count() * division);
    }
    void add(std::int64_t at, const midi::Message& message) { track_.add(at, message); }
    template <typename Position>
    void note(int channel, int key, int velocity, Position from, Position to,
              time::Seconds behind) {
        // Nothing is laid ahead of the file's beginning.
        const std::int64_t on = std::max<std::int64_t>(tick(from, behind), 0);
        add(on, midi::note_on(channel, key, velocity));
        add(std::max(tick(to, behind), on + 1), midi::note_off(channel, key));
    }
    /// A string of a strum: struck in its turn, let go with the others.
    void strum(int channel, const GuitarNote& note, time::Seconds behind) {
        const std::int64_t on =
            std::max<std::int64_t>(tick(note.at, behind), 0) + ticks_of(note.rolled, note.at);
        const std::int64_t off = std::max(tick(note.at + note.length, behind), on + 1);
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
    /// As many ticks as a while is at the tempo of a place.
    template <typename Position>
    [[nodiscard]] std::int64_t ticks_of(time::Seconds length, Position at) const {
        const auto tempo = map_.tempi().tempo_at(time::Beats(at));
        return std::llround(length.count() * (division / tempo.beat().count()));
    }
    template <typename Position>
    [[nodiscard]] std::int64_t tick(Position at, time::Seconds behind) const {
        return tick(at) + ticks_of(behind, at);
    }

    const roadmap::RoadMap& map_;
    Ticks start_;
    midi::Track track_;
};

/// How many sharps a key has, flats below 0 (Standard MIDI Files 1.0, "sf").
int sharps_of(const chart::Key& key) {
    static constexpr std::array<int, 7> of_naturals{3, 5, 0, 2, 4, -1, 1};  // A to G
    static constexpr std::string_view letters = "ABCDEFG";
    const auto name = key.tonic.name(harmony::Accidentals::letters);
    int sharps = of_naturals.at(letters.find(name.front()));
    for (const char sign : name.substr(1)) sharps += sign == '#' ? 7 : -7;
    return key.minor ? sharps - 3 : sharps;
}

/// A pause that is over: no bar of the form.
bool is_no_bar(const roadmap::PlayedBar& bar) { return bar.waits && bar.in_form() == 0; }

/// Key signatures, where they begin and wherever they change; none for a key that needs more than
/// seven accidentals, which no file can say.
void add_keys(Writer& writer, const roadmap::RoadMap& map) {
    constexpr std::uint8_t key_signature = 0x59;
    std::optional<chart::Key> before;
    for (std::int64_t number = 1; number <= *map.bars(); ++number) {
        const auto bar = map.bar(number);
        if (is_no_bar(bar) || bar.written->key == before) continue;
        before = bar.written->key;
        const int sharps = sharps_of(*before);
        if (sharps < -7 || sharps > 7) continue;
        writer.meta(number == 1 ? 0 : writer.tick(bar.start),
                    {key_signature, {static_cast<char>(sharps), before->minor ? '\1' : '\0'}});
    }
}

/// Tempo and meter, where they begin and wherever they change.
void add_time(Writer& writer, const roadmap::RoadMap& map) {
    const auto& knots = map.tempi().knots();
    writer.meta(0, midi::tempo_event(knots.front().tempo));
    for (auto knot = knots.begin() + 1; knot != knots.end(); ++knot) {
        writer.meta(writer.tick(knot->beat), midi::tempo_event(knot->tempo));
    }
    constexpr time::Meter::WrittenMeter none{0, 0};
    auto before = none;
    for (std::int64_t number = 1; number <= *map.bars(); ++number) {
        const auto bar = map.bar(number);
        // A wait is of no meter; behind it bars are counted anew.
        if (is_no_bar(bar)) {
            before = none;
            continue;
        }
        const auto written = bar.meter().written();
        if (written != before) {
            // The count-in is in the first bar's meter.
            writer.meta(number == 1 ? 0 : writer.tick(bar.start),
                        midi::time_signature_event(written.above, written.below));
        }
        before = written;
    }
}

void add_markers(Writer& writer, const roadmap::RoadMap& map) {
    const auto marker = [&](Ticks at, std::string text) {
        writer.meta(writer.tick(at), midi::text_event(midi::meta::marker, std::move(text)));
    };
    marker(Ticks(0), "compline:start");
    for (std::int64_t number = 1; number <= *map.bars(); ++number) {
        const auto bar = map.bar(number);
        const auto& stretch = map.way().stretch(bar.time_through);
        const bool begins = bar.in_form() == stretch.passage.from;
        if (begins && !stretch.name.empty()) marker(bar.start, stretch.name);
        if (bar.written->bar_in_section == 1) {
            marker(bar.start, "section " + bar.written->section);
        }
        for (const auto& slot : bar.slots()) {
            marker(bar.start + slot.start,
                   slot.chord ? slot.chord->symbol(harmony::Accidentals::letters) : "N.C.");
        }
    }
}

/// A role's track: its name, its program, then its notes.
Writer role(const char* name, int channel, int program, const roadmap::RoadMap& map) {
    Writer writer(map);
    writer.meta(0, midi::text_event(midi::meta::track_name, name));
    writer.add(0, midi::program_change(channel, program));
    return writer;
}

}  // namespace

midi::File to_smf(const roadmap::RoadMap& map, const Part& part, const Stage& stage) {
    Writer conductor(map);
    const auto held = map.way().held_ending ? map.bar(*map.bars()).meter().bar() : Ticks(0);
    const std::int64_t end = conductor.tick(map.end() + held);
    conductor.meta(0, midi::text_event(midi::meta::track_name, map.form().chart.title));
    add_time(conductor, map);
    add_keys(conductor, map);
    add_markers(conductor, map);

    const auto behind = [&](Chair chair) { return stage.seat(chair).behind; };
    auto drums = role("Drums", gm_drum_channel, standard_kit, map);
    for (const auto& stroke : part.strokes) {
        drums.note(gm_drum_channel, key_of(stroke.drum), stroke.velocity, stroke.at,
                   stroke.at + stroke_length, behind(chair_of(stroke.drum)));
    }
    auto bass = role("Bass", bass_channel, acoustic_bass, map);
    for (const auto& note : part.notes) {
        bass.note(bass_channel, note.note.number(), note.velocity, note.at, note.at + note.length,
                  behind(Chair::bass));
    }
    midi::File file;
    file.format = 1;
    file.division = division;
    file.tracks = {conductor.finish(end), drums.finish(end), bass.finish(end)};
    if (!part.melody.empty()) {
        auto melody = role("Melody", melody_channel, steel_guitar, map);
        for (const auto& note : part.melody) {
            melody.note(melody_channel, note.note.number(), note.velocity, note.at,
                        note.at + note.length, behind(Chair::melody));
        }
        file.tracks.push_back(melody.finish(end));
    }
    if (!part.guitar.empty()) {
        auto guitar = role("Guitar", guitar_channel, jazz_guitar, map);
        for (const auto& note : part.guitar) {
            guitar.strum(guitar_channel, note, behind(Chair::guitar));
        }
        file.tracks.push_back(guitar.finish(end));
    }
    return file;
}

}  // namespace compline::band
