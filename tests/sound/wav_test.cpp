#include "support/catch.hpp"
#include "support/temporary_folder.hpp"

#include <compline/sound/wav.hpp>

#include <sys/resource.h>

#include <algorithm>
#include <cmath>
#include <csignal>
#include <cstring>
#include <fstream>
#include <iterator>

using namespace compline;
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

void write_all(const fs::path& path, const sound::Stereo& sound, std::size_t block) {
    WavWriter writer(path, SampleRate(44100));
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

std::string refusal(const fs::path& path) {
    try {
        WavWriter writer(path, SampleRate(48000));
    } catch (const sound::SoundError& error) {
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
    {
        WavWriter writer(path, SampleRate(48000));
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
    CHECK(refusal(missing) == "cannot write " + missing.string() + ": No such file or directory");
    CHECK(refusal(folder.path()) ==
          "cannot write " + folder.path().string() + ": it is a folder; give a file name");
    CHECK(refusal("/dev/null") == "cannot write /dev/null: it is not a regular file");
    CHECK(fs::is_character_file("/dev/null"));
    CHECK(files_in(folder.path()) == 0);
}

TEST_CASE("a full disk is noticed, said, and nothing half-written is left") {
    const TemporaryFolder folder;
    const auto path = folder.file("a.wav");
    const sound::Stereo sound{std::vector<float>(100000, 0.5F), std::vector<float>(100000, 0.5F)};
    std::string message;
    {
        const SmallDisk full(50000);
        try {
            write_all(path, sound, 512);
        } catch (const sound::SoundError& error) {
            message = error.what();
        }
    }
    CAPTURE(message);
    CHECK(message.rfind("cannot write " + path.string() + ": ", 0) == 0);
    CHECK(message.find("File too large") != std::string::npos);
    CHECK(files_in(folder.path()) == 0);
}

TEST_CASE("a file that is no sound is refused by name") {
    const TemporaryFolder folder;
    std::ofstream(folder.file("a.wav")) << "not a sound at all";
    CHECK_THROWS_AS(sound::read_wav(folder.file("a.wav")), sound::SoundError);
    CHECK_THROWS_AS(sound::read_wav(folder.file("b.wav")), sound::SoundError);
}
