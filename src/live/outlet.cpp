#include <compline/live/outlet.hpp>

#include <thread>

namespace compline::live {

void Outlet::pull() noexcept {
    task_.store(nullptr);
    while (in_use_.load()) std::this_thread::yield();
}

bool Outlet::run(const AudioTask::Block& block) noexcept {
    in_use_.store(true);
    AudioTask* const task = task_.load();
    if (task != nullptr) task->run(block);
    in_use_.store(false);
    return task != nullptr;
}

}  // namespace compline::live
