#pragma once

#include <compline/listen/midi_source.hpp>
#include <compline/live/devices.hpp>
#include <compline/time/delta_clock.hpp>

#include <RtMidi.h>
#include <readerwriterqueue/readerwriterqueue.h>

#include <atomic>
#include <memory>
#include <optional>

namespace compline::live {

/// A port opened through RtMidi. With a callback nothing is lost (its own queue keeps the oldest 99
/// messages and drops the newest). One writer, the library's thread, and one reader.
class RtMidiSource : public listen::MidiSource {
  public:
    explicit RtMidiSource(const MidiInput& input);
    ~RtMidiSource() override;

    void read(std::vector<listen::Arrival>& into) override;
    [[nodiscard]] std::uint64_t dropped() const override {
        return dropped_.load(std::memory_order_relaxed);
    }
    [[nodiscard]] std::string trouble() override;

  private:
    struct Raw {
        time::Instant moment;
        double delta = 0;
        midi::Message message;
    };

    static void callback(double delta, std::vector<unsigned char>* bytes, void* source);
    static void keep_complaint(RtMidiError::Type type, const std::string& text, void* source);
    std::optional<unsigned> number_of_port();

    MidiInput input_;
    bool in_cycles_;
    std::unique_ptr<RtMidiIn> midi_;
    moodycamel::ReaderWriterQueue<Raw> queue_;
    std::atomic<std::uint64_t> dropped_{0};
    time::DeltaClock clock_;  // the reader's
};

}  // namespace compline::live
