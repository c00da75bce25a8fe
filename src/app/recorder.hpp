#pragma once

#include "evening.hpp"
#include "syncer.hpp"

#include <compline/practice/session.hpp>
#include <compline/practice/take_file.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace compline::app {

/// Keeps the take of each run of a session: in a file from the start, and whole at the end. Once a
/// second the file is forced to the disk, so that a power cut costs no more than that. A disk that
/// fails does not stop the music: the take stays in memory, and is tried again at the end.
///
/// Threads: one calls; a second, the recorder's own, does nothing but force the file to the disk.
class Recorder {
  public:
    /// Makes the first run's file. Throws BadInput or files::FileError when that cannot be.
    explicit Recorder(const Evening& evening);

    /// What is new, and how far the player was listened to.
    void add(const practice::Played& news, time::Seconds now);

    /// The run is over: the whole take, as it is in the file then, or would be (see complaint()). A
    /// file among the player's takes in which nothing was played is removed.
    practice::Take finish(const practice::Played& played, int times_through,
                          const practice::Machine& machine, time::Seconds end);
    /// The next run, in another file.
    void start_over();

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    /// Nothing was played, and so nothing was kept.
    [[nodiscard]] bool is_empty() const { return !kept_; }
    /// Why the file cannot be written at the moment; empty when it can.
    [[nodiscard]] const std::string& complaint() const { return complaint_; }

  private:
    void open();
    void append(const practice::Played& news, time::Seconds now);
    void sync(time::Seconds now);
    void go_to_free_name();
    [[nodiscard]] std::vector<std::uint8_t> write(const practice::Take& take);
    [[nodiscard]] std::vector<std::uint8_t> write_elsewhere(const practice::Take& take);
    [[nodiscard]] std::vector<std::uint8_t> bytes_of(const practice::Take& take) const;

    const Evening& evening_;
    std::filesystem::path first_path_;
    std::filesystem::path path_;
    int run_ = 1;
    practice::TakeInfo info_;  ///< of this run
    std::optional<practice::TakeFile> file_;
    std::optional<Syncer> syncer_;  ///< of that file, which it must not outlive
    time::Seconds written_until_{-1e9};
    time::Seconds synced_{-1e9};
    bool half_written_ = false;
    std::string complaint_;
    bool kept_ = true;
};

/// What a take of this evening says of its making, as far as it is known at the beginning.
[[nodiscard]] practice::TakeInfo take_info(const Evening& evening);

/// What was played until the end of a run; `map`: as far as it was gone.
[[nodiscard]] practice::Take ended_take(practice::TakeInfo info, const roadmap::RoadMap& map,
                                        const practice::Played& played, time::Seconds end);

}  // namespace compline::app
