#include <compline/guitar/grip.hpp>

#include <algorithm>
#include <iterator>

namespace compline::guitar {

std::string_view name_of(Finger finger) {
    constexpr std::array<std::string_view, finger_count> names = {"", "1", "2", "3", "4", "T"};
    return names[static_cast<std::size_t>(finger)];
}

std::vector<Grip::Hold> Grip::holds() const {
    std::array<Hold, finger_count> all{};
    for (int string = 1; string <= shape.strings; ++string) {
        const auto& fret = shape.on(string);
        if (!fret || on(string) == Finger::none) continue;
        auto& hold = all[static_cast<std::size_t>(on(string))];
        if (hold.finger == Finger::none) hold = {on(string), *fret, string, string};
        hold.low = string;
    }
    std::vector<Hold> holds;
    holds.reserve(all.size());
    std::copy_if(all.begin(), all.end(), std::back_inserter(holds),
                 [](const Hold& hold) { return hold.finger != Finger::none; });
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
