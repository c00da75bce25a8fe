#include "form_book.hpp"

#include <compline/guitar/move.hpp>

#include <algorithm>
#include <cassert>
#include <limits>

namespace compline::guitar {

namespace {

/// From here on the neck asks nothing that it does not ask one fret higher: spans and reaches (see
/// hand.hpp) are as wide as they get, and a hand without its index is clear of the nut.
constexpr int all_alike = 8;

}  // namespace

FormBook::FormBook(const Fretboard& fretboard, Hands hands)
    : fretboard_(fretboard), hands_(hands) {}

const FormBook::Entry& FormBook::fingerings(const Shape& shape, int lowest) {
    const auto key = key_of(shape, lowest);
    auto known = entries_.find(key);
    if (known == entries_.end()) known = entries_.emplace(key, finger(shape, lowest)).first;
    return known->second;
}

PackedGrip FormBook::moved(PackedGrip grip, int frets) {
    if (frets == 0) return grip;
    grip.hand = static_cast<std::int8_t>(grip.hand + frets);
    for (std::size_t i = 0; i < PackedGrip::fingers; ++i) {
        if (grip.cover[i] == 0) continue;
        grip.fret[i] = static_cast<std::int8_t>(grip.fret[i] + frets);
        grip.place[i] = static_cast<std::uint16_t>(grip.place[i] + frets);
    }
    return grip;
}

/// Three bits a string (muted, open, or frets above the lowest), and where on the neck.
std::uint32_t FormBook::key_of(const Shape& shape, int lowest) const {
    constexpr unsigned open = 1;
    constexpr unsigned held = 2;
    auto key = static_cast<std::uint32_t>(std::min(lowest, all_alike));
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

FormBook::Entry FormBook::finger(const Shape& shape, int lowest) const {
    Entry entry;
    entry.lowest = lowest;
    const auto grips = guitar::fingerings(shape, hands_, fretboard_.capo());
    Cost best = std::numeric_limits<Cost>::max();
    for (const auto& grip : grips) best = std::min(best, form_cost(grip));
    for (const auto& grip : grips) {
        const Cost form = form_cost(grip);
        if (form <= best + clumsiest) {
            entry.all.push_back({grip.fingers, pack(fretboard_, grip), form});
        }
    }
    return entry;
}

}  // namespace compline::guitar
