#pragma once

#include <cstdint>

namespace compline::tests {

/// While it lives, SQLite may write so many bytes, and then the disk is full.
class FullDisk {
  public:
    explicit FullDisk(std::int64_t bytes_left);
    ~FullDisk();
    FullDisk(const FullDisk&) = delete;
    FullDisk& operator=(const FullDisk&) = delete;
};

}  // namespace compline::tests
