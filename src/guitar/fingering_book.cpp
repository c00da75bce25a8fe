#include "fingering_book.hpp"

#include <compline/guitar/move.hpp>

#include <algorithm>
#include <cassert>
#include <limits>

namespace compline::guitar {

namespace {

/// From here on the neck asks nothing that it does not ask one fret higher: reaches (see hand.hpp)
/// are as wide as they get. With all fingers below it they are all narrow.
constexpr int high_frets = 8;

}  // namespace

FingeringBook::FingeringBook(const Fretboard& fretboard, Hands hands)
    : fretboard_(fretboard), hands_(hands) {}

const FingeringBook::Fingerings& FingeringBook::fingerings(const Shape& shape, int lowest) {
    const auto key = key_of(shape, lowest);
    auto known = entries_.find(key);
    if (known == entries_.end()) known = entries_.emplace(key, finger(shape, lowest)).first;
    return known->second;
}

PackedGrip FingeringBook::Fingered::at(int frets) const {
    PackedGrip grip = packed;
    if (frets == 0) return grip;
    grip.hand = static_cast<std::int8_t>(std::max(1, index + frets));
    for (std::size_t i = 0; i < PackedGrip::fingers; ++i) {
        if (grip.cover[i] == 0) continue;
        grip.fret[i] = static_cast<std::int8_t>(grip.fret[i] + frets);
        grip.place[i] = static_cast<std::uint16_t>(grip.place[i] + frets);
    }
    return grip;
}

/// The lowest of the lowest frets where a shape can be fingered in the same ways.
int FingeringBook::alike(const Shape& shape, int lowest) const {
    int highest = lowest;
    for (const auto& fret : shape.frets) highest = std::max(highest, fret.value_or(0));
    const int from_nut = lowest + fretboard_.capo();
    if (from_nut >= high_frets) return std::max(1, high_frets - fretboard_.capo());
    return highest + fretboard_.capo() < high_frets ? std::min(lowest, 1) : lowest;
}

/// Three bits a string (muted, open, or frets above the lowest), and where on the neck.
std::uint32_t FingeringBook::key_of(const Shape& shape, int lowest) const {
    constexpr unsigned open = 1;
    constexpr unsigned held = 2;
    auto key = static_cast<std::uint32_t>(alike(shape, lowest));
    for (int string = 1; string <= shape.strings; ++string) {
        const auto& fret = shape.on(string);
        assert(!fret || *fret - lowest <= widest_span(lowest, fretboard_.capo()));
        const unsigned how = !fret        ? 0
                             : *fret == 0 ? open
                                          : held + static_cast<unsigned>(*fret - lowest);
        key = key << 3U | how;
    }
    return key;
}

FingeringBook::Fingerings FingeringBook::finger(const Shape& shape, int lowest) const {
    Fingerings entry;
    entry.lowest = lowest;
    const auto grips = guitar::fingerings(shape, hands_, fretboard_.capo());
    std::vector<Cost> costs;
    costs.reserve(grips.size());
    Cost best = std::numeric_limits<Cost>::max();
    for (const auto& grip : grips) {
        costs.push_back(form_cost(grip));
        best = std::min(best, costs.back());
    }
    for (std::size_t i = 0; i < grips.size(); ++i) {
        if (costs[i] > best + clumsiest) continue;
        entry.all.push_back({grips[i].fingers, pack(fretboard_, grips[i]),
                             under_index(grips[i].holds()).value_or(0), costs[i]});
    }
    return entry;
}

}  // namespace compline::guitar
