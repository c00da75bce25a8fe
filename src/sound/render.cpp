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

/// Tells the progress at each hundredth of the whole, but for the last.
class Hundredths {
  public:
    Hundredths(time::Frames whole, const Progress& progress)
        : whole_(whole.count()), progress_(progress) {}

    void pass(time::Frames frames) {
        done_ += frames.count();
        const std::int64_t hundredth = done_ * 100 / whole_;
        if (!progress_ || hundredth == last_ || done_ >= whole_) return;
        last_ = hundredth;
        progress_(static_cast<double>(done_) / static_cast<double>(whole_));
    }

  private:
    std::int64_t whole_;
    const Progress& progress_;
    std::int64_t done_ = 0;
    std::int64_t last_ = 0;
};

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
                 const std::filesystem::path& path, const WavFormat& format,
                 const Progress& progress) {
    refuse_too_large(path, stretch.end - stretch.first, format);
    WavWriter writer(path, bank.rate(), format);
    Hundredths hundredths(stretch.end - stretch.first, progress);
    render(cues, bank, stretch, [&](const float* left, const float* right, int frames) {
        writer.write(left, right, static_cast<std::size_t>(frames));
        hundredths.pass(time::Frames(frames));
    });
    writer.commit();
    if (progress) progress(1.0);
    return writer.peak();
}

}  // namespace compline::sound
