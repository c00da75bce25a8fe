#include "realtime/forbidden.hpp"

#include <dlfcn.h>
#include <pthread.h>
#include <semaphore.h>
#include <sys/syscall.h>
#include <sys/uio.h>
#include <unistd.h>

#include <cerrno>
#include <cstddef>

// The functions below stand in front of the C library's: this program exports them, so libstdc++,
// libsndfile and all others are bound to them as well. glibc only (2.34 and newer: one library).

namespace compline::tests {

namespace {

// Plain data in the program's own thread-local block: touching it calls nothing.
thread_local bool guarded = false;
thread_local int allocations = 0;
thread_local int releases = 0;
thread_local int locks = 0;
thread_local int conditions = 0;
thread_local int writes = 0;

inline void note(int& counter) {
    if (guarded) ++counter;
}

/// The function that ours hides. Looked up outside the guard's count: dlsym may lock and allocate.
/// Conditions have two versions on some machines, and the older one is another type.
template <typename Function>
Function* hidden(const char* name, bool condition = false) {
    const bool was_guarded = guarded;
    guarded = false;
    void* found = condition ? ::dlvsym(RTLD_NEXT, name, "GLIBC_2.3.2") : nullptr;
    if (found == nullptr) found = ::dlsym(RTLD_NEXT, name);
    guarded = was_guarded;
    return reinterpret_cast<Function*>(found);
}

}  // namespace

std::string Forbidden::text() const {
    return "allocations " + std::to_string(allocations) + ", releases " + std::to_string(releases) +
           ", locks " + std::to_string(locks) + ", conditions " + std::to_string(conditions) +
           ", writes " + std::to_string(writes);
}

RealtimeGuard::RealtimeGuard() { guarded = true; }
RealtimeGuard::~RealtimeGuard() { guarded = false; }

Forbidden take_forbidden() {
    const Forbidden taken{allocations, releases, locks, conditions, writes};
    allocations = releases = locks = conditions = writes = 0;
    return taken;
}

}  // namespace compline::tests

using namespace compline::tests;

// The names are glibc's; its headers give its parameters names that are reserved for it.
// NOLINTBEGIN(bugprone-reserved-identifier,readability-identifier-naming)
// NOLINTBEGIN(readability-inconsistent-declaration-parameter-name)
extern "C" {

// glibc's own names for its allocator: no lookup, which would allocate before there is a malloc.
void* __libc_malloc(std::size_t size);
void* __libc_calloc(std::size_t count, std::size_t size);
void* __libc_realloc(void* block, std::size_t size);
void* __libc_memalign(std::size_t alignment, std::size_t size);
void __libc_free(void* block);

void* malloc(std::size_t size) noexcept {
    note(allocations);
    return __libc_malloc(size);
}
void* calloc(std::size_t count, std::size_t size) noexcept {
    note(allocations);
    return __libc_calloc(count, size);
}
void* realloc(void* block, std::size_t size) noexcept {
    note(allocations);
    return __libc_realloc(block, size);
}
void* memalign(std::size_t alignment, std::size_t size) noexcept {
    note(allocations);
    return __libc_memalign(alignment, size);
}
void* aligned_alloc(std::size_t alignment, std::size_t size) noexcept {
    note(allocations);
    return __libc_memalign(alignment, size);
}
int posix_memalign(void** block, std::size_t alignment, std::size_t size) noexcept {
    note(allocations);
    *block = __libc_memalign(alignment, size);
    return *block == nullptr ? ENOMEM : 0;
}
void free(void* block) noexcept {
    if (block != nullptr) note(releases);
    __libc_free(block);
}

int pthread_mutex_lock(pthread_mutex_t* mutex) noexcept {
    note(locks);
    static const auto real = hidden<int(pthread_mutex_t*)>("pthread_mutex_lock");
    return real(mutex);
}
int pthread_mutex_trylock(pthread_mutex_t* mutex) noexcept {
    note(locks);
    static const auto real = hidden<int(pthread_mutex_t*)>("pthread_mutex_trylock");
    return real(mutex);
}
int pthread_mutex_unlock(pthread_mutex_t* mutex) noexcept {
    note(locks);
    static const auto real = hidden<int(pthread_mutex_t*)>("pthread_mutex_unlock");
    return real(mutex);
}
int pthread_rwlock_rdlock(pthread_rwlock_t* lock) noexcept {
    note(locks);
    static const auto real = hidden<int(pthread_rwlock_t*)>("pthread_rwlock_rdlock");
    return real(lock);
}
int pthread_rwlock_wrlock(pthread_rwlock_t* lock) noexcept {
    note(locks);
    static const auto real = hidden<int(pthread_rwlock_t*)>("pthread_rwlock_wrlock");
    return real(lock);
}
int pthread_spin_lock(pthread_spinlock_t* lock) noexcept {
    note(locks);
    static const auto real = hidden<int(pthread_spinlock_t*)>("pthread_spin_lock");
    return real(lock);
}

int pthread_cond_wait(pthread_cond_t* condition, pthread_mutex_t* mutex) {
    note(conditions);
    static const auto real =
        hidden<int(pthread_cond_t*, pthread_mutex_t*)>("pthread_cond_wait", true);
    return real(condition, mutex);
}
int pthread_cond_timedwait(pthread_cond_t* condition, pthread_mutex_t* mutex,
                           const struct timespec* until) {
    note(conditions);
    static const auto real = hidden<int(pthread_cond_t*, pthread_mutex_t*, const struct timespec*)>(
        "pthread_cond_timedwait", true);
    return real(condition, mutex, until);
}
int pthread_cond_signal(pthread_cond_t* condition) noexcept {
    note(conditions);
    static const auto real = hidden<int(pthread_cond_t*)>("pthread_cond_signal", true);
    return real(condition);
}
int pthread_cond_broadcast(pthread_cond_t* condition) noexcept {
    note(conditions);
    static const auto real = hidden<int(pthread_cond_t*)>("pthread_cond_broadcast", true);
    return real(condition);
}
int sem_wait(sem_t* semaphore) {
    note(conditions);
    static const auto real = hidden<int(sem_t*)>("sem_wait");
    return real(semaphore);
}
int sem_post(sem_t* semaphore) noexcept {
    note(conditions);
    static const auto real = hidden<int(sem_t*)>("sem_post");
    return real(semaphore);
}

ssize_t write(int file, const void* bytes, std::size_t count) {
    note(writes);
    return ::syscall(SYS_write, file, bytes, count);
}
ssize_t writev(int file, const struct iovec* blocks, int count) {
    note(writes);
    return ::syscall(SYS_writev, file, blocks, count);
}

}  // extern "C"
// NOLINTEND(readability-inconsistent-declaration-parameter-name)
// NOLINTEND(bugprone-reserved-identifier,readability-identifier-naming)
