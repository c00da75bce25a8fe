#pragma once

#include <compline/simulate/chance.hpp>

namespace compline::measure {

/// A number by chance, all of the range alike.
inline double between(simulate::Chance& chance, double from, double to) {
    return from + (to - from) * chance.uniform();
}

}  // namespace compline::measure
