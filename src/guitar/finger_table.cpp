#include "finger_table.hpp"

namespace compline::guitar {

FingerTable::FingerTable(int strings, int frets, WorkCount* work)
    : work_(work),
      frets_(frets),
      places_(static_cast<std::size_t>(1 + (covers_of(strings) - 1) * frets)),
      to_(places_ * places_),
      from_(places_ * places_) {
    for (int from = 0; from < covers_of(strings); ++from) {
        for (int to = 0; to < covers_of(strings); ++to) fill(from, to);
    }
}

/// What a finger pays depends on the two covers and on how far apart the frets are.
void FingerTable::fill(int from_cover, int to_cover) {
    const int from_frets = from_cover == 0 ? 1 : frets_;
    const int to_frets = to_cover == 0 ? 1 : frets_;
    const auto here = finger_reach(from_cover, 0, to_cover, 0);
    const int by_fret = finger_reach(from_cover, 0, to_cover, 1).cost - here.cost;
    for (int a = 1; a <= from_frets; ++a) {
        const auto from = static_cast<std::size_t>(place_of(from_cover, a, frets_));
        for (int b = 1; b <= to_frets; ++b) {
            const auto to = static_cast<std::size_t>(place_of(to_cover, b, frets_));
            const int apart = a < b ? b - a : a - b;
            const Cost cost = here.cost + by_fret * apart;
            const auto value = static_cast<std::int16_t>(cost * scale + (here.guides ? 1 : 0));
            from_[from * places_ + to] = value;
            to_[to * places_ + from] = value;
        }
    }
}

}  // namespace compline::guitar
