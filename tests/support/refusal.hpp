#pragma once

#include <compline/text/bad_input.hpp>

#include <string>

namespace compline::tests {

/// What bad input is told of itself; empty where it is not refused.
template <typename Read>
std::string refusal(Read read) {
    try {
        read();
    } catch (const text::BadInput& error) {
        return error.what();
    }
    return "";
}

}  // namespace compline::tests
