#include "chord_place.hpp"

namespace compline::simulate {

std::vector<ChordPlace> chord_places(const chart::Form& form, int times_through) {
    std::vector<ChordPlace> places;
    for (int pass = 1; pass <= times_through; ++pass) {
        for (const auto& span : form.spans) {
            if (!span.chord) continue;
            ChordPlace place;
            place.pass = pass;
            place.bar = span.bar;
            place.beat = 1 + time::Beats(span.start - form.bar(span.bar).start).count();
            place.at = form.length() * (pass - 1) + span.start;
            place.length = span.length;
            place.chord = *span.chord;
            places.push_back(place);
        }
    }
    return places;
}

std::vector<ChordPlace> change_places(const chart::Form& form, int times_through) {
    std::vector<ChordPlace> changes;
    for (const auto& place : chord_places(form, times_through)) {
        const bool goes_on = !changes.empty() &&
                             changes.back().chord.symbol() == place.chord.symbol() &&
                             changes.back().at + changes.back().length == place.at;
        if (goes_on) {
            changes.back().length += place.length;
        } else {
            changes.push_back(place);
        }
    }
    return changes;
}

}  // namespace compline::simulate
