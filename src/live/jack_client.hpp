#pragma once

#include <jack/jack.h>

#include <memory>

namespace compline::live {

struct CloseJackClient {
    void operator()(jack_client_t* client) const { ::jack_client_close(client); }
};
using JackClient = std::unique_ptr<jack_client_t, CloseJackClient>;

/// A client of the default server, of that name or with a number behind it; none when no server
/// runs. libjack prints nothing from then on: it would speak to stderr, and we ask instead.
[[nodiscard]] JackClient open_jack_client(const char* name);

}  // namespace compline::live
