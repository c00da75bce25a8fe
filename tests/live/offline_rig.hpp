#pragma once

#include <compline/live/outlet.hpp>
#include <compline/live/rig.hpp>
#include <compline/midi/stream_reader.hpp>
#include <compline/sound/wav.hpp>

#include <readerwriterqueue/readerwriterqueue.h>

#include <array>
#include <atomic>
#include <cstdint>
#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <thread>
#include <vector>

namespace compline::tests {

// A rig without devices: a sound output and a guitar, each with a thread of its own as the device
// libraries have them, and a clock that runs as fast as all threads can follow.
//
// The output's thread moves the clock on; before each block it waits until nobody is far behind.
// That waiting goes by relaxed atomics and naps alone: they order nothing between threads, so the
// thread sanitizer sees every hand-over of the rig's that is not made safe by the rig itself.
// A mutex, or an acquire, would hide just those.

/// What time it is in an offline evening. The threads that follow it say how far they have come.
class OfflineClock : public live::Clock {
  public:
    enum Follower { main_loop, conductor, guitarist, foot };

    [[nodiscard]] time::Instant now() const noexcept override {
        return time::Instant(now_.load(std::memory_order_relaxed));
    }
    /// The conductor's: it has fed all that was due when it last woke up. It sleeps for much less
    /// than it asks for, as it would in a slow world.
    void wait(std::condition_variable& notified, std::unique_lock<std::mutex>& lock,
              time::Seconds at_most) override;

    /// A follower has done all there was to do until then.
    void has_done(Follower who, time::Instant until) noexcept {
        done_[who].store(until.nanoseconds(), std::memory_order_relaxed);
    }
    /// Nobody needs to wait for it any more.
    void leaves(Follower who) noexcept { has_done(who, the_end); }

    // The output's thread's:
    void move_on(time::Instant to) noexcept {
        now_.store(to.nanoseconds(), std::memory_order_relaxed);
    }
    [[nodiscard]] bool all_have_done(time::Instant until) const noexcept;

    static constexpr time::Instant start{987'654'321'012'345};  // eleven days of uptime

  private:
    static constexpr time::Instant the_end{std::numeric_limits<std::int64_t>::max()};

    std::atomic<std::int64_t> now_{start.nanoseconds()};
    std::array<std::atomic<std::int64_t>, 4> done_{start.nanoseconds(), start.nanoseconds(),
                                                   the_end.nanoseconds(), the_end.nanoseconds()};
    time::Instant woke_{start};  // the conductor's thread's, like the next
    int waits_ = 0;
};

/// A sound card that is none. Its thread calls for blocks from the beginning, and goes on when the
/// stream is closed: as those of a server that has died and cannot be stopped.
class OfflineOutput {
  public:
    struct Settings {
        time::SampleRate rate{48000};
        int period = 256;
        time::Seconds latency{0.0125};
        bool wakes_up_late = false;                ///< by up to 3 ms, but for one call in four
        std::optional<time::Frames> falls_silent;  ///< after so many frames were asked for
        std::string last_words;                    ///< which the library says then
        std::optional<time::Frames> loses_sound;   ///< a tenth of a second, once, there
        /// The whole program is stopped there, once, for three seconds; the main loop wakes first.
        std::optional<time::Frames> is_stopped;
        bool refuses_to_start = false;  ///< after the thread has begun to call
        /// A cable from its left side back into it: so many frames later it is heard, a period at
        /// least. None: nothing is heard.
        std::optional<int> wire;
    };
    OfflineOutput(OfflineClock& clock, Settings settings);
    ~OfflineOutput() { stop(); }
    OfflineOutput(const OfflineOutput&) = delete;
    OfflineOutput& operator=(const OfflineOutput&) = delete;

    /// For a rig. The output must outlive it.
    [[nodiscard]] std::unique_ptr<live::AudioStream> stream();

    [[nodiscard]] OfflineClock& clock() { return clock_; }

    /// The output's own number of the first frame of the block that is being made.
    ///
    /// Threads: any
    [[nodiscard]] std::uint32_t device_frame() const noexcept {
        return device_frame_.load(std::memory_order_relaxed);
    }
    /// Its number of the frame at a moment.
    [[nodiscard]] std::uint32_t device_frame_at(time::Instant moment) const;

    /// Ends the thread. Afterwards heard() may be asked for.
    void stop();

    /// All that was played, from the playback's first frame on, and when that was.
    [[nodiscard]] const sound::Stereo& heard() const { return heard_; }
    [[nodiscard]] time::Instant began() const { return began_; }

  private:
    class Stream;

    void run();
    void lose_sound();
    void be_stopped();
    void call();
    [[nodiscard]] const float* heard_by_wire();
    [[nodiscard]] bool wait_for_all() const;
    [[nodiscard]] time::Instant due() const;
    [[nodiscard]] time::Seconds lateness() const;

    OfflineClock& clock_;
    Settings settings_;
    live::Outlet outlet_;
    std::atomic<std::uint32_t> device_frame_;
    std::atomic<int> played_{0};  // blocks
    std::atomic<bool> silent_{false};
    std::atomic<bool> closed_{false};
    std::atomic<bool> ending_{false};
    std::int64_t frame_ = 0;  // the device's; the thread's, like the rest
    bool interrupted_ = false;
    std::vector<float> left_;
    std::vector<float> right_;
    std::vector<float> by_wire_;
    sound::Stereo heard_;
    time::Instant began_;
    std::thread thread_;
};

/// What a guitarist plays: bytes, and when.
struct Sent {
    time::Seconds at;
    std::vector<std::uint8_t> bytes;
};
[[nodiscard]] std::vector<Sent> as_bytes(const std::vector<midi::TimedMessage>& messages);

/// A guitar that plays a script, on a thread of its own; its messages wait in a queue until they
/// are read. It gives moments, or frames of the output, whose clock it then is.
class OfflineGuitar : public listen::MidiSource, public live::DeviceClock {
  public:
    enum class TimedBy { moments, frames };
    /// What it is: a guitar, or a pedal with a port of its own.
    using Who = OfflineClock::Follower;
    /// room: for messages that wait; a little more may find some.
    OfflineGuitar(OfflineOutput& output, TimedBy timed_by, std::size_t room = 1024,
                  Who who = Who::guitarist);
    ~OfflineGuitar() override;

    void read(std::vector<listen::Arrival>& into) override;
    [[nodiscard]] std::uint64_t dropped() const override {
        return dropped_.load(std::memory_order_relaxed);
    }
    [[nodiscard]] std::uint64_t unreadable() const override {
        return unreadable_.load(std::memory_order_relaxed);
    }
    /// Looks for the cable first: one that was put back is listened to again, by a new thread.
    [[nodiscard]] std::string trouble() override;
    [[nodiscard]] std::uint32_t frame() const noexcept override { return output_.device_frame(); }

    // Threads: main only

    /// Plays from now on what a script has behind the present; times count from `zero`.
    void play(std::vector<Sent> script, time::Instant zero);
    /// Plays nothing more. Returns when the thread has stopped; its cable must not be pulled.
    void stop_playing();
    void pull_cable() { plugged_.store(false, std::memory_order_relaxed); }
    void put_cable_back() { plugged_.store(true, std::memory_order_relaxed); }
    /// Of the script.
    [[nodiscard]] std::size_t sent() const { return sent_.load(std::memory_order_relaxed); }

  private:
    struct Script {
        std::vector<Sent> sent;
        time::Instant zero;
        std::size_t next = 0;
        [[nodiscard]] bool has_due(time::Instant now) const {
            return next < sent.size() && zero + sent[next].at <= now;
        }
    };

    void begin();
    void end();
    void run();
    void take_script();
    void play_until(time::Instant now);
    void send(const Sent& sent, time::Instant moment);

    OfflineOutput& output_;
    TimedBy timed_by_;
    Who who_;
    moodycamel::ReaderWriterQueue<listen::Arrival> queue_;
    std::atomic<Script*> new_script_{nullptr};  // from main to the thread
    std::atomic<bool> plugged_{true};
    std::atomic<bool> ending_{false};
    std::atomic<bool> over_{false};  // the thread has seen the cable pulled
    std::atomic<std::size_t> sent_{0};
    std::atomic<std::uint64_t> dropped_{0};
    std::atomic<std::uint64_t> unreadable_{0};
    midi::StreamReader reader_;  // the thread's
    std::unique_ptr<Script> script_;
    std::thread thread_;
};

/// An evening on an offline rig, as the program's main loop goes through it.
class OfflineEvening {
  public:
    struct Settings {
        OfflineOutput::Settings output;
        /// None, where there is a wire: what comes back by it is taken for a guitar's sound.
        std::optional<OfflineGuitar::TimedBy> guitar = OfflineGuitar::TimedBy::frames;
        bool pedal = false;  ///< one with a port of its own, which gives moments
        std::size_t room = 1024;
        std::shared_ptr<const sound::Bank> bank = {};  ///< none: what the players need
        std::optional<time::Seconds> round_trip = {};  ///< measured, in place of the latency
    };
    OfflineEvening(const Settings& settings, const roadmap::RoadMap& map,
                   const band::Players& players = {}, const band::Stage& stage = {});
    /// The rig goes while all its threads are busy.
    ~OfflineEvening() { end(); }
    OfflineEvening(const OfflineEvening&) = delete;
    OfflineEvening& operator=(const OfflineEvening&) = delete;

    /// The band begins, or starts over; the guitarist plays a script to it, and a foot another.
    /// Gives the moment of bar 1 beat 1, as the player hears it.
    time::Instant start(const std::vector<Sent>& script = {}, const std::vector<Sent>& pedal = {});

    /// A turn of the main loop: false when there is trouble, or nothing left to play.
    bool turn();
    /// The main loop is held up until its next turn, and the clock does not wait for it.
    void stand_still() { clock_.leaves(OfflineClock::main_loop); }
    /// Turns until then, in the tune; or as long as there are any.
    void go_on_until(time::Seconds at);
    void go_on() {
        while (turn()) continue;
    }

    [[nodiscard]] live::Rig& rig() { return *rig_; }
    [[nodiscard]] OfflineGuitar& guitar() { return *guitar_; }
    [[nodiscard]] OfflineGuitar& pedal() { return *pedal_; }
    [[nodiscard]] OfflineOutput& output() { return output_; }
    [[nodiscard]] time::Instant now() const { return clock_.now(); }
    [[nodiscard]] const std::string& trouble() const { return trouble_; }
    /// What the main loop was given in its last turn.
    [[nodiscard]] const practice::Played& just_heard() const { return just_heard_; }
    /// What the main loop was given of this take, bit by bit.
    [[nodiscard]] const std::vector<midi::TimedMessage>& news() const { return news_; }

    /// Destroys the rig, then ends the output's thread; see output().heard().
    void end();

  private:
    OfflineClock clock_;
    OfflineOutput output_;
    OfflineGuitar* guitar_ = nullptr;  // the rig's, like the next
    OfflineGuitar* pedal_ = nullptr;
    std::unique_ptr<live::Rig> rig_;
    std::string trouble_;
    std::vector<midi::TimedMessage> news_;
    practice::Played just_heard_;
};

/// Made once for all rigs of a rate, with the sounds that the players need.
[[nodiscard]] std::shared_ptr<const sound::Bank> bank_at(time::SampleRate rate,
                                                         const band::Players& players = {});

}  // namespace compline::tests
