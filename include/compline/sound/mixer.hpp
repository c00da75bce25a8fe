#pragma once

#include <compline/sound/bank.hpp>
#include <compline/sound/cue.hpp>
#include <compline/time/units.hpp>

#include <array>
#include <atomic>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <memory>

namespace compline::sound {

class WaitingCues;

/// Plays cues at exact frames. A fixed pool of voices; cues come by a queue with one writer (the
/// band's thread) and one reader (the audio thread).
///
/// The samples do not depend on the sizes of the blocks: a block is split where a cue starts, fades
/// are computed from the frame they are at, and voices are summed in one order.
///
/// A cue whose frame has passed before the mixer saw it is skipped and counted: a stroke out of
/// time teaches wrong time, and several at once would be a bang. A cue that finds no free voice
/// takes that of the oldest, which is counted as well.
class Mixer {
  public:
    /// A drummer who plays all he has at 400 bpm, crash and fill in every bar, has 38 sounds
    /// ringing at once with the bass; a trio at 240 bpm has 25 (counted from the lengths of the
    /// sounds).
    static constexpr std::size_t voice_count = 48;
    static constexpr std::size_t default_queue = 1024;

    /// The bank is read while the mixer lives, and must outlive it.
    explicit Mixer(const Bank& bank, std::size_t queue = default_queue);
    ~Mixer();
    Mixer(const Mixer&) = delete;
    Mixer& operator=(const Mixer&) = delete;

    /// Hands a cue over; false (and counted as dropped) when the queue is full. Cues must come in
    /// order of `at`: one that waits behind a later one is late by then.
    ///
    /// Threads: writer only
    /// Real-time: yes
    bool push(const Cue& cue) noexcept;

    /// Lets nothing of what was pushed so far be heard any more: cues that wait are forgotten (and
    /// not counted), sounds fade within a release. Cues pushed afterwards start a new order of
    /// time.
    ///
    /// Threads: writer only
    /// Real-time: yes
    void start_over() noexcept;

    /// Lets nothing of what was pushed so far begin at this frame or after it: cues that wait there
    /// are forgotten (and not counted), those before it are still played, what sounds goes on. Cues
    /// pushed afterwards start a new order of time, from that frame on.
    ///
    /// One replacement at a time: false, and nothing happens, until the reader has taken the one
    /// before, which it does with its next block.
    ///
    /// Threads: writer only
    /// Real-time: yes
    [[nodiscard]] bool replace_from(time::Frames frame) noexcept;

    /// Fills `left` and `right` with the frames first ... first + frames - 1. Frames never go
    /// back; a gap between blocks is a gap in the sound.
    ///
    /// Threads: audio only
    /// Real-time: yes
    void render(time::Frames first, float* left, float* right, int frames) noexcept;

    /// What went wrong since the start.
    struct Counts {
        std::uint64_t dropped = 0;  ///< cues that the queue had no room for
        std::uint64_t late = 0;     ///< cues skipped, their frame had passed
        std::uint64_t stolen = 0;   ///< sounds cut off for a newer one
        bool operator==(const Counts&) const = default;
    };

    /// Threads: any
    /// Real-time: yes
    [[nodiscard]] Counts counts() const noexcept;

  private:
    struct Voice {
        static constexpr auto long_ago = std::numeric_limits<std::int64_t>::min();
        const float* samples = nullptr;
        std::int64_t start = long_ago;  // frame of its first sample
        std::int64_t stop = long_ago;   // frame where the release begins
        std::int64_t end = long_ago;    // first frame of silence: the voice is free
        float left = 0;
        float right = 0;
    };

    void forget_old(std::int64_t frame) noexcept;
    void take_in() noexcept;
    void take_replacement() noexcept;
    void start_due(std::int64_t frame) noexcept;
    void start(const Cue& cue) noexcept;
    Voice& free_voice(std::int64_t frame) noexcept;
    [[nodiscard]] std::int64_t next_start(std::int64_t otherwise) const noexcept;
    void mix(const Voice& voice, std::int64_t from, std::int64_t to, float* left,
             float* right) const noexcept;

    const Bank& bank_;
    std::int64_t release_frames_;
    std::array<Voice, voice_count> voices_{};
    struct Queue;  // one reader, one writer
    std::unique_ptr<Queue> queue_;
    std::unique_ptr<WaitingCues> waiting_;  // the reader's: what it has taken out of the queue
    // Counted up by the writer at each start over, and at each replacement.
    std::atomic<std::uint32_t> run_{0};
    std::atomic<std::uint32_t> replacements_{0};
    time::Frames replaced_from_;  // the writer's, until it has counted the replacement
    std::atomic<std::uint32_t> replacements_done_{0};  // the reader says so
    std::uint32_t playing_run_ = 0;                    // the reader's, like the next
    std::uint32_t replacements_taken_ = 0;
    static_assert(std::atomic<std::uint32_t>::is_always_lock_free);
    static_assert(std::atomic<std::uint64_t>::is_always_lock_free);
    std::atomic<std::uint64_t> dropped_{0};
    std::atomic<std::uint64_t> late_{0};
    std::atomic<std::uint64_t> stolen_{0};
};

}  // namespace compline::sound
