#include <compline/sound/wav.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>
#include <sndfile.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <limits>
#include <utility>

namespace compline::sound {

namespace {

namespace fs = std::filesystem;

/// What whole numbers of so many bits are made of a sample by. libsndfile takes the upper bits of
/// 32.
struct Whole {
    double full_scale;
    int unused_bits;
};
constexpr Whole sixteen{32767.0, 65536};
constexpr Whole twenty_four{8388607.0, 256};

/// A sample as a whole number, clipped, to the nearest, halves away from 0 as std::lround has it,
/// whose call for every sample took longer than making the sound. Adding the half is exact here: a
/// float times 24 bits leaves room for it in a double.
int whole_of(float sample, const Whole& whole) {
    const double scaled = std::clamp(static_cast<double>(sample), -1.0, 1.0) * whole.full_scale;
    return static_cast<int>(scaled + std::copysign(0.5, scaled)) * whole.unused_bits;
}

int subtype_of(Bits bits) {
    switch (bits) {
        case Bits::sixteen:
            return SF_FORMAT_PCM_16;
        case Bits::twenty_four:
            return SF_FORMAT_PCM_24;
        case Bits::float32:
            return SF_FORMAT_FLOAT;
    }
    return SF_FORMAT_PCM_24;
}

std::uint64_t bytes_of(Bits bits) {
    switch (bits) {
        case Bits::sixteen:
            return 2;
        case Bits::twenty_four:
            return 3;
        case Bits::float32:
            return 4;
    }
    return 3;
}

unsigned channels_of(Channels channels) { return channels == Channels::mono ? 1 : 2; }

}  // namespace

std::uint64_t bytes_needed(time::Frames frames, const WavFormat& format) {
    const std::uint64_t channels = channels_of(format.channels);
    std::uint64_t head = 12 + 24 + 8;  // RIFF and WAVE, the format, the data's own head
    // Floats are counted in a chunk of their own; libsndfile keeps the place of a peak chunk.
    if (format.bits == Bits::float32) head += 12 + 16 + 8 * channels;
    const std::uint64_t data =
        static_cast<std::uint64_t>(frames.count()) * bytes_of(format.bits) * channels;
    return head + data + data % 2;  // chunks begin on even bytes
}

void refuse_too_large(const fs::path& path, time::Frames frames, const WavFormat& format) {
    const auto most = std::min(format.most_bytes, largest_wav);
    if (bytes_needed(frames, format) <= most) return;
    throw files::FileError(
        path,
        fmt::format("cannot be written: it would be larger than {:.4g} MB; render fewer times "
                    "through",
                    static_cast<double>(most) / 1e6));
}

struct WavWriter::Sound {
    explicit Sound(SNDFILE* opened) : file(opened) {}
    ~Sound() {
        if (file != nullptr) sf_close(file);
    }
    Sound(const Sound&) = delete;
    Sound& operator=(const Sound&) = delete;
    SNDFILE* file;
};

void WavWriter::fail(const std::string& reason) const {
    throw files::FileError(path_, "cannot be written: " + reason);
}

WavWriter::WavWriter(const fs::path& path, time::SampleRate rate, const WavFormat& format)
    : path_(path), format_(format), file_(path, format.existing) {
    SF_INFO info{};
    info.samplerate = rate.hz();
    info.channels = static_cast<int>(channels_of(format.channels));
    info.format = SF_FORMAT_WAV | subtype_of(format.bits);
    SNDFILE* const opened = sf_open_fd(file_.descriptor(), SFM_WRITE, &info, SF_FALSE);
    sound_ = std::make_unique<Sound>(opened);
    if (opened == nullptr) fail(sf_strerror(nullptr));
    // The peak chunk of a float file has a date in it.
    sf_command(opened, SFC_SET_ADD_PEAK_CHUNK, nullptr, SF_FALSE);
}

WavWriter::~WavWriter() = default;

void WavWriter::write(const float* left, const float* right, std::size_t frames) {
    frames_ += static_cast<std::int64_t>(frames);
    refuse_too_large(path_, time::Frames(frames_), format_);
    lay_out(left, right, frames);
    for (const float sample : interleaved_) peak_ = std::max(peak_, std::fabs(sample));
    if (!hand_over(frames)) fail(sf_strerror(sound_->file));
}

void WavWriter::lay_out(const float* left, const float* right, std::size_t frames) {
    interleaved_.resize(frames * channels_of(format_.channels));
    if (format_.channels == Channels::mono) {
        for (std::size_t i = 0; i < frames; ++i) interleaved_[i] = 0.5F * (left[i] + right[i]);
        return;
    }
    for (std::size_t i = 0; i < frames; ++i) {
        interleaved_[2 * i] = left[i];
        interleaved_[2 * i + 1] = right[i];
    }
}

bool WavWriter::hand_over(std::size_t frames) {
    const auto count = static_cast<sf_count_t>(frames);
    if (format_.bits == Bits::float32) {
        return sf_writef_float(sound_->file, interleaved_.data(), count) == count;
    }
    // Rounded here and not by libsndfile, so that its version and settings do not matter.
    const Whole& whole = format_.bits == Bits::sixteen ? sixteen : twenty_four;
    whole_.resize(interleaved_.size());
    std::transform(interleaved_.begin(), interleaved_.end(), whole_.begin(),
                   [&](float sample) { return whole_of(sample, whole); });
    return sf_writef_int(sound_->file, whole_.data(), count) == count;
}

void WavWriter::commit() {
    const int error = sf_error(sound_->file);
    const std::string words = sf_strerror(sound_->file);
    const int close_error = sf_close(std::exchange(sound_->file, nullptr));
    if (error != SF_ERR_NO_ERROR) fail(words);
    if (close_error != SF_ERR_NO_ERROR) fail(sf_error_number(close_error));
    file_.finish();
}

Wav read_wav(const fs::path& path) {
    SF_INFO info{};
    SNDFILE* file = sf_open(path.c_str(), SFM_READ, &info);
    if (file == nullptr) {
        throw text::BadInput(files::name_of(path), "cannot be read", sf_strerror(nullptr));
    }
    const auto channels = static_cast<std::size_t>(info.channels);
    std::vector<float> samples(static_cast<std::size_t>(info.frames) * channels);
    const auto got = sf_readf_float(file, samples.data(), info.frames);
    sf_close(file);
    if (got != info.frames || channels > 2) {
        throw text::BadInput(files::name_of(path), "cannot be read",
                             channels > 2 ? "more than two channels" : "cut short");
    }
    Wav wav{time::SampleRate(info.samplerate), {}};
    for (std::size_t i = 0; i < samples.size(); i += channels) {
        wav.sound.left.push_back(samples[i]);
        wav.sound.right.push_back(samples[i + channels - 1]);
    }
    return wav;
}

}  // namespace compline::sound
