#include <compline/live/presence.hpp>

#ifdef COMPLINE_HAS_JACK
#include "jack_client.hpp"
#endif

namespace compline::live {

#ifdef COMPLINE_HAS_JACK
JackPresence::JackPresence() : client_(open_jack_client("compline-asks")) {}
#else
JackPresence::JackPresence() = default;
#endif

}  // namespace compline::live
