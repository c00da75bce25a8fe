#include "support/bent_system.hpp"
#include "support/catch.hpp"
#include "support/command.hpp"
#include "support/temporary_folder.hpp"

#include <compline/files/file_io.hpp>
#include <compline/text/bad_input.hpp>

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <ctime>
#include <fstream>
#include <functional>
#include <iterator>
#include <string>

using namespace compline::files;
using namespace compline::tests;
namespace fs = std::filesystem;

namespace {

std::string refusal(const std::function<void()>& call) {
    try {
        call();
    } catch (const FileError& error) {
        return error.what();
    } catch (const compline::text::BadInput& error) {
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

TEST_CASE("a file that appears while another of its name is written is not overwritten") {
    const TemporaryFolder folder;
    const auto path = folder.file("take.mid");
    const auto write_beside_another = [&] {
        fs::remove(path);
        UnfinishedFile file(path, Existing::keep);
        save_text(path, "somebody else's", Existing::keep);
        CHECK_THROWS_AS(file.finish(), AlreadyThere);
        CHECK(load_text(path) == "somebody else's");
    };
    SECTION("where the file system has links") { write_beside_another(); }
    SECTION("where it has none, but a rename that does not overwrite") {
        const NoLinks none(NoLinks::Renames::without_overwriting);
        write_beside_another();
    }
    SECTION("where it has neither") {
        const NoLinks none(NoLinks::Renames::plainly);
        write_beside_another();
    }
    CHECK(files_in(folder.path()) == 1);
}

TEST_CASE("a new file gets its name on every file system") {
    for (const auto renames : {NoLinks::Renames::without_overwriting, NoLinks::Renames::plainly}) {
        const NoLinks none(renames);
        const TemporaryFolder folder;
        save_text(folder.file("new"), "new", Existing::keep);
        CHECK(load_text(folder.file("new")) == "new");
        CHECK(files_in(folder.path()) == 1);
    }
}

TEST_CASE("a link is not followed where nothing may be overwritten, though it leads to nothing") {
    const TemporaryFolder folder;
    fs::create_symlink(folder.file("behind"), folder.file("link"));
    for (const auto existing : {Existing::keep, Existing::same}) {
        CHECK_THROWS_AS(save_text(folder.file("link"), "x", existing), AlreadyThere);
    }
    CHECK(files_in(folder.path()) == 1);
    // Whoever asks for replacing gets the file where the link leads.
    save_text(folder.file("link"), "x", Existing::replace);
    CHECK(fs::is_symlink(folder.file("link")));
    CHECK(load_text(folder.file("behind")) == "x");
    fs::create_symlink("loop", folder.file("loop"));
    CHECK(contains(refusal([&] { save_text(folder.file("loop"), "x", Existing::replace); }),
                   "loop: cannot be written: "));
}

TEST_CASE("where the same bytes are there already they stay, others are refused") {
    const TemporaryFolder folder;
    const auto path = folder.file("page.html");
    const std::string large(200'000, 'x');
    save_text(path, large, Existing::same);
    const auto before = fs::last_write_time(path);
    save_text(path, large, Existing::same);
    CHECK(fs::last_write_time(path) == before);
    const std::string others[] = {large + "y", large.substr(1), "y" + large.substr(1), ""};
    for (const auto& other : others) {
        CHECK_THROWS_AS(save_text(path, other, Existing::same), AlreadyThere);
    }
    CHECK(load_text(path) == large);
    CHECK(files_in(folder.path()) == 1);
}

TEST_CASE("a file is for its owner alone while it is written, whatever it will be") {
    const TemporaryFolder folder;
    const auto only_file = [&] { return fs::directory_iterator(folder.path())->path(); };
    const mode_t before = ::umask(0);
    {
        UnfinishedFile file(folder.file("shared"), Existing::keep);
        CHECK(mode_of(only_file()) == 0600);
        file.finish();
    }
    CHECK(mode_of(folder.file("shared")) == 0666);
    ::umask(0027);
    save_text(folder.file("group"), "x", Existing::keep);
    CHECK(mode_of(folder.file("group")) == 0640);
    CHECK(::umask(before) == 0027);
}

TEST_CASE("what replaces a file has the mode that it has then") {
    const TemporaryFolder folder;
    const auto path = folder.file("page.html");
    save_text(path, "old", Existing::keep);
    UnfinishedFile file(path, Existing::replace, Access::own);
    ::chmod(path.c_str(), 0604);
    file.finish();
    CHECK(mode_of(path) == 0604);
}

TEST_CASE("a file is on the disk before it has its name, and its name before it is done") {
    const TemporaryFolder folder;
    const auto path = folder.file("take.mid");
    std::vector<std::string> synced;
    const OnSync watch([&](int descriptor) {
        struct stat found {};
        ::fstat(descriptor, &found);
        synced.push_back(std::string(S_ISDIR(found.st_mode) ? "folder" : "file") +
                         (fs::exists(path) ? " with the name" : ""));
        return 0;
    });
    const std::vector<std::string> expected{"file", "folder with the name"};
    save_text(path, "x", Existing::keep);
    CHECK(synced == expected);
    fs::remove(path);
    synced.clear();
    save_text(path, "x", Existing::replace);
    CHECK(synced == expected);
    synced.clear();
    const GrowingFile growing(folder.file("growing.mid"));
    CHECK(synced == std::vector<std::string>{"folder with the name"});
    growing.sync();
    CHECK(synced.back() == "file with the name");
}

TEST_CASE("a disk that fails while a file is forced to it is told, and nothing is left") {
    const TemporaryFolder folder;
    {
        const OnSync broken([](int) { return EIO; });
        CHECK(contains(refusal([&] { save_text(folder.file("a"), "x", Existing::keep); }),
                       "a: cannot be written: Input/output error"));
        CHECK(contains(refusal([&] { const GrowingFile file(folder.file("b")); }),
                       "b: cannot be written: Input/output error"));
    }
    CHECK(files_in(folder.path()) == 0);
    // A file system that knows no syncing of folders is none that fails.
    const OnSync unable([](int) { return EINVAL; });
    const GrowingFile growing(folder.file("c"));
    CHECK(contains(refusal([&] { growing.sync(); }), "c: cannot be written: Invalid argument"));
}

TEST_CASE("what a killed program left unfinished is cleared a day later, and nothing else is") {
    const TemporaryFolder folder;
    const auto set_age = [&](const std::string& name, int hours) {
        timespec times[2];
        ::clock_gettime(CLOCK_REALTIME, &times[0]);
        times[0].tv_sec -= hours * 3600L;
        times[1] = times[0];
        CHECK(::utimensat(AT_FDCWD, folder.file(name).c_str(), times, AT_SYMLINK_NOFOLLOW) == 0);
    };
    const auto make = [&](const std::string& name, int hours) {
        std::ofstream(folder.file(name)) << "left";
        set_age(name, hours);
    };
    make(".compline-4711-0.part", 25);
    make(".compline-4711-1.part", 23);
    for (const std::string other :
         {".compline-.part", ".compline-1-.part", ".compline-1-2.parts", ".compline-a-2.part",
          "compline-1-2.part", ".compline-1-2-3.part", ".compline-12.part", ".compline-1-2.midi",
          "take.mid"}) {
        make(other, 100);
    }
    fs::create_directory(folder.file(".compline-1-5.part"));
    set_age(".compline-1-5.part", 100);
    fs::create_symlink(folder.file("take.mid"), folder.file(".compline-1-6.part"));
    set_age(".compline-1-6.part", 100);
    const auto before = files_in(folder.path());
    save_text(folder.file("new.mid"), "x", Existing::keep);
    CHECK(files_in(folder.path()) == before);  // one more, one fewer
    CHECK_FALSE(fs::exists(folder.file(".compline-4711-0.part")));
}

TEST_CASE("unfinished files can be removed by the handler of a signal, finished ones stay") {
    const TemporaryFolder folder;
    save_text(folder.file("done"), "x", Existing::keep);
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        // Names that were forgotten leave their places to others.
        for (int i = 0; i < 20; ++i) save_text(folder.file("done"), "x", Existing::replace);
        UnfinishedFile one(folder.file("one"), Existing::keep);
        UnfinishedFile two(folder.file("two"), Existing::keep);
        const bool there = files_in(folder.path()) == 3;
        remove_unfinished_files();
        ::_exit(there ? 0 : 1);
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    CHECK(status == 0);
    CHECK(files_in(folder.path()) == 1);
}

TEST_CASE("a name that is too long is refused before anything is written") {
    const TemporaryFolder folder;
    const auto path = folder.file(std::string(256, 'n'));
    CHECK(contains(refusal([&] { const UnfinishedFile file(path, Existing::keep); }),
                   "cannot be written: File name too long"));
    CHECK(files_in(folder.path()) == 0);
}

TEST_CASE("a growing file knows whether it is still where it was put") {
    const TemporaryFolder folder;
    const GrowingFile file(folder.file("take.mid"), Access::own);
    CHECK(file.is_in_place());
    fs::rename(folder.file("take.mid"), folder.file("elsewhere.mid"));
    CHECK_FALSE(file.is_in_place());
    save_text(folder.file("take.mid"), "another", Existing::keep);
    CHECK_FALSE(file.is_in_place());
    fs::remove(folder.file("take.mid"));
    fs::create_symlink(folder.file("elsewhere.mid"), folder.file("take.mid"));
    CHECK(file.is_in_place());
}
