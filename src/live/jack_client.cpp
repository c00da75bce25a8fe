#include "jack_client.hpp"

namespace compline::live {

namespace {

void say_nothing(const char*) {}

}  // namespace

JackClient open_jack_client(const char* name) {
    ::jack_set_error_function(&say_nothing);
    ::jack_set_info_function(&say_nothing);
    jack_status_t status{};
    return JackClient(::jack_client_open(name, JackNoStartServer, &status));
}

}  // namespace compline::live
