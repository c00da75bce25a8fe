#pragma once

#include <jack/jack.h>

#include <stdexcept>
#include <string>
#include <vector>

namespace compline::jack {

/// Something that could not be had of the JACK server; what() says what and why.
class JackError : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

/// Full names ("client:port") of the ports of a type (JACK_DEFAULT_AUDIO_TYPE, ..._MIDI_TYPE) and a
/// direction (JackPortIsInput, JackPortIsOutput), in the server's order.
[[nodiscard]] std::vector<std::string> ports(jack_client_t* client, const char* type,
                                             unsigned long direction);

/// Those of `names` that hold `part`, which all must be of one client. None: an empty list. Throws
/// JackError, naming them, when they are of several clients.
[[nodiscard]] std::vector<std::string> choose(const std::vector<std::string>& names,
                                              const std::string& part);

/// Throws JackError, saying why. Ports that are connected already are fine.
void connect(jack_client_t* client, const std::string& from, const std::string& to);

}  // namespace compline::jack
