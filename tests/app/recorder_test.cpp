// The take's file while music is played: how much of it a power cut may cost, and what a slow or
// broken disk does to it.

#include "../../src/app/recorder.hpp"

#include "../../src/app/evening.hpp"
#include "app/program.hpp"
#include "support/bent_system.hpp"

#include <compline/midi/smf.hpp>

#include <sys/resource.h>

#include <cerrno>
#include <condition_variable>
#include <csignal>
#include <fstream>
#include <mutex>

using namespace compline;
using namespace compline::tests;
using time::Seconds;

namespace {

app::AskedEvening an_evening(const std::filesystem::path& take) {
    auto chart = app::load_chart_file(blues());
    auto asked = roadmap::Asked::of(chart.form.whole(), 1);
    asked.tempo = time::Bpm(120);
    asked.count_in_bars = 1;  // two seconds
    app::AskedEvening evening(roadmap::RoadMap(std::move(chart.form), asked));
    evening.chart_text = std::move(chart.text);
    evening.take = take;
    return evening;
}

constexpr Seconds lead{2};

practice::Played note_at(Seconds at) { return {{{at, midi::note_on(1, 60, 80)}}, {}}; }

practice::Opening opening(const app::AskedEvening& evening) {
    auto info = app::opening_of(evening);
    info.asked = evening.map.settled();
    return {info, evening.map};
}

app::Recorder recorder_of(const app::AskedEvening& evening) {
    return {evening.take, opening(evening)};
}

practice::Take ended(const app::AskedEvening& evening, const practice::Played& played,
                     Seconds end) {
    auto info = opening(evening).info;
    info.ended = true;
    return {played.messages, played.interruptions, std::move(info), end};
}

/// Times at which the main loop adds nothing, a hundredth of a second apart.
void add_until(app::Recorder& recorder, Seconds from, Seconds to) {
    for (Seconds now = from; now < to; now = now + Seconds(0.01)) recorder.add({}, {}, now);
}

std::size_t notes_in(const std::filesystem::path& path) {
    return practice::read_take(midi::read_smf(files::load_bytes(path)).file).messages.size();
}

/// Holds up whoever forces something to the disk until it is let go, or gives an error.
class Disk {
  public:
    explicit Disk(bool is_stuck, int error = 0) : is_stuck_(is_stuck), error_(error) {}

    int sync() {
        std::unique_lock lock(mutex_);
        ++begun_;
        changed_.notify_all();
        changed_.wait(lock, [this] { return !is_stuck_; });
        return error_;
    }
    void wait_until_begun(int times) {
        std::unique_lock lock(mutex_);
        changed_.wait(lock, [&] { return begun_ >= times; });
    }
    [[nodiscard]] int begun() const {
        const std::lock_guard lock(mutex_);
        return begun_;
    }
    void let_go() {
        const std::lock_guard lock(mutex_);
        is_stuck_ = false;
        changed_.notify_all();
    }

  private:
    mutable std::mutex mutex_;
    std::condition_variable changed_;
    bool is_stuck_;
    int error_;
    int begun_ = 0;
};

/// No file of this process may grow, as on a full disk.
class NoRoom {
  public:
    NoRoom() : before_(std::signal(SIGXFSZ, SIG_IGN)) {
        ::getrlimit(RLIMIT_FSIZE, &room_);
        const rlimit none{0, room_.rlim_max};
        ::setrlimit(RLIMIT_FSIZE, &none);
    }
    ~NoRoom() {
        ::setrlimit(RLIMIT_FSIZE, &room_);
        std::signal(SIGXFSZ, before_);
    }
    NoRoom(const NoRoom&) = delete;
    NoRoom& operator=(const NoRoom&) = delete;

  private:
    void (*before_)(int);
    rlimit room_{};
};

}  // namespace

TEST_CASE("a take that is over is of the evening on which it began", "[app]") {
    const TemporaryFolder folder;
    const auto evening = an_evening(folder.file("take.mid"));
    auto begun = opening(evening);
    begun.info.made = "2026-11-03T20:00:00+01:00";
    app::Recorder recorder(evening.take, begun);
    const auto note = note_at(Seconds(1));
    recorder.add(note, {}, Seconds(1));
    CHECK(recorder.finish(ended(evening, note, Seconds(2))).info->made == begun.info.made);
    const auto file = midi::read_smf(files::load_bytes(folder.file("take.mid"))).file;
    CHECK(practice::read_take(file).info->made == begun.info.made);
}

TEST_CASE("a take remembers what it is to be judged against") {
    const TemporaryFolder folder;
    auto evening = an_evening(folder.file("take.mid"));
    CHECK(app::opening_of(evening).settings.against == assess::Against::own);
    evening.rules.against = assess::Against::beat;
    CHECK(app::opening_of(evening).settings.against == assess::Against::beat);
}

TEST_CASE("a take is forced to the disk once a second, and a slow disk holds nobody up") {
    const TemporaryFolder folder;
    const auto path = folder.file("take.mid");
    const auto evening = an_evening(path);
    auto recorder = recorder_of(evening);
    Disk disk(true);
    const OnSync watch([&](int) { return disk.sync(); });
    add_until(recorder, -lead, Seconds(-1.001));
    CHECK(disk.begun() == 0);
    recorder.add({}, {}, Seconds(-1));
    disk.wait_until_begun(1);
    // It is stuck; the music goes on for five seconds.
    for (const double at : {1.0, 2.0, 3.0}) recorder.add(note_at(Seconds(at)), {}, Seconds(at));
    add_until(recorder, Seconds(3), Seconds(4));
    CHECK(notes_in(path) == 3);
    CHECK(disk.begun() == 1);
    CHECK(recorder.complaint().empty());
    // What was played meanwhile is forced to the disk as soon as it can be.
    disk.let_go();
    disk.wait_until_begun(2);
    recorder.add(note_at(Seconds(5)), {}, Seconds(5));
    disk.wait_until_begun(3);
    const auto take = recorder.finish(ended(evening, note_at(Seconds(1)), Seconds(6)));
    CHECK(take.messages.size() == 1);
    CHECK(notes_in(path) == 1);
}

TEST_CASE(
    "a disk that fails while a take is forced to it is reported, and the take is tried again") {
    const TemporaryFolder folder;
    const auto path = folder.file("take.mid");
    const auto evening = an_evening(path);
    auto recorder = recorder_of(evening);
    {
        Disk disk(false, EIO);
        const OnSync watch([&](int) { return disk.sync(); });
        recorder.add({}, {}, Seconds(-1));
        disk.wait_until_begun(1);
        recorder.add({}, {}, Seconds(0));
        disk.wait_until_begun(2);  // the first failure is over
        recorder.add(note_at(Seconds(0.5)), {}, Seconds(0.5));
        CHECK(recorder.complaint() == path.string() + ": cannot be written: Input/output error");
        // What the system takes is written all the same.
        recorder.add(note_at(Seconds(0.75)), {}, Seconds(0.75));
        CHECK(notes_in(path) == 2);
        (void)recorder.finish(ended(evening, note_at(Seconds(0.5)), Seconds(1)));
        CHECK(recorder.complaint() == path.string() + ": cannot be written: Input/output error");
    }
    recorder.start_over(opening(evening));
    CHECK(recorder.complaint().empty());
    (void)recorder.finish(ended(evening, note_at(Seconds(0.5)), Seconds(1)));
    CHECK(recorder.complaint().empty());
    CHECK(notes_in(recorder.path()) == 1);
}

TEST_CASE("a disk that is full at the start leaves no empty take, and takes nothing away") {
    const TemporaryFolder folder;
    const auto path = folder.file("take.mid");
    const auto evening = an_evening(path);
    const NoRoom full;
    CHECK_THROWS_AS((void)recorder_of(evening), files::FileError);
    CHECK_FALSE(std::filesystem::exists(path));
    const std::ofstream others(path);  // an empty file needs no room
    CHECK_THROWS_AS((void)recorder_of(evening), files::AlreadyThere);
    CHECK(std::filesystem::exists(path));
}

TEST_CASE("a take whose name was given to another file gets the next name") {
    const TemporaryFolder folder;
    const auto path = folder.file("take.mid");
    const auto evening = an_evening(path);
    auto recorder = recorder_of(evening);
    std::filesystem::remove(path);
    files::save_text(path, "somebody else's", files::Existing::keep);
    text_file(folder, "take-2.mid", "the same");
    (void)recorder.finish(ended(evening, note_at(Seconds(0.5)), Seconds(1)));
    CHECK(recorder.complaint().empty());
    CHECK(recorder.path() == folder.file("take-3.mid"));
    CHECK(notes_in(recorder.path()) == 1);
    CHECK(files::load_text(path) == "somebody else's");
    CHECK(std::filesystem::status(recorder.path()).permissions() ==
          (std::filesystem::perms::owner_read | std::filesystem::perms::owner_write));
}
