#pragma once

#include <functional>

// Calls of the system that a test can bend: in this program they are ours, and what is tested does
// not know.

namespace compline::tests {

/// While it lives, link() fails as on a file system without links; with Renames::plainly, that of
/// renameat2() which never overwrites fails too, as on an old one.
class NoLinks {
  public:
    enum class Renames { without_overwriting, plainly };
    explicit NoLinks(Renames renames);
    ~NoLinks();
    NoLinks(const NoLinks&) = delete;
    NoLinks& operator=(const NoLinks&) = delete;
};

/// While it lives, whatever is forced to the disk calls this first, in whichever thread: with the
/// descriptor, by fsync() and fdatasync(). Gives an error number, 0 for none.
class OnSync {
  public:
    explicit OnSync(std::function<int(int descriptor)> call);
    ~OnSync();
    OnSync(const OnSync&) = delete;
    OnSync& operator=(const OnSync&) = delete;
};

}  // namespace compline::tests
