#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

namespace compline::midi {

/// Thrown by ByteReader when more is asked for than is there. What that means (a broken file or a
/// recording cut short) only the caller knows, so it never leaves the SMF reader.
struct OutOfBytes {};

/// Reads big-endian numbers from memory, front to back. Positions count from the start of the
/// file, also when only a part of it may be read.
class ByteReader {
  public:
    /// May read bytes `from` up to, not including, `to`.
    ByteReader(std::span<const std::uint8_t> file, std::size_t from, std::size_t to)
        : file_(file), at_(from), to_(to) {}

    [[nodiscard]] std::size_t position() const { return at_; }
    [[nodiscard]] std::size_t left() const { return to_ - at_; }

    std::uint8_t byte() { return take(1)[0]; }
    std::uint32_t number(std::size_t bytes) {
        std::uint32_t value = 0;
        for (const std::uint8_t b : take(bytes)) value = (value << 8U) | b;
        return value;
    }
    std::span<const std::uint8_t> take(std::size_t count) {
        if (count > left()) throw OutOfBytes{};
        at_ += count;
        return file_.subspan(at_ - count, count);
    }
    [[nodiscard]] std::uint8_t peek() const {
        if (left() == 0) throw OutOfBytes{};
        return file_[at_];
    }

  private:
    std::span<const std::uint8_t> file_;
    std::size_t at_;
    std::size_t to_;
};

}  // namespace compline::midi
