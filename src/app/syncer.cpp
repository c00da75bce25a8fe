#include "syncer.hpp"

#include <compline/files/file_io.hpp>

#include <utility>

namespace compline::app {

Syncer::Syncer(std::function<void()> sync) : sync_(std::move(sync)), thread_([this] { run(); }) {}

Syncer::~Syncer() {
    {
        const std::lock_guard lock(mutex_);
        ending_ = true;
    }
    changed_.notify_one();
    thread_.join();
}

void Syncer::ask() {
    {
        const std::lock_guard lock(mutex_);
        asked_ = true;
    }
    changed_.notify_one();
}

std::string Syncer::complaint() const {
    const std::lock_guard lock(mutex_);
    return complaint_;
}

void Syncer::run() {
    while (wait_until_asked()) {
        try {
            sync_();
        } catch (const files::FileError& error) {
            const std::lock_guard lock(mutex_);
            complaint_ = error.what();
        }
    }
}

/// False when there is nothing more to do.
bool Syncer::wait_until_asked() {
    std::unique_lock lock(mutex_);
    changed_.wait(lock, [this] { return asked_ || ending_; });
    return std::exchange(asked_, false) && !ending_;
}

}  // namespace compline::app
