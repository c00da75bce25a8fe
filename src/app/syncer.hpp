#pragma once

#include <condition_variable>
#include <functional>
#include <mutex>
#include <string>
#include <thread>

namespace compline::app {

/// Forces a file to the disk now and then, in a thread of its own: a slow disk may take seconds for
/// it, and whoever plays and listens shall not wait.
///
/// Threads: one asks and reads the complaint; `sync` is called in the syncer's own.
class Syncer {
  public:
    /// sync: what is to be done; files::FileError from it is the complaint.
    explicit Syncer(std::function<void()> sync);
    /// Waits for what was begun.
    ~Syncer();
    Syncer(const Syncer&) = delete;
    Syncer& operator=(const Syncer&) = delete;

    /// Once more, as soon as the last time is over. Never waits.
    void ask();
    /// Why it failed; empty as long as it did not.
    [[nodiscard]] std::string complaint() const;

  private:
    void run();
    [[nodiscard]] bool wait_until_asked();

    std::function<void()> sync_;
    mutable std::mutex mutex_;  ///< for all that follows; never held while syncing
    std::condition_variable changed_;
    bool asked_ = false;
    bool ending_ = false;
    std::string complaint_;
    std::thread thread_;
};

}  // namespace compline::app
