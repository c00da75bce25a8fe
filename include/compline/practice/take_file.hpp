#pragma once

#include <compline/files/file_io.hpp>
#include <compline/practice/take.hpp>

#include <cstdint>
#include <filesystem>
#include <vector>

namespace compline::practice {

/// The beginning of a take that is still being played: as much as is known of it then.
struct Opening {
    TakeInfo info;
    roadmap::RoadMap map;
};

/// Writes a take as it is played, so that it survives to its last second whatever ends the program.
/// Until finish() the file has no end, and says so to a reader (midi::ReadFile::cut_at). All calls
/// throw files::FileError.
class TakeFile {
  public:
    /// Makes the file; one that is there already is not touched. Where its beginning cannot be
    /// written (disk full) nothing is left of it.
    TakeFile(const std::filesystem::path& path, Opening opening, files::Access access);

    // In order of time; what comes earlier than the last is put beside it.
    void add(const midi::TimedMessage& timed);
    void add(const TimedDecision& decided);
    void add_interruption(time::Seconds at);
    void add(const listen::CableEvent& event);
    /// From a pedal's own port: put beside what came last, so that it moves nothing of the guitar's
    /// that is timed later.
    void add_pedal(const midi::TimedMessage& timed);
    /// Nothing was played until here: how far the recording goes.
    void listened_until(time::Seconds at);

    /// What was added is on the disk when it returns, which may take a while.
    /// Threads: any, beside one that adds.
    void sync() const { file_.sync(); }

    /// Puts the whole take in place of what was written so far, and gives its bytes. Throws
    /// files::AlreadyThere when another file has come to its place.
    std::vector<std::uint8_t> finish(const Take& take);

    [[nodiscard]] const std::filesystem::path& path() const { return file_.path(); }

  private:
    void append(time::Seconds at, const midi::Event& event);

    Opening opening_;
    files::Access access_;
    files::GrowingFile file_;
    std::int64_t tick_ = 0;
    time::Seconds last_{-1e9};
};

}  // namespace compline::practice
