#include <compline/guitar/grip.hpp>

namespace compline::guitar {

std::string_view name_of(Finger finger) {
    constexpr std::array<std::string_view, finger_count> names = {"", "1", "2", "3", "4", "T"};
    return names[static_cast<std::size_t>(finger)];
}

Grip::Holds Grip::holds() const {
    std::array<Hold, finger_count> all{};
    for (int string = 1; string <= shape.strings; ++string) {
        const auto& fret = shape.on(string);
        if (!fret || on(string) == Finger::none) continue;
        auto& hold = all[static_cast<std::size_t>(on(string))];
        if (hold.finger == Finger::none) hold = {on(string), *fret, string, string};
        hold.low = string;
    }
    Holds holds;
    for (const auto& hold : all) {
        if (hold.finger != Finger::none) holds.add(hold);
    }
    return holds;
}

std::optional<Grip::Hold> Grip::hold(Finger finger) const {
    for (const auto& hold : holds()) {
        if (hold.finger == finger) return hold;
    }
    return std::nullopt;
}

std::string Grip::finger_text() const {
    std::string text;
    for (int string = shape.strings; string >= 1; --string) {
        const auto name = name_of(on(string));
        text += !shape.on(string) ? "x" : name.empty() ? "0" : name;
    }
    return text;
}

}  // namespace compline::guitar
