#include "habit_json.hpp"

namespace compline::report {

namespace {

using assess::Habit;

void add_place(const Habit& habit, Json& json) {
    if (habit.bar > 0) {
        json["bar"] = habit.bar;
        json["beat"] = beat(habit.beat);
    }
    if (!habit.section.empty()) json["section"] = habit.section;
    if (!habit.to) return;
    json["from"] = habit.from ? Json(habit.from->symbol(as_letters)) : Json(nullptr);
    json["to"] = habit.to->symbol(as_letters);
}

}  // namespace

Json habit_json(const Habit& habit) {
    Json json = {{"what", assess::name_of(habit.kind)},
                 {"fault", assess::name_of(habit.fault)},
                 {"cases", habit.cases},
                 {"of", habit.of},
                 {"mean_ms", number(habit.mean_ms)},
                 {"cost", rounded(habit.cost)}};
    add_place(habit, json);
    if (!habit.quality.empty()) json["quality"] = habit.quality;
    if (habit.tone) json["tone"] = habit.tone->name(as_letters);
    if (habit.string) json["string"] = *habit.string;
    return json;
}

}  // namespace compline::report
