#pragma once

#include <compline/files/file_io.hpp>
#include <compline/time/units.hpp>

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

namespace compline::sound {

/// Left and right, of one length.
struct Stereo {
    std::vector<float> left;
    std::vector<float> right;
};

/// The bytes of the largest WAV file: its size is a number of 32 bits. Four hours of 24 bits in
/// stereo at 48 kHz.
inline constexpr std::uint64_t largest_wav = 0xFFFFFFFF;

/// What a sample is in a file. Whole numbers are rounded to the nearest, halves away from 0,
/// without dither: the same samples make the same bytes, and at 16 bits the steps lie 98 dB below
/// full scale. Float is written as it is.
enum class Bits { sixteen, twenty_four, float32 };

/// mono: half the sum of left and right. It never clips where the two sides do not, and what stands
/// in the middle, the bass, is as loud as on either side; what stands at one side alone is 3 dB
/// softer beside it than in stereo (its pan was of equal power), at 0.3 of the way a tenth of a dB.
enum class Channels { mono, stereo };

/// How a WAV file is written.
struct WavFormat {
    Bits bits = Bits::twenty_four;
    Channels channels = Channels::stereo;
    std::uint64_t most_bytes = largest_wav;  ///< a larger file is refused; largest_wav at most
    files::Existing existing = files::Existing::keep;  ///< what becomes of a file that is there
};

/// The size of a file of so many frames, to the byte.
[[nodiscard]] std::uint64_t bytes_needed(time::Frames frames, const WavFormat& format = {});

/// Throws files::FileError when a file of so many frames would be larger than its format allows.
void refuse_too_large(const std::filesystem::path& path, time::Frames frames,
                      const WavFormat& format);

/// Writes a WAV file, block by block. The file has its name from commit() on, so that what carries
/// it is always whole (see files::UnfinishedFile). There is no date in it: the same samples make
/// the same bytes. All throw files::FileError.
class WavWriter {
  public:
    /// Throws when the folder is missing, nothing may be written there, or `path` is something else
    /// than a file.
    WavWriter(const std::filesystem::path& path, time::SampleRate rate,
              const WavFormat& format = {});
    /// Without commit(), nothing is left behind.
    ~WavWriter();
    WavWriter(const WavWriter&) = delete;
    WavWriter& operator=(const WavWriter&) = delete;

    /// Samples beyond -1 to 1 are clipped, but for float; see peak(). Throws: disk full,
    /// or the file would be larger than its format allows.
    void write(const float* left, const float* right, std::size_t frames);

    /// Closes the file and gives it its name. The last call. Throws.
    void commit();

    /// The largest sample written so far, without its sign: in mono, of the sum. Above 1 a file of
    /// whole numbers is clipped.
    [[nodiscard]] float peak() const { return peak_; }

  private:
    struct Sound;
    [[noreturn]] void fail(const std::string& reason) const;
    void lay_out(const float* left, const float* right, std::size_t frames);
    [[nodiscard]] bool hand_over(std::size_t frames);

    std::filesystem::path path_;
    WavFormat format_;
    files::UnfinishedFile file_;
    std::unique_ptr<Sound> sound_;    // closed before the file
    std::vector<float> interleaved_;  // as the file has them
    std::vector<int> whole_;
    std::int64_t frames_ = 0;
    float peak_ = 0;
};

struct Wav {
    time::SampleRate rate;
    Stereo sound;
};

/// Reads a sound file of one or two channels (one: both sides the same). Throws text::BadInput.
[[nodiscard]] Wav read_wav(const std::filesystem::path& path);

}  // namespace compline::sound
