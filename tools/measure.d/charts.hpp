#pragma once

#include <compline/chart/form.hpp>
#include <compline/simulate/chance.hpp>

namespace compline::measure {

/// A tune put together by chance from four-bar phrases written by hand, in any key: ii-Vs, cycles,
/// blues, vamps, minor tunes, with N.C. here and there; mostly in four, now and then a waltz or a
/// bossa. Every quality that the guitarist has grips of comes in one of them.
[[nodiscard]] chart::Form any_chart(simulate::Chance& chance);

}  // namespace compline::measure
