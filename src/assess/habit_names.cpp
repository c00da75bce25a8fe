#include <compline/assess/habit.hpp>

#include <array>

namespace compline::assess {

std::string_view name_of(HabitKind kind) {
    constexpr std::array<std::string_view, habit_kinds> names = {
        "place", "transition", "wide_move", "after_fill", "into_section", "quality",
        "tone",  "string",     "off_beats", "wait",       "left_out"};
    return names[static_cast<std::size_t>(kind)];
}

std::string_view name_of(HabitFault fault) {
    constexpr std::array<std::string_view, habit_faults> names = {
        "late", "early",    "missed", "wrong",   "incomplete",
        "wait", "left_out", "rushed", "dragged", "mixed"};
    return names[static_cast<std::size_t>(fault)];
}

}  // namespace compline::assess
