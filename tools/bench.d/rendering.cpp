#include "benches.hpp"

#include <compline/band/band.hpp>
#include <compline/band/place.hpp>
#include <compline/sound/render.hpp>

#include <fmt/format.h>

#include <filesystem>
#include <string>

namespace compline::bench {

namespace {

constexpr time::SampleRate rate{48000};

/// The band through some choruses, with no count-in.
struct Music {
    roadmap::RoadMap map;
    band::Players players;
    std::vector<sound::Cue> cues;

    explicit Music(int choruses) : map(map_of(choruses)) {
        // All that the band can add: a melody in eighths, fills, crashes, a held ending.
        players.fills = players.crash = true;
        for (int eighth = 0; eighth < 8 * static_cast<int>(map.form().bars.size()); ++eighth) {
            players.melody.push_back({time::Beats(0.5 * eighth), time::Beats(0.45),
                                      harmony::MidiNote(60 + eighth * 7 % 24), 80});
        }
        cues = arranged();
    }
    [[nodiscard]] std::vector<sound::Cue> arranged() const {
        return band::place(band::arrange(map, players), map, rate, time::Frames(0));
    }
    [[nodiscard]] std::string choruses() const {
        return fmt::format("{} choruses", *map.times_through());
    }

  private:
    static roadmap::RoadMap map_of(int choruses) {
        const auto form = aaba();
        auto asked = roadmap::Asked::of(form.whole(), choruses);
        asked.count_in_bars = 0;
        asked.way.held_ending = asked.melody = true;
        return {form, asked};
    }
};

std::string times_real_time(time::Frames frames, time::Seconds took) {
    const time::Seconds music = time::time_of(frames, rate);
    return fmt::format("{:.0f} x real time ({:.0f} s of music)", music / took, music.count());
}

Row bank(Pace pace) {
    const auto took = measure(pace, [] { keep(sound::Bank(rate)); });
    return {"making the band's sounds, once at start", took, ""};
}

Row arranging(Pace pace, const Music& music) {
    const auto took = measure(pace, [&] { keep(music.arranged()); });
    return {"arranging " + music.choruses(), took, fmt::format("{} cues", music.cues.size())};
}

Row to_memory(Pace pace, const Music& music, const sound::Bank& bank, int block) {
    const sound::Excerpt excerpt{time::Frames(0), sound::end_of(music.cues, bank, time::Frames(0)),
                                 block};
    const auto took = measure(pace, [&] {
        sound::render(music.cues, bank, excerpt, [](const float* left, const float* right, int) {
            keep(*left), keep(*right);
        });
    });
    return {fmt::format("rendering {} in blocks of {}", music.choruses(), block), took,
            times_real_time(excerpt.end, took.fastest())};
}

Row to_wav(Pace pace, const Music& music, const sound::Bank& bank) {
    const auto path = std::filesystem::temp_directory_path() / "compline_bench.wav";
    const sound::Excerpt excerpt{time::Frames(0), sound::end_of(music.cues, bank, time::Frames(0))};
    sound::WavFormat format;
    format.existing = files::Existing::replace;
    const auto took =
        measure(pace, [&] { keep(sound::render_wav(music.cues, bank, excerpt, path, format)); });
    std::filesystem::remove(path);
    return {fmt::format("rendering {} to a WAV file", music.choruses()), took,
            times_real_time(excerpt.end, took.fastest())};
}

}  // namespace

std::vector<Row> rendering(Pace pace) {
    const Music music(pace == Pace::quick ? 2 : 8);
    const sound::Bank sounds(rate, sound::Bank::Guitar::with);
    return {bank(pace), arranging(pace, music), to_memory(pace, music, sounds, 64),
            to_memory(pace, music, sounds, 512), to_wav(pace, music, sounds)};
}

}  // namespace compline::bench
