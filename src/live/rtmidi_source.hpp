#pragma once

#include <compline/listen/midi_source.hpp>
#include <compline/live/devices.hpp>
#include <compline/midi/stream_reader.hpp>
#include <compline/time/delta_clock.hpp>

#include <RtMidi.h>
#include <readerwriterqueue/readerwriterqueue.h>

#include <atomic>
#include <memory>
#include <optional>
#include <span>

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
    [[nodiscard]] std::uint64_t unreadable() const override {
        return unreadable_.load(std::memory_order_relaxed);
    }
    [[nodiscard]] std::string trouble() override;

  private:
    /// What came, and how long after what came before.
    struct Raw {
        time::Instant moment;
        double delta = 0;
        std::optional<midi::Message> message;  ///< none: the clock's alone
    };

    static void callback(double delta, std::vector<unsigned char>* bytes, void* source);
    static void keep_complaint(RtMidiError::Type type, const std::string& text, void* source);
    std::optional<unsigned> number_of_port();
    void take(time::Instant moment, double delta, std::span<const unsigned char> bytes);
    void put(Raw raw);

    MidiInput input_;
    bool in_cycles_;
    std::unique_ptr<RtMidiIn> midi_;
    midi::StreamReader reader_;  // the library's thread's, like the next
    double owed_ = 0;
    moodycamel::ReaderWriterQueue<Raw> queue_;
    std::atomic<std::uint64_t> dropped_{0};
    std::atomic<std::uint64_t> unreadable_{0};
    time::DeltaClock clock_;  // the reader's
};

}  // namespace compline::live
