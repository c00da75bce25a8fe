// Any bytes: the reader says no with a place inside the data, or gives a file that is written and
// read back the same, and whose recording runs forward in finite time.

#include <compline/midi/smf.hpp>
#include <compline/text/bad_input.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <span>

using namespace compline;

namespace {

void require(bool fine) {
    if (!fine) std::abort();
}

void check_round_trip(const midi::ReadFile& read, std::span<const std::uint8_t> bytes) {
    require(!read.cut_at || *read.cut_at <= bytes.size());
    const auto written = midi::write_smf(read.file);
    const midi::ReadFile again = midi::read_smf(written);
    require(!again.cut_at && again.file == read.file);
    require(midi::write_smf(again.file) == written);
}

void check_recording(const midi::File& file) {
    const midi::Recording recording = midi::flatten(file);
    double before = 0;
    for (const auto& timed : recording.messages) {
        require(std::isfinite(timed.at.count()) && timed.at.count() >= before);
        before = timed.at.count();
    }
    require(std::isfinite(recording.length.count()) && recording.length.count() >= before);
}

}  // namespace

// libFuzzer calls it by this name. NOLINTNEXTLINE(readability-identifier-naming)
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::span<const std::uint8_t> bytes(data, size);
    try {
        const midi::ReadFile read = midi::read_smf(bytes);
        check_round_trip(read, bytes);
        const bool patterns = read.file.format == 2 && read.file.tracks.size() > 1;
        if (!patterns) check_recording(read.file);
    } catch (const text::BadInput& error) {
        require(error.offset() <= size);
    }
    return 0;
}
