#pragma once

namespace compline::live {

/// While one of these lives, what this process writes to stderr is dropped.
///
/// libasound, libjack and RtMidi print there while they probe for devices, and not all of them can
/// be told not to: a machine without a sound card gives a dozen lines of "cannot find card" that
/// look like a fault and are none. Works on the whole process, so keep it short.
///
/// A stderr that was closed is held open meanwhile. Otherwise the next file that a library opens
/// takes its number, and the messages land in it: libjack so spoils its own database in shared
/// memory, and every JACK server started afterwards hangs.
class QuietStderr {
  public:
    QuietStderr();
    ~QuietStderr();
    QuietStderr(const QuietStderr&) = delete;
    QuietStderr& operator=(const QuietStderr&) = delete;

  private:
    int kept_;  ///< stderr as it was; -1: it was closed
};

}  // namespace compline::live
