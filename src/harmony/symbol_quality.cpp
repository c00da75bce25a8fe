#include "symbol_parts.hpp"

#include <compline/text/bad_input.hpp>
#include <compline/text/printable.hpp>

namespace compline::harmony {

void fail_symbol(std::string_view symbol, std::size_t place, std::string_view why) {
    throw text::BadInput("", text::quoted(symbol) + " is not a chord", std::string(why), place);
}

void SymbolParts::insert(Alteration alteration, std::size_t place, std::string_view text) {
    if (alterations.has(alteration)) {
        fail_symbol(symbol, place, text::quoted(text) + " stands twice");
    }
    alterations.insert(alteration);
}

namespace {

using Q = Quality;
using A = Alteration;

[[noreturn]] void fail_quality(const SymbolParts& parts, std::string_view why) {
    fail_symbol(parts.symbol, parts.quality_at, why);
}

Quality altered(const SymbolParts& parts) {
    const bool seventh = parts.number == 7 || parts.number == 0;
    const bool bare = parts.word == Mark::none && seventh && !parts.major_seventh &&
                      parts.suspension == Suspension::none && parts.alterations.none();
    if (!bare)
        fail_quality(parts, "alt stands alone after the root or the 7: it names no alteration");
    return Q::altered;
}

/// The third is gone, so that Cm7sus4 is C7sus4.
Quality suspended(const SymbolParts& parts) {
    const bool third_word =
        parts.word == Mark::none || parts.word == Mark::minor || parts.word == Mark::major;
    if (third_word && parts.suspension == Suspension::second) {
        if (parts.number == 0) return Q::suspended_second;
        if (parts.number == 7 && !parts.major_seventh) return Q::suspended_second_seventh;
    } else if (third_word) {
        switch (parts.number) {
            case 0:
                return Q::suspended_fourth;
            case 6:
                return Q::suspended_sixth;
            case 7:
                return parts.major_seventh ? Q::suspended_major_seventh : Q::suspended_seventh;
            case 9:
                return parts.major_seventh ? Q::suspended_major_ninth : Q::suspended_ninth;
            case 13:
                if (!parts.major_seventh) return Q::suspended_thirteenth;
                break;
            default:
                break;
        }
    }
    fail_quality(parts, known_suspensions);
}

Quality major(SymbolParts& parts) {
    switch (parts.number) {
        case 0:
            return Q::major;
        case 2:
            parts.insert(A::added_nine, parts.quality_at, "2");
            return Q::major;
        case 5:
            if (parts.bare || parts.alterations.has(A::no_fifth)) {
                fail_quality(
                    parts,
                    "5 is root and fifth: tones may be added (add9), none altered or left out");
            }
            return Q::power;
        case 6:
            return Q::sixth;
        case six_nine:
            return Q::six_nine;
        case 7:
            return Q::dominant_seventh;
        case 9:
            return Q::dominant_ninth;
        case 11:
            return Q::dominant_eleventh;
        default:
            return Q::dominant_thirteenth;
    }
}

Quality major_seventh(const SymbolParts& parts) {
    switch (parts.number) {
        case 9:
            return Q::major_ninth;
        case 11:
            return Q::major_eleventh;
        case 13:
            return Q::major_thirteenth;
        default:
            return Q::major_seventh;
    }
}

Quality minor(const SymbolParts& parts) {
    switch (parts.number) {
        case 0:
            return Q::minor;
        case 6:
            return Q::minor_sixth;
        case six_nine:
            return Q::minor_six_nine;
        case 7:
            return Q::minor_seventh;
        case 9:
            return Q::minor_ninth;
        case 11:
            return Q::minor_eleventh;
        default:
            return Q::minor_thirteenth;
    }
}

Quality minor_major_seventh(const SymbolParts& parts) {
    switch (parts.number) {
        case 9:
            return Q::minor_major_ninth;
        case 11:
            return Q::minor_major_eleventh;
        case 13:
            return Q::minor_major_thirteenth;
        default:
            return Q::minor_major_seventh;
    }
}

Quality augmented(SymbolParts& parts) {
    if (parts.number == 0) return Q::augmented;
    const bool known = parts.number == 7 || parts.number == 9;
    if (!known) fail_quality(parts, "an augmented chord is written aug, aug7, aug9 or aug(maj7)");
    if (!parts.alterations.has(A::sharp_five)) parts.alterations.insert(A::sharp_five);
    return parts.major_seventh ? major_seventh(parts) : major(parts);
}

}  // namespace

Quality quality_of(SymbolParts& parts) {
    if (parts.altered) return altered(parts);
    if (parts.suspension != Suspension::none) return suspended(parts);
    switch (parts.word) {
        case Mark::none:
        case Mark::major:
            return parts.major_seventh ? major_seventh(parts) : major(parts);
        case Mark::minor:
            return parts.major_seventh ? minor_major_seventh(parts) : minor(parts);
        case Mark::augmented:
            return augmented(parts);
        case Mark::diminished:
            if (parts.major_seventh && parts.number == 7) return Q::diminished_major_seventh;
            if (!parts.major_seventh && parts.number == 0) return Q::diminished;
            if (!parts.major_seventh && parts.number == 7) return Q::diminished_seventh;
            fail_quality(parts, "a diminished chord is written dim, dim7 or dim(maj7)");
        case Mark::half_diminished:
            break;
    }
    switch (parts.number) {
        case 0:
        case 7:
            return Q::half_diminished;
        case 9:
            return Q::half_diminished_ninth;
        case 11:
            return Q::half_diminished_eleventh;
        default:
            fail_quality(parts, "a half-diminished chord is written ø, ø7, ø9 or ø11");
    }
}

}  // namespace compline::harmony
