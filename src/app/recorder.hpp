#pragma once

#include "syncer.hpp"

#include <compline/practice/evening.hpp>
#include <compline/practice/take_file.hpp>

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace compline::app {

/// Keeps the takes of an evening: each in a file from its start, and whole at its end. Once a
/// second the file is forced to the disk, so that a power cut costs no more than that. A disk that
/// fails does not stop the music: the take stays in memory, and is tried again at the end.
///
/// Threads: one calls; a second, the recorder's own, does nothing but force the file to the disk.
class Recorder {
  public:
    /// Makes the first take's file; `wished`: where the player wants it, else it is among the
    /// player's takes. Throws BadInput or files::FileError when that cannot be.
    Recorder(const std::optional<std::filesystem::path>& wished, const practice::Opening& opening);

    /// What is new, what was decided, and how far the player was listened to.
    void add(const practice::Played& news, const std::vector<practice::TimedDecision>& decided,
             time::Seconds now);

    /// The take is over: as it is in the file then, or would be (see complaint()), with the date of
    /// its opening. A file among the player's takes in which nothing was played is removed.
    practice::Take finish(practice::Take take);
    /// The next take, in another file.
    void start_over(const practice::Opening& opening);

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    /// Nothing was played, and so nothing was kept.
    [[nodiscard]] bool is_empty() const { return !kept_; }
    /// Why the file cannot be written at the moment; empty when it can.
    [[nodiscard]] const std::string& complaint() const { return complaint_; }

  private:
    void open();
    void append(const practice::Played& news, const std::vector<practice::TimedDecision>& decided,
                time::Seconds now);
    void sync(time::Seconds now);
    void go_to_free_name();
    [[nodiscard]] std::vector<std::uint8_t> write(const practice::Take& take);
    [[nodiscard]] std::vector<std::uint8_t> write_elsewhere(const practice::Take& take);
    [[nodiscard]] std::vector<std::uint8_t> bytes_of(const practice::Take& take) const;

    practice::Opening opening_;
    bool is_wished_;  ///< the player said where
    std::filesystem::path first_path_;
    std::filesystem::path path_;
    int run_ = 1;
    std::optional<practice::TakeFile> file_;
    std::optional<Syncer> syncer_;  ///< of that file, which it must not outlive
    time::Seconds written_until_{-1e9};
    time::Seconds synced_{-1e9};
    bool half_written_ = false;
    std::string complaint_;
    bool kept_ = true;
};

}  // namespace compline::app
