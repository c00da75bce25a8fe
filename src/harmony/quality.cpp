#include <compline/harmony/quality.hpp>

#include <array>
#include <cassert>

namespace compline::harmony {

namespace {

using Q = Quality;

// clang-format off
constexpr std::array<QualityRow, 20> rows = {{
    // quality              symbol   spellings                          tones            defining      of  written  working   subst.
    {Q::major,              "",      "maj ma M",                        "1 3 5",         "3",          0, "",      "6 7 9",  ""},
    {Q::minor,              "m",     "mi min -",                        "1 b3 5",        "b3",         0, "",      "6 7 9",  ""},
    // A bare diminished symbol is played as the four-note chord; any three of its tones make it.
    {Q::diminished,         "dim",   "° o",                             "1 b3 b5",       "1 b3 b5 bb7", 3, "",     "",       ""},
    {Q::augmented,          "aug",   "+",                               "1 3 #5",        "3 #5",       0, "",      "",       ""},
    {Q::suspended_second,   "sus2",  "",                                "1 2 5",         "2",          0, "",      "",       ""},
    {Q::suspended_fourth,   "sus4",  "sus",                             "1 4 5",         "4",          0, "",      "",       ""},
    // The sixth of a written 6 colours a tonic: a plain triad is right for it (palette.cpp).
    {Q::sixth,              "6",     "maj6 ma6 M6",                     "1 3 5 6",       "3 6",        0, "",      "7 9",    ""},
    {Q::six_nine,           "6/9",   "69",                              "1 3 5 6 9",     "3 6",        0, "9",     "7",      ""},
    {Q::minor_sixth,        "m6",    "mi6 min6 -6",                     "1 b3 5 6",      "b3 6",       0, "",      "9",      ""},
    {Q::major_seventh,      "maj7",  "ma7 M7 △ △7",                     "1 3 5 7",       "3 7",        0, "",      "6 9",    "#11"},
    {Q::dominant_seventh,   "7",     "",                                "1 3 5 b7",      "3 b7",       0, "",      "9 13",   ""},
    {Q::dominant_ninth,     "9",     "",                                "1 3 5 b7 9",    "3 b7",       0, "9",     "13",     ""},
    {Q::dominant_thirteenth, "13",   "",                                "1 3 5 b7 9 13", "3 b7",       0, "13",    "9",      ""},
    {Q::minor_seventh,      "m7",    "mi7 min7 -7",                     "1 b3 5 b7",     "b3 b7",      0, "",      "9 11",   ""},
    {Q::minor_ninth,        "m9",    "mi9 min9 -9",                     "1 b3 5 b7 9",   "b3 b7",      0, "9",     "11",     ""},
    {Q::half_diminished,    "m7b5",  "ø ø7 mi7b5 min7b5 -7b5 m7(b5)",   "1 b3 b5 b7",    "b3 b5 b7",   0, "",      "",       ""},
    {Q::diminished_seventh, "dim7",  "°7 o7",                           "1 b3 b5 bb7",   "1 b3 b5 bb7", 3, "",     "",       ""},
    {Q::dominant_flat_nine, "7b9",   "7(b9)",                           "1 3 5 b7 b9",   "3 b7",       0, "b9",    "13",     ""},
    {Q::dominant_sharp_five, "7#5",  "7(#5) 7+ +7 aug7",                "1 3 #5 b7",     "3 #5 b7",    0, "",      "9",      ""},
    {Q::dominant_suspended, "7sus4", "7sus",                            "1 4 5 b7",      "4 b7",       0, "",      "9 13",   ""},
}};
// clang-format on

}  // namespace

std::span<const QualityRow> quality_table() { return rows; }

const QualityRow& row_of(Quality quality) {
    const auto& row = rows[static_cast<std::size_t>(quality)];
    assert(row.quality == quality);
    return row;
}

std::vector<Degree> read_degrees(std::string_view column) {
    std::vector<Degree> degrees;
    Degree degree{0, 0};
    for (const char c : column) {
        if (c == 'b') --degree.alteration;
        if (c == '#') ++degree.alteration;
        if (c >= '0' && c <= '9') degree.number = degree.number * 10 + (c - '0');
        if (c == ' ' && degree.number != 0) {
            degrees.push_back(degree);
            degree = {0, 0};
        }
    }
    if (degree.number != 0) degrees.push_back(degree);
    return degrees;
}

std::vector<Degree> chord_tones(const Chord& chord) {
    return read_degrees(row_of(chord.quality).tones);
}

bool is_dominant(Quality quality) {
    const auto defining = row_of(quality).defining;
    const bool leads = defining.starts_with("3 ") || defining.starts_with("4 ");
    return leads && defining.ends_with(" b7");
}

bool is_minor(Quality quality) { return row_of(quality).tones.starts_with("1 b3 5"); }

}  // namespace compline::harmony
