#include "unfinished_names.hpp"

#include <compline/files/file_io.hpp>

#include <unistd.h>

#include <array>
#include <atomic>
#include <cstring>
#include <memory>

namespace compline::files {

namespace {

/// Far more than are written at once. Whoever takes a name out of its place owns it, so that none
/// is freed while the handler of a signal reads it in another thread.
std::array<std::atomic<const char*>, 16> names{};
static_assert(std::atomic<const char*>::is_always_lock_free, "a signal handler may not lock");

}  // namespace

const char* watch_unfinished(const std::filesystem::path& name) {
    const std::size_t size = name.native().size() + 1;
    auto copy = std::make_unique<char[]>(size);
    std::memcpy(copy.get(), name.c_str(), size);
    for (auto& place : names) {
        const char* free = nullptr;
        if (place.compare_exchange_strong(free, copy.get())) return copy.release();
    }
    return nullptr;
}

void forget_unfinished(const char* watched) noexcept {
    if (watched == nullptr) return;
    for (auto& place : names) {
        const char* same = watched;
        if (!place.compare_exchange_strong(same, nullptr)) continue;
        delete[] watched;
        return;
    }
}

void remove_unfinished_files() noexcept {
    for (auto& place : names) {
        if (const char* name = place.exchange(nullptr)) ::unlink(name);
    }
}

}  // namespace compline::files
