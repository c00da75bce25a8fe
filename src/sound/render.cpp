#include <compline/sound/mixer.hpp>
#include <compline/sound/render.hpp>

#include <algorithm>

namespace compline::sound {

namespace {

std::int64_t end_of(const Cue& cue, const Bank& bank) {
    const std::int64_t start = cue.at.count();
    const std::int64_t rings_out =
        start + static_cast<std::int64_t>(bank.samples(cue.sound).size());
    if (cue.stop == Cue::never) return rings_out;
    const std::int64_t fade = time::nearest_frame(release, bank.rate()).count();
    return std::min(rings_out, cue.stop.count() + fade);
}

}  // namespace

time::Frames end_of(const std::vector<Cue>& cues, const Bank& bank, time::Frames otherwise) {
    if (cues.empty()) return otherwise;
    std::int64_t end = end_of(cues.front(), bank);
    for (const auto& cue : cues) end = std::max(end, end_of(cue, bank));
    return time::Frames(end);
}

void render(const std::vector<Cue>& cues, const Bank& bank, const Stretch& stretch,
            const std::function<void(const float*, const float*, int)>& take) {
    Mixer mixer(bank);
    std::vector<float> left(static_cast<std::size_t>(stretch.block));
    std::vector<float> right(left.size());
    auto cue = std::lower_bound(cues.begin(), cues.end(), stretch.first,
                                [](const Cue& c, time::Frames first) { return c.at < first; });
    for (time::Frames at = stretch.first; at < stretch.end;) {
        const std::int64_t remaining = (stretch.end - at).count();
        const int frames = static_cast<int>(std::min<std::int64_t>(stretch.block, remaining));
        const time::Frames next = at + time::Frames(frames);
        for (; cue != cues.end() && cue->at < next; ++cue) {
            if (!mixer.push(*cue)) throw SoundError("more sounds start at once than can be played");
        }
        mixer.render(at, left.data(), right.data(), frames);
        take(left.data(), right.data(), frames);
        at = next;
    }
}

Stereo render(const std::vector<Cue>& cues, const Bank& bank, const Stretch& stretch) {
    Stereo sound;
    render(cues, bank, stretch, [&](const float* left, const float* right, int frames) {
        sound.left.insert(sound.left.end(), left, left + frames);
        sound.right.insert(sound.right.end(), right, right + frames);
    });
    return sound;
}

float render_wav(const std::vector<Cue>& cues, const Bank& bank, const Stretch& stretch,
                 const std::filesystem::path& path) {
    WavWriter writer(path, bank.rate());
    render(cues, bank, stretch, [&](const float* left, const float* right, int frames) {
        writer.write(left, right, static_cast<std::size_t>(frames));
    });
    writer.commit();
    return writer.peak();
}

}  // namespace compline::sound
