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
#include <string>
#include <vector>

namespace compline::live {

/// A port opened through RtMidi. With a callback nothing is lost (its own queue keeps the oldest 99
/// messages and drops the newest). One writer, the library's thread, and one reader. A port that
/// was away is opened anew, with a thread and a clock of its own; the one before has ended by then.
class RtMidiSource : public listen::MidiSource {
  public:
    /// `port`: what ours is called.
    RtMidiSource(const MidiInput& input, std::string port);
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
    void look_around();
    void open(const std::string& name);
    void open_again(const std::string& name);
    void hand_over(std::vector<listen::Arrival>& into);
    void take(time::Instant moment, double delta, std::span<const unsigned char> bytes);
    void put(Raw raw);

    MidiInput input_;
    std::string port_;
    std::string opened_;               ///< by this name
    std::vector<std::string> others_;  ///< that were there when it was seen to be away
    bool away_ = false;
    std::vector<listen::Arrival> before_;  ///< it was away: what had come and was not read
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
