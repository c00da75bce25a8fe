#include <compline/sound/mixer.hpp>
#include <compline/sound/render.hpp>

#include <algorithm>
#include <stdexcept>

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

void refuse_missing(const std::vector<Cue>& cues, const Bank& bank) {
    const bool all =
        std::all_of(cues.begin(), cues.end(), [&](const Cue& cue) { return bank.has(cue.sound); });
    if (!all) throw std::logic_error("a sound is asked for that was not made");
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

void render(const std::vector<Cue>& cues, const Bank& bank, const Excerpt& excerpt,
            const std::function<void(const float*, const float*, int)>& take) {
    refuse_missing(cues, bank);
    Mixer mixer(bank);
    std::vector<float> left(static_cast<std::size_t>(excerpt.block));
    std::vector<float> right(left.size());
    auto cue = std::lower_bound(cues.begin(), cues.end(), excerpt.first,
                                [](const Cue& c, time::Frames first) { return c.at < first; });
    for (time::Frames at = excerpt.first; at < excerpt.end;) {
        const std::int64_t remaining = (excerpt.end - at).count();
        const int frames = static_cast<int>(std::min<std::int64_t>(excerpt.block, remaining));
        const time::Frames next = at + time::Frames(frames);
        for (; cue != cues.end() && cue->at < next; ++cue) {
            if (!mixer.push(*cue))
                throw std::length_error("more sounds start at once than can be played");
        }
        mixer.render(at, left.data(), right.data(), frames);
        take(left.data(), right.data(), frames);
        at = next;
    }
}

Stereo render(const std::vector<Cue>& cues, const Bank& bank, const Excerpt& excerpt) {
    Stereo sound;
    render(cues, bank, excerpt, [&](const float* left, const float* right, int frames) {
        sound.left.insert(sound.left.end(), left, left + frames);
        sound.right.insert(sound.right.end(), right, right + frames);
    });
    return sound;
}

float render_wav(const std::vector<Cue>& cues, const Bank& bank, const Excerpt& excerpt,
                 const std::filesystem::path& path, const WavFormat& format,
                 const Progress& progress) {
    refuse_missing(cues, bank);  // before there is a file
    refuse_too_large(path, excerpt.end - excerpt.first, format);
    WavWriter writer(path, bank.rate(), format);
    Hundredths hundredths(excerpt.end - excerpt.first, progress);
    render(cues, bank, excerpt, [&](const float* left, const float* right, int frames) {
        writer.write(left, right, static_cast<std::size_t>(frames));
        hundredths.pass(time::Frames(frames));
    });
    writer.commit();
    if (progress) progress(1.0);
    return writer.peak();
}

}  // namespace compline::sound
