#pragma once

namespace compline::live {

/// What is done in the audio callback, a block at a time.
class AudioTask {
  public:
    AudioTask() = default;
    virtual ~AudioTask() = default;
    AudioTask(const AudioTask&) = delete;
    AudioTask& operator=(const AudioTask&) = delete;

    /// One call of the device: what to make, and what was heard meanwhile.
    struct Block {
        float* left = nullptr;
        float* right = nullptr;
        int frames = 0;
        const float* heard = nullptr;  ///< as many frames; null where nothing is listened to
        int heard_ago = 0;  ///< so many frames before these: the library hands input over late
        bool interrupted = false;  ///< the API says that sound was lost before it
    };

    /// Makes the next block.
    ///
    /// Threads: audio only
    /// Real-time: yes
    virtual void run(const Block& block) noexcept = 0;
};

}  // namespace compline::live
