#include <compline/sound/wav.hpp>

#include <fcntl.h>
#include <fmt/format.h>
#include <sndfile.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <cstring>
#include <limits>
#include <system_error>
#include <utility>

namespace compline::sound {

namespace {

namespace fs = std::filesystem;

constexpr double full_scale = 8388607.0;  // 24 bits
constexpr int unused_bits = 256;          // libsndfile takes the upper 24 of 32 bits
constexpr std::uint64_t bytes_a_frame = 6;
// The RIFF size is 32 bits and counts a small header as well.
constexpr std::uint64_t most_frames = (0xFFFFFFFFULL - 4096) / bytes_a_frame;

/// A sample as 24 bits, clipped, to the nearest, halves away from 0 as std::lround has it, whose
/// call for every sample took longer than making the sound. Adding the half is exact here: a float
/// times 24 bits leaves room for it in a double.
int whole_of(float sample) {
    const double scaled = std::clamp(static_cast<double>(sample), -1.0, 1.0) * full_scale;
    return static_cast<int>(scaled + std::copysign(0.5, scaled));
}

std::string words_of(int error) { return std::generic_category().message(error); }

/// Through links, so that renaming replaces the file and not the link to it.
fs::path place_of(const fs::path& path) {
    std::error_code error;
    if (fs::is_symlink(path, error)) {
        fs::path target = fs::weakly_canonical(path, error);
        if (!error) return target;
    }
    return path;
}

/// Beside the file itself: a file is renamed only within one file system.
fs::path unfinished_name(const fs::path& path) {
    fs::path name = path;
    name += fmt::format(".{}.unfinished", ::getpid());
    return name;
}

}  // namespace

struct WavWriter::File {
    int descriptor = -1;
    SNDFILE* sound = nullptr;
    ~File() {
        if (sound != nullptr) sf_close(sound);
        if (descriptor >= 0) ::close(descriptor);
    }
};

void WavWriter::fail(const std::string& reason) const {
    throw SoundError(fmt::format("cannot write {}: {}", path_.string(), reason));
}

WavWriter::WavWriter(const fs::path& path, time::SampleRate rate)
    : path_(place_of(path)), unfinished_(unfinished_name(path_)), file_(std::make_unique<File>()) {
    std::error_code error;
    const auto status = fs::status(path_, error);
    if (fs::is_directory(status)) fail("it is a folder; give a file name");
    if (fs::exists(status) && !fs::is_regular_file(status)) fail("it is not a regular file");
    file_->descriptor =
        ::open(unfinished_.c_str(), O_RDWR | O_CREAT | O_TRUNC | O_NOFOLLOW | O_CLOEXEC, 0666);
    if (file_->descriptor < 0) fail(words_of(errno));
    SF_INFO info{};
    info.samplerate = rate.hz();
    info.channels = 2;
    info.format = SF_FORMAT_WAV | SF_FORMAT_PCM_24;
    file_->sound = sf_open_fd(file_->descriptor, SFM_WRITE, &info, SF_FALSE);
    if (file_->sound != nullptr) return;
    const std::string reason = sf_strerror(nullptr);
    fs::remove(unfinished_, error);
    fail(reason);
}

WavWriter::~WavWriter() {
    if (!file_) return;
    file_.reset();
    std::error_code ignored;
    fs::remove(unfinished_, ignored);
}

void WavWriter::write(const float* left, const float* right, std::size_t frames) {
    frames_ += frames;
    if (frames_ > most_frames) fail("longer than a WAV file can be (4 GiB); render fewer choruses");
    // Rounded here and not by libsndfile, so that its version and settings do not matter.
    interleaved_.resize(2 * frames);
    for (std::size_t i = 0; i < frames; ++i) {
        interleaved_[2 * i] = whole_of(left[i]) * unused_bits;
        interleaved_[2 * i + 1] = whole_of(right[i]) * unused_bits;
    }
    for (const float* side : {left, right}) {
        for (std::size_t i = 0; i < frames; ++i) peak_ = std::max(peak_, std::fabs(side[i]));
    }
    const auto count = static_cast<sf_count_t>(frames);
    if (sf_writef_int(file_->sound, interleaved_.data(), count) != count) {
        fail(sf_strerror(file_->sound));
    }
}

void WavWriter::commit() {
    sf_write_sync(file_->sound);
    const int error = sf_error(file_->sound);
    const std::string words = sf_strerror(file_->sound);
    const int close_error = sf_close(std::exchange(file_->sound, nullptr));
    if (error != SF_ERR_NO_ERROR) fail(words);
    if (close_error != SF_ERR_NO_ERROR) fail(sf_error_number(close_error));
    if (::close(std::exchange(file_->descriptor, -1)) != 0) fail(words_of(errno));
    std::error_code renamed;
    fs::rename(unfinished_, path_, renamed);
    if (renamed) fail(renamed.message());
    file_.reset();
}

Wav read_wav(const fs::path& path) {
    SF_INFO info{};
    SNDFILE* file = sf_open(path.c_str(), SFM_READ, &info);
    if (file == nullptr) {
        throw SoundError(fmt::format("cannot read {}: {}", path.string(), sf_strerror(nullptr)));
    }
    const auto channels = static_cast<std::size_t>(info.channels);
    std::vector<float> samples(static_cast<std::size_t>(info.frames) * channels);
    const auto got = sf_readf_float(file, samples.data(), info.frames);
    sf_close(file);
    if (got != info.frames || channels > 2) {
        throw SoundError(fmt::format("cannot read {}: {}", path.string(),
                                     channels > 2 ? "more than two channels" : "cut short"));
    }
    Wav wav{time::SampleRate(info.samplerate), {}};
    for (std::size_t i = 0; i < samples.size(); i += channels) {
        wav.sound.left.push_back(samples[i]);
        wav.sound.right.push_back(samples[i + channels - 1]);
    }
    return wav;
}

}  // namespace compline::sound
