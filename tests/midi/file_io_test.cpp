#include "support/catch.hpp"
#include "support/command.hpp"
#include "support/temporary_folder.hpp"

#include <compline/midi/file_io.hpp>

#include <sys/resource.h>
#include <sys/stat.h>

#include <csignal>
#include <functional>
#include <iterator>
#include <string>

using namespace compline::midi;
using namespace compline::tests;
namespace fs = std::filesystem;

namespace {

std::string refusal(const std::function<void()>& call) {
    try {
        call();
    } catch (const FileError& error) {
        return error.what();
    }
    return "no error";
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::size_t files_in(const fs::path& folder) {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

/// While it lives, no file of this process grows past `bytes`: a disk that is full.
class FullDisk {
  public:
    explicit FullDisk(rlim_t bytes) {
        std::signal(SIGXFSZ, SIG_IGN);
        ::getrlimit(RLIMIT_FSIZE, &before_);
        const rlimit small{bytes, before_.rlim_max};
        ::setrlimit(RLIMIT_FSIZE, &small);
    }
    ~FullDisk() {
        ::setrlimit(RLIMIT_FSIZE, &before_);
        std::signal(SIGXFSZ, SIG_DFL);
    }
    FullDisk(const FullDisk&) = delete;
    FullDisk& operator=(const FullDisk&) = delete;

  private:
    rlimit before_{};
};

mode_t mode_of(const fs::path& path) {
    return static_cast<mode_t>(fs::status(path).permissions()) & 0777U;
}

}  // namespace

TEST_CASE("a file that was saved loads the same, and nothing else is left in the folder") {
    const TemporaryFolder folder;
    const std::vector<std::uint8_t> bytes{0, 255, 10, 13, 26, 0};
    save_bytes(folder.file("a b.mid"), bytes, Existing::keep);
    CHECK(load_bytes(folder.file("a b.mid")) == bytes);
    save_text(folder.file("t.yaml"), "form: [A]\n", Existing::keep);
    CHECK(load_text(folder.file("t.yaml")) == "form: [A]\n");
    save_text(folder.file("empty"), "", Existing::keep);
    CHECK(load_text(folder.file("empty")).empty());
    CHECK(files_in(folder.path()) == 3);
}

TEST_CASE("what is not a file to read is said with its name and the reason") {
    const TemporaryFolder folder;
    const auto missing = folder.file("gone.mid");
    CHECK(refusal([&] { (void)load_bytes(missing); }) ==
          missing.string() + ": No such file or directory");
    CHECK(refusal([&] { (void)load_bytes(folder.path()); }) ==
          folder.path().string() + ": is a folder, not a file");
    save_text(folder.file("long"), "12345", Existing::keep);
    CHECK(load_text(folder.file("long"), 5) == "12345");
    CHECK(contains(refusal([&] { (void)load_bytes(folder.file("long"), 4); }),
                   "is too large: more than 4 bytes"));
    CHECK(contains(refusal([] { (void)load_bytes("/dev/zero", 1000); }), "more than 1000 bytes"));
}

TEST_CASE("an existing file is overwritten only when asked") {
    const TemporaryFolder folder;
    const auto path = folder.file("take.mid");
    save_text(path, "old", Existing::keep);
    CHECK(contains(refusal([&] { save_text(path, "new", Existing::keep); }), "is there already"));
    CHECK(load_text(path) == "old");
    save_text(path, "new", Existing::replace);
    CHECK(load_text(path) == "new");
    CHECK(files_in(folder.path()) == 1);
}

TEST_CASE("a disk that fills up leaves the old file whole and no half of the new one") {
    const TemporaryFolder folder;
    const auto path = folder.file("take.mid");
    save_text(path, "old", Existing::keep);
    const std::string large(100'000, 'x');
    std::string said;
    {
        const FullDisk full(50'000);
        said = refusal([&] { save_text(path, large, Existing::replace); });
    }
    CHECK(contains(said, path.string() + ": cannot be written: "));
    CHECK(load_text(path) == "old");
    CHECK(files_in(folder.path()) == 1);
}

TEST_CASE("a device is written to directly, and its being full is noticed") {
    if (!fs::exists("/dev/full")) {
        WARN("SKIPPED: no /dev/full here");
        return;
    }
    CHECK(contains(refusal([] { save_text("/dev/full", "x", Existing::replace); }),
                   "/dev/full: cannot be written: No space left on device"));
    CHECK(fs::is_character_file("/dev/full"));
    save_text("/dev/null", "x", Existing::keep);
    CHECK(fs::is_character_file("/dev/null"));
}

TEST_CASE("nothing is saved where there is no folder, nor in place of one") {
    const TemporaryFolder folder;
    CHECK(contains(refusal([&] { save_text(folder.file("no") / "t", "x", Existing::replace); }),
                   "cannot be written: No such file or directory"));
    CHECK(contains(refusal([&] { save_text(folder.path(), "x", Existing::replace); }),
                   "is a folder, not a file"));
}

TEST_CASE("a private file is for its owner alone, a replaced one keeps its mode") {
    const TemporaryFolder folder;
    save_text(folder.file("own"), "x", Existing::keep, Access::own);
    CHECK(mode_of(folder.file("own")) == 0600);
    save_text(folder.file("shared"), "x", Existing::keep);
    const mode_t mask = ::umask(0);
    ::umask(mask);
    CHECK(mode_of(folder.file("shared")) == (0666U & ~mask));
    ::chmod(folder.file("shared").c_str(), 0640);
    save_text(folder.file("shared"), "y", Existing::replace);
    CHECK(mode_of(folder.file("shared")) == 0640);
}

TEST_CASE("saving through a link changes the file behind it, and the link stays") {
    const TemporaryFolder folder;
    save_text(folder.file("real"), "old", Existing::keep);
    fs::create_symlink(folder.file("real"), folder.file("link"));
    save_text(folder.file("link"), "new", Existing::replace);
    CHECK(fs::is_symlink(folder.file("link")));
    CHECK(load_text(folder.file("real")) == "new");
}

TEST_CASE("a name as long as the system allows can be saved") {
    const TemporaryFolder folder;
    const auto path = folder.file(std::string(255, 'n'));
    save_text(path, "x", Existing::keep);
    CHECK(load_text(path) == "x");
}
