#pragma once

#include <iostream>
#include <streambuf>

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

/// While one of these lives, what is written to std::cerr is dropped, and stderr stays open.
///
/// RtAudio 5.2 has no other way to say that a JACK server went: it prints a line there from a
/// thread of JACK's, whenever it happens, whatever callback it was given. Our own words go by
/// stdio.
class QuietCerr {
  public:
    QuietCerr() : kept_(std::cerr.rdbuf(nullptr)) {}
    ~QuietCerr() { std::cerr.rdbuf(kept_); }
    QuietCerr(const QuietCerr&) = delete;
    QuietCerr& operator=(const QuietCerr&) = delete;

  private:
    std::streambuf* kept_;
};

}  // namespace compline::live
