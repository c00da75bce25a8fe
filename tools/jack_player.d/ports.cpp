#include "ports.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <iterator>

namespace compline::jack {

std::vector<std::string> ports(jack_client_t* client, const char* type, unsigned long direction) {
    const char** names = ::jack_get_ports(client, nullptr, type, direction);
    if (names == nullptr) return {};
    std::vector<std::string> found;
    for (const char** name = names; *name != nullptr; ++name) found.emplace_back(*name);
    ::jack_free(static_cast<void*>(names));
    return found;
}

namespace {

std::string client_of(const std::string& port) { return port.substr(0, port.find(':')); }

}  // namespace

std::vector<std::string> choose(const std::vector<std::string>& names, const std::string& part) {
    std::vector<std::string> found;
    std::copy_if(names.begin(), names.end(), std::back_inserter(found),
                 [&part](const std::string& name) { return name.find(part) != std::string::npos; });
    const bool of_one_client = std::all_of(
        found.begin(), found.end(),
        [&found](const std::string& name) { return client_of(name) == client_of(found.front()); });
    if (!of_one_client) {
        throw JackError(fmt::format("ports of several clients match '{}': {}; name one client",
                                    part, fmt::join(found, ", ")));
    }
    return found;
}

void connect(jack_client_t* client, const std::string& from, const std::string& to) {
    const int error = ::jack_connect(client, from.c_str(), to.c_str());
    if (error == 0 || error == EEXIST) return;
    throw JackError(fmt::format("could not connect {} to {}", from, to));
}

}  // namespace compline::jack
