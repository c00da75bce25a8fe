#include <compline/live/onset_ear.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace compline::live {

OnsetEar::OnsetEar(SoundEar& ear) : ear_(ear), onsets_(ear.rate()) {}

std::vector<listen::SoundOnset> OnsetEar::read() {
    SoundEar::SoundPiece piece;
    while (ear_.read(piece)) {
        fill_gap(piece.first);
        hear(std::span(piece.samples).first(static_cast<std::size_t>(piece.count)));
    }
    return std::exchange(found_, {});
}

float OnsetEar::peak() { return std::exchange(peak_, 0.0F); }

void OnsetEar::fill_gap(time::Frames first) {
    auto missing = (first - zero_ - onsets_.frames()).count();
    if (onsets_.frames().count() == 0 || missing > ear_.rate().hz()) {
        onsets_ = listen::SoundOnsets(ear_.rate());
        zero_ = first;
        return;
    }
    static constexpr std::array<float, 256> silence{};
    for (; missing > 0; missing -= std::ssize(silence)) {
        const auto part = std::min<std::int64_t>(missing, std::ssize(silence));
        hear(std::span(silence).first(static_cast<std::size_t>(part)));
    }
}

void OnsetEar::hear(std::span<const float> samples) {
    for (const float sample : samples) peak_ = std::max(peak_, std::fabs(sample));
    for (auto onset : onsets_.add(samples)) {
        onset.at = zero_ + onset.at;
        found_.push_back(onset);
    }
}

}  // namespace compline::live
