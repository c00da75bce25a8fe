// What is left when a program that writes the history is killed, and when two write at once.

#include "support/catch.hpp"
#include "support/judged_rows.hpp"
#include "support/raw_database.hpp"
#include "support/temporary_folder.hpp"

#include <compline/files/file_io.hpp>
#include <compline/history/history.hpp>
#include <compline/time/units.hpp>

#include <fmt/format.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <csignal>
#include <functional>
#include <random>

using namespace compline;
using namespace compline::history;
using namespace compline::tests;

namespace {

using std::chrono::microseconds;

const KeptChart lantern = kept_chart("Lantern", "Dm7 | G7 | Cmaj7 | A7");

JudgedTake nth_take(int n) {
    PlayedRows played;
    played.made = fmt::format("2026-11-03T{:02}:{:02}:00+01:00", 10 + n / 60, n % 60);
    played.how = ".l.m.";
    played.times = 8;
    return judged_rows(lantern, played);
}

/// A program of its own, which tells by a byte each step that it has made.
class Writer {
  public:
    explicit Writer(const std::function<void(const std::function<void()>& tell)>& write) {
        REQUIRE(::pipe(pipe_.data()) == 0);
        child_ = ::fork();
        REQUIRE(child_ >= 0);
        if (child_ != 0) {
            ::close(pipe_[1]);
            return;
        }
        int status = 0;
        try {
            write([this] { (void)!::write(pipe_[1], "t", 1); });
        } catch (const std::exception&) {
            status = 1;
        }
        ::_exit(status);
    }
    ~Writer() { ::close(pipe_[0]); }
    Writer(const Writer&) = delete;
    Writer& operator=(const Writer&) = delete;

    /// Waits for a step; none is told any more where the program has ended.
    bool hear() {
        char byte = 0;
        return ::read(pipe_[0], &byte, 1) == 1;
    }
    /// To the end: what was told since.
    int end() {
        int told = 0;
        while (hear()) ++told;
        ::waitpid(child_, &status_, 0);
        return told;
    }
    int kill_and_end() {
        ::kill(child_, SIGKILL);
        return end();
    }
    [[nodiscard]] bool went_well() const { return WIFEXITED(status_) && WEXITSTATUS(status_) == 0; }
    [[nodiscard]] bool was_killed() const { return WIFSIGNALED(status_); }

  private:
    std::array<int, 2> pipe_{};
    pid_t child_ = -1;
    int status_ = 0;
};

void wait(microseconds time) { ::usleep(static_cast<useconds_t>(time.count())); }

constexpr int takes = 30;

/// Tells each take when it is in.
void enter_takes(const std::filesystem::path& file, const std::function<void()>& tell) {
    History history(file);
    tell();
    for (int n = 0; n < takes; ++n) {
        history.enter(nth_take(n));
        tell();
    }
}

microseconds lasts(const std::function<void()>& run) {
    const auto began = std::chrono::steady_clock::now();
    run();
    return std::chrono::duration_cast<microseconds>(std::chrono::steady_clock::now() - began);
}

}  // namespace

TEST_CASE("of a program that is killed while it writes no take is lost and none half there",
          "[history]") {
    const TemporaryFolder folder;
    const auto whole = lasts([&] { enter_takes(folder.file("whole.db"), [] {}); });
    std::mt19937 random(20261130);
    for (int kill = 0; kill < 20; ++kill) {
        const auto file = folder.file(fmt::format("{}.db", kill));
        Writer writer([&](const auto& tell) { enter_takes(file, tell); });
        REQUIRE(writer.hear());  // it is open
        wait(microseconds(random() % static_cast<unsigned>(whole.count())));
        const int told = writer.kill_and_end();
        INFO(kill << ", " << told << " told");
        History history(file);
        CHECK(history.check().empty());
        const auto there = static_cast<int>(history.takes().size());
        CHECK(there >= told);      // what was acknowledged
        CHECK(there <= told + 1);  // it may have been killed before it could tell
        for (int n = 0; n < there; ++n) {
            CHECK(history.read(nth_take(n).take.fingerprint) == nth_take(n));
        }
        const auto tune = history.tune("", lantern);
        CHECK((tune ? tune->evenings[0].takes : 0) == there);
    }
}

TEST_CASE("a program that is killed while it brings a history up to date leaves the old or the new",
          "[history]") {
    const TemporaryFolder folder;
    const auto old = folder.file("old.db");
    run_sql(old, files::load_text(std::filesystem::path(COMPLINE_SOURCE_DIR) /
                                  "tests/history/version_1.sql"));
    // Many evenings, so that it takes a while.
    run_sql(old, R"sql(
WITH RECURSIVE n(i) AS (SELECT 10 UNION ALL SELECT i + 1 FROM n WHERE i < 200)
INSERT INTO take SELECT i, chart, printf('%016x', i + 100000), folder, file, player, made,
    date('2024-01-01', i || ' days'), program, rules, of_ours, played_key, asked, from_bar, to_bar,
    slowest_bpm, fastest_bpm, ladder_from, ladder_to, seconds, by_sound, changes, uncertain, counted,
    in_time, right, both, struck, cost FROM take, n WHERE id = 1;
INSERT INTO time_through SELECT t.id, h.number, h.from_bar, h.to_bar, whole_tune, bpm, h.seconds,
    due, h.struck, h.right, missed, clean FROM time_through AS h, take AS t
    WHERE h.take = 1 AND t.id >= 10;
INSERT INTO change SELECT t.id, c.number, time_through, bar, beat, section, from_chord, to_chord,
    bpm, verdict, lateness_ms, relative_ms, tones, missing, wrong, c.cost, c.in_time, c.right,
    counts, c.uncertain, seam, wait, left_out, optional FROM change AS c, take AS t
    WHERE c.take = 1 AND t.id >= 10;
)sql");
    const auto copy_to = [&](const std::string& name) {
        std::filesystem::copy_file(old, folder.file(name));
        return folder.file(name);
    };
    const auto first = copy_to("first.db");
    const auto whole = lasts([&] { const History history(first); });
    std::mt19937 random(20261130);
    for (int kill = 0; kill < 20; ++kill) {
        const auto file = copy_to(fmt::format("{}.db", kill));
        Writer writer([&](const auto& tell) {
            tell();
            const History history(file);
        });
        REQUIRE(writer.hear());
        wait(microseconds(random() % static_cast<unsigned>(whole.count())));
        writer.kill_and_end();
        INFO(kill);
        const auto version = ask_sql(file, "PRAGMA user_version");
        CHECK((version == 1 || version == 2));
        CHECK(ask_sql(file, "SELECT count(*) FROM sqlite_master WHERE name = 'evening'") ==
              version - 1);
        CHECK(ask_sql(file, "SELECT count(*) FROM take") == 193);
        History history(file);
        CHECK(history.check().empty());
        CHECK(history.tunes("")[0].evenings.size() == 192);
        CHECK(history.read("00000000000000a1")->changes.size() == 4);
    }
}

TEST_CASE("two programs that write at once wait for each other, and both find room", "[history]") {
    const TemporaryFolder folder;
    const auto file = folder.file("history.db");
    const auto writing = [&](const std::string& player) {
        return [&file, player](const auto& tell) {
            History history(file);
            for (int n = 0; n < takes / 2; ++n) {
                auto take = nth_take(n);
                take.take.player = player;
                take.take.fingerprint = fmt::format("{}{}", player, n);
                history.enter(take);
                tell();
            }
        };
    };
    Writer anna(writing("Anna"));
    Writer ben(writing("Ben"));
    CHECK(anna.end() == takes / 2);
    CHECK(ben.end() == takes / 2);
    CHECK(anna.went_well());
    CHECK(ben.went_well());
    History history(file);
    CHECK(history.takes().size() == takes);
    CHECK(history.tune("Ben", lantern)->evenings[0].takes == takes / 2);
    CHECK(history.check().empty());
}
