#pragma once

#include "byte_reader.hpp"

#include <compline/midi/smf.hpp>
#include <compline/text/bad_input.hpp>

#include <cstddef>
#include <cstdint>
#include <string>

namespace compline::midi {

/// "found X, expected Y" as text::BadInput.
[[noreturn]] void refuse(std::size_t offset, const std::string& found, const std::string& expected);

/// The events of one track. What is complete is kept as it comes, so that a track that breaks off
/// gives all its whole events.
class TrackReader {
  public:
    explicit TrackReader(ByteReader bytes) : bytes_(bytes), whole_until_(bytes.position()) {}

    /// Reads to the end-of-track event: true when it was there, false when the bytes ran out
    /// before. Throws text::BadInput for bytes that are no event.
    bool read_all();

    /// Where the whole events end.
    [[nodiscard]] std::size_t whole_until() const { return whole_until_; }
    [[nodiscard]] Track& track() { return track_; }

  private:
    bool read_event();
    std::int64_t read_tick();
    Event read_body();
    Message read_message();
    MetaEvent read_meta();
    SystemExclusive read_exclusive();
    std::uint8_t read_data_byte();
    std::uint32_t read_quantity();

    ByteReader bytes_;
    Track track_;
    std::size_t whole_until_;
    std::uint8_t running_status_ = 0;  ///< 0: none
};

}  // namespace compline::midi
