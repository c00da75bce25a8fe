#pragma once

#include <compline/chart/chart.hpp>

#include <array>
#include <string>

namespace compline::tests {

// Keys by their names in plain letters. All that a tune can be put into, and the first again.
inline const std::array<std::string, 14> majors = {"C",  "Db", "D",  "Eb", "E",  "F", "F#",
                                                   "Gb", "G",  "Ab", "A",  "Bb", "B", "C"};
inline const std::array<std::string, 14> minors = {"Cm",  "C#m", "Dm",  "D#m", "Ebm", "Em", "Fm",
                                                   "F#m", "Gm",  "G#m", "Am",  "Bbm", "Bm", "Cm"};

inline chart::Key key_of(const std::string& name) {
    const bool minor = name.back() == 'm';
    return {harmony::read_chord(minor ? name.substr(0, name.size() - 1) : name).root, minor};
}

}  // namespace compline::tests
