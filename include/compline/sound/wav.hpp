#pragma once

#include <compline/time/units.hpp>

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <stdexcept>
#include <vector>

namespace compline::sound {

/// A sound file that could not be written or read; what() has the path and the reason.
class SoundError : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

/// Left and right, of one length.
struct Stereo {
    std::vector<float> left;
    std::vector<float> right;
};

/// Writes a stereo WAV file of 24-bit whole numbers, block by block. The file has another name
/// until commit(), so that what carries the name asked for is always whole; a file of that name is
/// replaced. There is no date in it: the same samples make the same bytes.
class WavWriter {
  public:
    /// Throws SoundError: the folder is missing, nothing may be written there, or `path` is
    /// something else than a file.
    WavWriter(const std::filesystem::path& path, time::SampleRate rate);
    /// Without commit(), nothing is left behind.
    ~WavWriter();
    WavWriter(const WavWriter&) = delete;
    WavWriter& operator=(const WavWriter&) = delete;

    /// Samples beyond -1 to 1 are clipped; see peak(). Throws SoundError: disk full, or more than
    /// the 4 GiB that a WAV file holds (four hours at 48 kHz).
    void write(const float* left, const float* right, std::size_t frames);

    /// Closes the file and gives it its name. Throws SoundError.
    void commit();

    /// The largest sample written so far, without its sign; above 1 the file is clipped.
    [[nodiscard]] float peak() const { return peak_; }

  private:
    struct File;
    [[noreturn]] void fail(const std::string& reason) const;

    std::filesystem::path path_;
    std::filesystem::path unfinished_;
    std::unique_ptr<File> file_;
    std::vector<int> interleaved_;
    std::uint64_t frames_ = 0;
    float peak_ = 0;
};

struct Wav {
    time::SampleRate rate;
    Stereo sound;
};

/// Reads a sound file of one or two channels (one: both sides the same). Throws SoundError.
[[nodiscard]] Wav read_wav(const std::filesystem::path& path);

}  // namespace compline::sound
