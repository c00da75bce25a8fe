#include "support/catch.hpp"
#include "support/temporary_folder.hpp"

#include <compline/sound/wav.hpp>
#include <compline/text/bad_input.hpp>

#include <sndfile.h>
#include <sys/resource.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <csignal>
#include <cstring>
#include <fstream>
#include <functional>
#include <iterator>

using namespace compline;
using sound::Bits;
using sound::Channels;
using sound::WavFormat;
using sound::WavWriter;
using tests::TemporaryFolder;
using time::SampleRate;

namespace fs = std::filesystem;

namespace {

std::string bytes_of(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

sound::Stereo ramp() {
    sound::Stereo sound;
    for (int i = -1000; i <= 1000; ++i) {
        sound.left.push_back(static_cast<float>(i) / 1000.0F);
        sound.right.push_back(static_cast<float>(-i) / 3000.0F);
    }
    return sound;
}

void write_all(const fs::path& path, const sound::Stereo& sound, std::size_t block,
               WavFormat format = {}, SampleRate rate = SampleRate(44100)) {
    format.existing = files::Existing::replace;
    WavWriter writer(path, rate, format);
    for (std::size_t i = 0; i < sound.left.size(); i += block) {
        const auto frames = std::min(block, sound.left.size() - i);
        writer.write(sound.left.data() + i, sound.right.data() + i, frames);
    }
    writer.commit();
}

std::size_t files_in(const fs::path& folder) {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

constexpr WavFormat every_format[] = {
    {Bits::sixteen, Channels::mono},     {Bits::sixteen, Channels::stereo},
    {Bits::twenty_four, Channels::mono}, {Bits::twenty_four, Channels::stereo},
    {Bits::float32, Channels::mono},     {Bits::float32, Channels::stereo}};

/// The largest sample of a file and the furthest that one may lie from what was written: half a
/// step, and what libsndfile's scale differs (a step of full scale).
float furthest_of(Bits bits) {
    switch (bits) {
        case Bits::sixteen:
            return 1.5F / 32768;
        case Bits::twenty_four:
            return 1.5F / 8388608;
        case Bits::float32:
            return 0;
    }
    return 0;
}

int subtype_of(Bits bits) {
    if (bits == Bits::sixteen) return SF_FORMAT_PCM_16;
    return bits == Bits::twenty_four ? SF_FORMAT_PCM_24 : SF_FORMAT_FLOAT;
}

/// Reads a file by libsndfile alone.
struct Outside {
    SF_INFO info{};
    std::vector<float> samples;

    explicit Outside(const fs::path& path) {
        SNDFILE* file = sf_open(path.c_str(), SFM_READ, &info);
        REQUIRE(file != nullptr);
        samples.resize(static_cast<std::size_t>(info.frames * info.channels));
        CHECK(sf_readf_float(file, samples.data(), info.frames) == info.frames);
        sf_close(file);
    }
};

std::string message_of(const std::function<void()>& writing) {
    try {
        writing();
    } catch (const files::FileError& error) {
        return error.what();
    }
    return "";
}

std::string refusal(const fs::path& path) {
    try {
        WavWriter writer(path, SampleRate(48000));
    } catch (const files::FileError& error) {
        return error.what();
    }
    return "";
}

std::uint32_t number_at(const std::string& bytes, std::size_t offset) {
    std::uint32_t number = 0;
    std::memcpy(&number, bytes.data() + offset, 4);
    return number;
}

/// Names of the RIFF chunks of a file, read here by hand (little-endian machine).
std::vector<std::string> chunks_of(const std::string& bytes) {
    std::vector<std::string> names;
    for (std::size_t at = 12; at + 8 <= bytes.size();) {
        names.push_back(bytes.substr(at, 4));
        at += 8 + number_at(bytes, at + 4);
    }
    return names;
}

/// No file of this process grows beyond so many bytes while this lives: a full disk for a test.
class SmallDisk {
  public:
    explicit SmallDisk(rlim_t bytes) : handler_(std::signal(SIGXFSZ, SIG_IGN)) {
        ::getrlimit(RLIMIT_FSIZE, &before_);
        const rlimit limit{bytes, before_.rlim_max};
        ::setrlimit(RLIMIT_FSIZE, &limit);
    }
    ~SmallDisk() {
        ::setrlimit(RLIMIT_FSIZE, &before_);
        std::signal(SIGXFSZ, handler_);
    }

  private:
    rlimit before_{};
    void (*handler_)(int);
};

}  // namespace

TEST_CASE("samples come back from a WAV file to within half a step of 24 bits") {
    const TemporaryFolder folder;
    const auto sound = ramp();
    write_all(folder.file("a.wav"), sound, 64);
    const auto wav = sound::read_wav(folder.file("a.wav"));
    CHECK(wav.rate == SampleRate(44100));
    REQUIRE(wav.sound.left.size() == sound.left.size());
    for (std::size_t i = 0; i < sound.left.size(); ++i) {
        CHECK(std::fabs(wav.sound.left[i] - sound.left[i]) <= 1.2e-7F);
        CHECK(std::fabs(wav.sound.right[i] - sound.right[i]) <= 1.2e-7F);
    }
}

TEST_CASE("the same samples make the same bytes, and nothing but sound is in them") {
    const TemporaryFolder folder;
    write_all(folder.file("a.wav"), ramp(), 64);
    write_all(folder.file("b.wav"), ramp(), 1000);
    const auto bytes = bytes_of(folder.file("a.wav"));
    CHECK(bytes == bytes_of(folder.file("b.wav")));
    CHECK(chunks_of(bytes) == std::vector<std::string>{"fmt ", "data"});
    CHECK(number_at(bytes, 4) + 8 == bytes.size());
}

TEST_CASE("samples beyond full scale are clipped, and the peak tells") {
    const TemporaryFolder folder;
    WavWriter writer(folder.file("a.wav"), SampleRate(48000));
    const float loud[] = {1.5F, -2.0F};
    writer.write(loud, loud, 2);
    CHECK(writer.peak() == 2.0F);
    writer.commit();
    const auto wav = sound::read_wav(folder.file("a.wav"));
    CHECK(wav.sound.left[0] == Approx(1.0F));
    CHECK(wav.sound.left[1] == Approx(-1.0F));
}

TEST_CASE("a WAV file has its name only when it is whole") {
    const TemporaryFolder folder;
    const auto path = folder.file("a.wav");
    std::ofstream(path) << "what was here before";
    WavFormat over;
    over.existing = files::Existing::replace;
    {
        WavWriter writer(path, SampleRate(48000), over);
        const float silence[64] = {};
        writer.write(silence, silence, 64);
        CHECK(bytes_of(path) == "what was here before");
    }
    CHECK(bytes_of(path) == "what was here before");
    CHECK(files_in(folder.path()) == 1);
    write_all(path, ramp(), 64);
    CHECK(bytes_of(path).substr(0, 4) == "RIFF");
    CHECK(files_in(folder.path()) == 1);
}

TEST_CASE("a WAV file that is there is kept, also one that appears while ours is written") {
    const TemporaryFolder folder;
    const auto path = folder.file("a.wav");
    {
        WavWriter writer(path, SampleRate(48000));
        std::ofstream(path) << "somebody else's";
        CHECK_THROWS_AS(writer.commit(), files::AlreadyThere);
    }
    CHECK_THROWS_AS(WavWriter(path, SampleRate(48000)), files::AlreadyThere);
    CHECK(bytes_of(path) == "somebody else's");
    CHECK(files_in(folder.path()) == 1);
}

TEST_CASE("a WAV file is private while it is written, and has the mode of the one it replaces") {
    const TemporaryFolder folder;
    const auto path = folder.file("a.wav");
    std::ofstream(path) << "private";
    const auto own = fs::perms::owner_read | fs::perms::owner_write;
    const auto mode_of = [](const fs::path& file) { return fs::status(file).permissions(); };
    fs::permissions(path, own);
    {
        WavFormat over;
        over.existing = files::Existing::replace;
        const WavWriter writer(path, SampleRate(48000), over);
        for (const auto& file : fs::directory_iterator(folder.path())) {
            CHECK(mode_of(file.path()) == own);
        }
    }
    write_all(path, ramp(), 64);
    CHECK(bytes_of(path).substr(0, 4) == "RIFF");
    CHECK(mode_of(path) == own);
}

TEST_CASE("a link keeps pointing to the file that is replaced") {
    const TemporaryFolder folder;
    std::ofstream(folder.file("real.wav")) << "old";
    fs::create_symlink(folder.file("real.wav"), folder.file("link.wav"));
    write_all(folder.file("link.wav"), ramp(), 64);
    CHECK(fs::is_symlink(folder.file("link.wav")));
    CHECK(bytes_of(folder.file("real.wav")).substr(0, 4) == "RIFF");
}

TEST_CASE("a WAV file that cannot be written is refused with path and reason") {
    const TemporaryFolder folder;
    const auto missing = folder.path() / "no such folder" / "a.wav";
    CHECK(refusal(missing) == missing.string() + ": cannot be written: No such file or directory");
    CHECK(refusal(folder.path()) == folder.path().string() + ": is a folder, not a file");
    CHECK(refusal("/dev/null") == "/dev/null: is not a regular file");
    CHECK(fs::is_character_file("/dev/null"));
    CHECK(files_in(folder.path()) == 0);
}

TEST_CASE("libsndfile reads every format at every rate as it was written") {
    const TemporaryFolder folder;
    const auto sound = ramp();
    for (const auto& format : every_format) {
        for (const int hz : {44100, 48000, 88200, 96000}) {
            CAPTURE(static_cast<int>(format.bits), static_cast<int>(format.channels), hz);
            write_all(folder.file("a.wav"), sound, 64, format, SampleRate(hz));
            const Outside read(folder.file("a.wav"));
            const bool mono = format.channels == Channels::mono;
            CHECK(read.info.samplerate == hz);
            CHECK(read.info.channels == (mono ? 1 : 2));
            CHECK(read.info.format == (SF_FORMAT_WAV | subtype_of(format.bits)));
            REQUIRE(read.info.frames == static_cast<sf_count_t>(sound.left.size()));
            float furthest = 0;
            for (std::size_t i = 0; i < sound.left.size(); ++i) {
                const float left = sound.left[i];
                const float right = sound.right[i];
                const auto off = [&](float heard, float meant) {
                    furthest = std::max(furthest, std::fabs(heard - meant));
                };
                off(read.samples[mono ? i : 2 * i], mono ? 0.5F * (left + right) : left);
                if (!mono) off(read.samples[2 * i + 1], right);
            }
            CHECK(furthest <= furthest_of(format.bits));
        }
    }
}

TEST_CASE("16 bits are rounded to the nearest and not cut") {
    const TemporaryFolder folder;
    const float step = 1.0F / 32767;
    const sound::Stereo sound{{0.4F * step, 0.6F * step, -0.6F * step, 100.4F * step, 1.0F},
                              {0, 0, 0, 0, -1.0F}};
    write_all(folder.file("a.wav"), sound, 5, {Bits::sixteen, Channels::stereo});
    const auto bytes = bytes_of(folder.file("a.wav"));
    std::array<std::int16_t, 10> samples{};
    std::memcpy(samples.data(), bytes.data() + 44, 20);
    CHECK(samples == std::array<std::int16_t, 10>{0, 0, 1, 0, -1, 0, 100, 0, 32767, -32767});
}

TEST_CASE("float is not clipped, and its file has no date either") {
    const TemporaryFolder folder;
    const sound::Stereo loud{{1.5F, -2.0F}, {3.0F, 0.1F}};
    write_all(folder.file("a.wav"), loud, 2, {Bits::float32, Channels::stereo});
    CHECK(Outside(folder.file("a.wav")).samples == std::vector<float>{1.5F, 3.0F, -2.0F, 0.1F});
    CHECK(chunks_of(bytes_of(folder.file("a.wav"))) ==
          std::vector<std::string>{"fmt ", "fact", "PAD ", "data"});  // not "PEAK"
}

TEST_CASE("a mono file does not clip where the sides do not, and its peak is that of the sum") {
    const TemporaryFolder folder;
    WavWriter writer(folder.file("a.wav"), SampleRate(48000), {Bits::float32, Channels::mono});
    const float left[] = {1.0F, 0.8F, 1.0F};
    const float right[] = {1.0F, 0.0F, -1.0F};
    writer.write(left, right, 3);
    CHECK(writer.peak() == 1.0F);
    writer.commit();
    CHECK(Outside(folder.file("a.wav")).samples == std::vector<float>{1.0F, 0.4F, 0.0F});
}

TEST_CASE("how large a file will be is known to the byte beforehand") {
    const TemporaryFolder folder;
    for (const auto& format : every_format) {
        for (const std::size_t frames : {0U, 1U, 2U, 1001U}) {
            CAPTURE(static_cast<int>(format.bits), static_cast<int>(format.channels), frames);
            const sound::Stereo sound{std::vector<float>(frames, 0.5F),
                                      std::vector<float>(frames, 0.25F)};
            write_all(folder.file("a.wav"), sound, 64, format);
            const time::Frames length(static_cast<std::int64_t>(frames));
            CHECK(sound::bytes_needed(length, format) == fs::file_size(folder.file("a.wav")));
        }
    }
    // Four hours at 48 kHz in 24 bits and stereo are the most.
    CHECK(sound::bytes_needed(time::Frames(4LL * 3600 * 48000)) < sound::largest_wav);
    CHECK(sound::bytes_needed(time::Frames(5LL * 3600 * 48000)) > sound::largest_wav);
}

TEST_CASE("a full disk is noticed, said, and nothing half-written is left") {
    const TemporaryFolder folder;
    const auto path = folder.file("a.wav");
    const sound::Stereo sound{std::vector<float>(100000, 0.5F), std::vector<float>(100000, 0.5F)};
    for (const auto& format : every_format) {
        std::string message;
        {
            const SmallDisk full(50000);
            message = message_of([&] { write_all(path, sound, 512, format); });
        }
        CAPTURE(message, static_cast<int>(format.bits), static_cast<int>(format.channels));
        CHECK(message.rfind(path.string() + ": cannot be written: ", 0) == 0);
        CHECK(message.find("File too large") != std::string::npos);
        CHECK(files_in(folder.path()) == 0);
    }
}

TEST_CASE("a file that would be larger than was allowed is refused and nothing is left") {
    const TemporaryFolder folder;
    const auto path = folder.file("a.wav");
    const sound::Stereo sound{std::vector<float>(1000, 0.5F), std::vector<float>(1000, 0.5F)};
    for (WavFormat format : every_format) {
        CAPTURE(static_cast<int>(format.bits), static_cast<int>(format.channels));
        format.most_bytes = sound::bytes_needed(time::Frames(1000), format);
        write_all(path, sound, 64, format);
        REQUIRE(fs::remove(path));
        format.most_bytes -= 1;
        const auto message = message_of([&] { write_all(path, sound, 64, format); });
        CHECK(message.find(path.string() + ": cannot be written: it would be larger than 0.00") ==
              0);
        CHECK(files_in(folder.path()) == 0);
    }
}

TEST_CASE("no format allows more than a WAV file can hold") {
    const time::Frames long_night(6LL * 3600 * 48000);
    const WavFormat endless{Bits::twenty_four, Channels::stereo, ~0ULL};
    CHECK_THROWS_AS(sound::refuse_too_large("a.wav", long_night, endless), files::FileError);
    CHECK_NOTHROW(sound::refuse_too_large("a.wav", long_night, {Bits::sixteen, Channels::mono}));
}

TEST_CASE("a file that is no sound is refused by name") {
    const TemporaryFolder folder;
    std::ofstream(folder.file("a.wav")) << "not a sound at all";
    CHECK_THROWS_AS(sound::read_wav(folder.file("a.wav")), text::BadInput);
    CHECK_THROWS_AS(sound::read_wav(folder.file("b.wav")), text::BadInput);
}
