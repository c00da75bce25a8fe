#include "finger_table.hpp"

namespace compline::guitar {

FingerTable::FingerTable(int strings, int frets)
    : frets_(frets), places_(static_cast<std::size_t>(1 + (covers_of(strings) - 1) * frets)) {
    struct Spot {
        int cover = 0;
        int fret = 0;
    };
    std::vector<Spot> places(1);
    for (int cover = 1; cover < covers_of(strings); ++cover) {
        for (int fret = 1; fret <= frets; ++fret) places.push_back({cover, fret});
    }
    to_.resize(places_ * places_);
    from_.resize(places_ * places_);
    for (std::size_t a = 0; a < places_; ++a) {
        for (std::size_t b = 0; b < places_; ++b) {
            const auto reach =
                finger_reach(places[a].cover, places[a].fret, places[b].cover, places[b].fret);
            const auto value =
                static_cast<std::int16_t>(reach.cost * scale + (reach.guides ? 1 : 0));
            from_[a * places_ + b] = value;
            to_[b * places_ + a] = value;
        }
    }
}

}  // namespace compline::guitar
