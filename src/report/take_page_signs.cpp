#include "take_page_signs.hpp"

#include "page_part.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace compline::report {

using practice::PlaceFault;
using practice::PlaceFigures;

std::string_view fault_words(PlaceFault fault) {
    constexpr std::array<std::string_view, practice::place_faults> words = {
        "late",     "early",      "missed",      "astray", "in after a wait",
        "left out", "wrong tone", "tone missing"};
    return words[static_cast<std::size_t>(fault)];
}

namespace {

constexpr double smallest_arm = 3;
constexpr double largest_arm = 11;

void draw_sign(Picture& picture, Point at, double arm, PlaceFault fault) {
    switch (fault) {
        case PlaceFault::late:
            return picture.box({at.x - 0.6 * arm, at.y - arm, 1.2 * arm, 2 * arm}, "late");
        case PlaceFault::early:
            return picture.box({at.x - 0.6 * arm, at.y - arm, 1.2 * arm, 2 * arm}, "early");
        case PlaceFault::missed:
            return picture.cross(at, arm, "missed");
        case PlaceFault::astray:
            return picture.ring(at, arm, "astray");
        case PlaceFault::wait:
            return picture.wedge(at, arm, "late");
        case PlaceFault::left_out:
            return picture.cross(at, arm, "left-out");
        case PlaceFault::wrong:
            return picture.diamond(at, arm, "wrong");
        case PlaceFault::incomplete:
            return picture.diamond(at, arm, "incomplete");
    }
}

/// Every sign there is, in the size of a letter.
std::string sign_alone(PlaceFault fault) {
    constexpr double side = 20;
    Picture picture(side, side);
    draw_sign(picture, {side / 2, side / 2}, 8, fault);
    return picture.svg("sign");
}

}  // namespace

void draw_signs(Picture& picture, Point beat, double half_height, const PlaceFigures& figures) {
    const auto arm = [&](PlaceFault fault) {
        return smallest_arm +
               (largest_arm - smallest_arm) * figures.count(fault) / std::max(1, figures.of);
    };
    const auto draw = [&](PlaceFault fault, double y) {
        if (figures.count(fault) > 0) draw_sign(picture, {beat.x, y}, arm(fault), fault);
    };
    draw(PlaceFault::missed, beat.y);
    draw(PlaceFault::left_out, beat.y);
    draw(PlaceFault::astray, beat.y);
    draw(PlaceFault::wait, beat.y + half_height / 2);
    const double foot = beat.y + half_height - largest_arm;
    draw(PlaceFault::incomplete, foot);
    draw(PlaceFault::wrong, foot);
}

std::string key_of_signs(const practice::Places& places) {
    PlaceFigures all;
    for (const auto& [where, place] : places) all += place.figures;
    std::string key;
    for (std::size_t i = 0; i < practice::place_faults; ++i) {
        const auto fault = static_cast<PlaceFault>(i);
        if (all.count(fault) == 0) continue;
        const auto* const more = fault == PlaceFault::late    ? ", hangs below the beat"
                                 : fault == PlaceFault::early ? ", stands on the beat"
                                                              : "";
        key += key_entry(sign_alone(fault), std::string(fault_words(fault)) + more);
    }
    const bool often = std::any_of(places.begin(), places.end(),
                                   [](const auto& place) { return place.second.figures.of > 1; });
    if (often && !key.empty()) key += key_entry("", "the broader, the more often");
    return key;
}

}  // namespace compline::report
