#include <compline/harmony/quality.hpp>

#include <algorithm>
#include <array>
#include <cassert>

namespace compline::harmony {

namespace {

using Q = Quality;
using A = Alteration;

// clang-format off
constexpr std::array<QualityRow, 40> qualities = {{
    // quality                     symbol       tones                    defining             of written working   subst.    contradicted
    {Q::major,                    "",          "1 3 5",                 "3",                    0, "",   "6 7 9",    "",       "b3 b7"},
    {Q::minor,                    "m",         "1 b3 5",                "b3",                   0, "",   "6 b7 7 9", "",       "3"},
    // A bare diminished symbol is played as the four-note chord; any three of its tones make it.
    {Q::diminished,               "dim",       "1 b3 b5",               "1 b3 b5 bb7",          3, "",   "9* 11* b13* 7*", "", "3 5"},
    {Q::augmented,                "aug",       "1 3 #5",                "3 #5",                 0, "",   "",         "",       "b3 5"},
    {Q::suspended_second,         "sus2",      "1 2 5",                 "2",                    0, "",   "",         "",       "3 b3"},
    // A bare sus is mostly played as the seventh or ninth chord over a dominant's root.
    {Q::suspended_fourth,         "sus4",      "1 4 5",                 "4",                    0, "",   "b7 9",     "",       "3 b3"},
    {Q::power,                    "5",         "1 5",                   "1 5",                  0, "",   "",         "",       "3 b3"},
    // The sixth of a written 6 colours a tonic: a plain triad is right for it, and so is a major
    // seventh.
    {Q::sixth,                    "6",         "1 3 5 6",               "3 6?",                 0, "",   "7 9",      "",       "b3 b7"},
    {Q::six_nine,                 "6/9",       "1 3 5 6 9",             "3 6?",                 0, "9",  "7",        "",       "b3 b7"},
    {Q::suspended_sixth,          "6sus4",     "1 4 5 6",               "4 6?",                 0, "",   "9",        "",       "3 b3 b7"},
    // The sixth of a minor tonic sets it apart from a ii chord: no plain triad will do.
    {Q::minor_sixth,              "m6",        "1 b3 5 6",              "b3 6",                 0, "",   "9",        "",       "3 b7"},
    {Q::minor_six_nine,           "m6/9",      "1 b3 5 6 9",            "b3 6",                 0, "9",  "",         "",       "3 b7"},
    {Q::major_seventh,            "maj7",      "1 3 5 7",               "3 7",                  0, "",   "6=7 9",    "#11",    "b3 b7"},
    {Q::major_ninth,              "maj9",      "1 3 5 7 9",             "3 7",                  0, "9",  "6=7",      "#11",    "b3 b7 b9"},
    {Q::major_eleventh,           "maj11",     "1 3 5 7 9 11",          "3 7",                  0, "11", "6=7",      "",       "b3 b7 #11"},
    {Q::major_thirteenth,         "maj13",     "1 3 5 7 9 13",          "3 7",                  0, "13", "6=7",      "#11",    "b3 b7 b13"},
    {Q::suspended_major_seventh,  "maj7sus4",  "1 4 5 7",               "4 7",                  0, "",   "6=7 9",    "",       "3 b3 b7"},
    {Q::suspended_major_ninth,    "maj9sus4",  "1 4 5 7 9",             "4 7",                  0, "9",  "6=7",      "",       "3 b3 b7"},
    {Q::dominant_seventh,         "7",         "1 3 5 b7",              "3 b7",                 0, "",   "9 13",     "",       "7"},
    {Q::dominant_ninth,           "9",         "1 3 5 b7 9",            "3 b7",                 0, "9",  "13",       "",       "7 b9 #9"},
    // The third is left out where it would rub against the eleventh: mostly played as a 9sus4.
    {Q::dominant_eleventh,        "11",        "1 5 b7 9 11",           "3|11 b7",              0, "11", "3 13",     "",       "7 #11"},
    {Q::dominant_thirteenth,      "13",        "1 3 5 b7 9 13",         "3 b7",                 0, "13", "",         "",       "7 b13"},
    {Q::altered,                  "7alt",      "1 3 b7 b9 #9 #11 b13",  "3 b7 b9|#9|#11|b13",   0, "",   "",         "",       "5 7 9 13"},
    {Q::suspended_seventh,        "7sus4",     "1 4 5 b7",              "4 b7",                 0, "",   "9 13",     "",       "3 7"},
    {Q::suspended_ninth,          "9sus4",     "1 4 5 b7 9",            "4 b7",                 0, "9",  "13",       "",       "3 7 b9"},
    // The third may come on top of the fourth.
    {Q::suspended_thirteenth,     "13sus4",    "1 4 5 b7 9 13",         "4 b7",                 0, "13", "3^4",      "",       "3 7 b13"},
    {Q::suspended_second_seventh, "7sus2",     "1 2 5 b7",              "2 b7",                 0, "",   "13",       "",       "3 7"},
    {Q::minor_seventh,            "m7",        "1 b3 5 b7",             "b3 b7",                0, "",   "9 11",     "11=b3",  "3 7"},
    {Q::minor_ninth,              "m9",        "1 b3 5 b7 9",           "b3 b7",                0, "9",  "11",       "11=b3",  "3 7 b9"},
    {Q::minor_eleventh,           "m11",       "1 b3 5 b7 9 11",        "b3 b7",                0, "11", "",         "11=b3",  "3 7"},
    {Q::minor_thirteenth,         "m13",       "1 b3 5 b7 9 13",        "b3 b7",                0, "13", "11",       "11=b3",  "3 7 b13"},
    {Q::minor_major_seventh,      "m(maj7)",   "1 b3 5 7",              "b3 7",                 0, "",   "9",        "",       "3 b7"},
    {Q::minor_major_ninth,        "m(maj9)",   "1 b3 5 7 9",            "b3 7",                 0, "9",  "",         "",       "3 b7 b9"},
    {Q::minor_major_eleventh,     "m(maj11)",  "1 b3 5 7 9 11",         "b3 7",                 0, "11", "",         "",       "3 b7"},
    {Q::minor_major_thirteenth,   "m(maj13)",  "1 b3 5 7 9 13",         "b3 7",                 0, "13", "",         "",       "3 b7 b13"},
    // Shells leave the flat fifth out, so it is optional (2026-11-29); a natural one is wrong.
    {Q::half_diminished,          "m7b5",      "1 b3 b5 b7",            "b3 b7",                0, "",   "11",        "",       "3 5 7"},
    {Q::half_diminished_ninth,    "m9b5",      "1 b3 b5 b7 9",          "b3 b7",                0, "9",  "11",        "",       "3 5 7 b9"},
    {Q::half_diminished_eleventh, "m11b5",     "1 b3 b5 b7 9 11",       "b3 b7",                0, "11", "",         "",       "3 5 7"},
    // Its colours lie a whole step above its own tones.
    {Q::diminished_seventh,       "dim7",      "1 b3 b5 bb7",           "1 b3 b5 bb7",          3, "",   "9* 11* b13* 7*", "", "3 5"},
    {Q::diminished_major_seventh, "dim(maj7)", "1 b3 b5 7",             "b3 b5 7",              0, "",   "",         "",       "3 5 b7"},
}};

// A flat sixth beside the fifth (Cm(b6)) is no flat thirteenth: no seventh need be there.
constexpr std::array<AlterationRow, Alterations::kinds> all_alterations = {{
    // alteration        symbol   tone   replaces  contradicted
    {A::flat_five,       "b5",    "b5",  "5",      "5"},
    {A::sharp_five,      "#5",    "#5",  "5",      "5 13"},
    {A::flat_six,        "b6",    "b6",  "6",      "13"},
    {A::flat_nine,       "b9",    "b9",  "9",      "9"},
    {A::sharp_nine,      "#9",    "#9",  "9",      "9"},
    {A::sharp_eleven,    "#11",   "#11", "11",     "11"},
    {A::flat_thirteen,   "b13",   "b13", "13",     "13"},
    {A::added_nine,      "add9",  "9",   "",       "b9 #9"},
    {A::added_eleven,    "add11", "11",  "",       "#11"},
    {A::added_thirteen,  "add13", "13",  "",       "b13"},
    {A::no_third,        "(no3)", "",    "3 b3",   "3 b3"},
    {A::no_fifth,        "(no5)", "",    "5 b5 #5",""},
}};
// clang-format on

/// The next word of a column; the column loses it.
std::string_view next_word(std::string_view& column) {
    column.remove_prefix(std::min(column.find_first_not_of(' '), column.size()));
    const auto word = column.substr(0, column.find(' '));
    column.remove_prefix(word.size());
    return word;
}

template <typename Visit>
void each_word(std::string_view column, Visit visit) {
    for (auto word = next_word(column); !word.empty(); word = next_word(column)) visit(word);
}

Degree read_degree(std::string_view word) {
    Degree degree{0, 0};
    for (const char c : word) {
        if (c == 'b') --degree.alteration;
        if (c == '#') ++degree.alteration;
        if (c >= '0' && c <= '9') degree.number = degree.number * 10 + (c - '0');
    }
    assert(degree.number >= 1);
    return degree;
}

Demand read_demand(std::string_view word) {
    Demand demand;
    while (!word.empty()) {
        const auto end = std::min(word.find('|'), word.size());
        demand.push_back(read_degree(word.substr(0, end)));
        word.remove_prefix(std::min(end + 1, word.size()));
    }
    return demand;
}

/// A degree and its marks: `6=7`, `b13-5`, `3^4`, `9*`.
OptionalTone read_option(std::string_view word) {
    constexpr std::string_view marks = "=-^*";
    const auto part = [&](std::size_t from) {
        return word.substr(from, word.find_first_of(marks, from) - from);
    };
    OptionalTone option{read_degree(part(0))};
    for (auto at = word.find_first_of(marks); at < word.size();
         at = word.find_first_of(marks, at + 1)) {
        if (word[at] == '*') option.colour = true;
        if (word[at] == '=') option.instead_of = read_degree(part(at + 1));
        if (word[at] == '-') option.never_with = read_degree(part(at + 1));
        if (word[at] == '^') option.above = read_degree(part(at + 1));
    }
    return option;
}

bool contains(const std::vector<Degree>& degrees, const Degree& degree) {
    return std::find(degrees.begin(), degrees.end(), degree) != degrees.end();
}

template <typename Visit>
void each_alteration(const Chord& chord, Visit visit) {
    if (chord.alterations.none()) return;
    for (const auto& row : all_alterations) {
        if (chord.alterations.has(row.alteration)) visit(row);
    }
}

/// An altered tone takes the place of the plain one; of two (b9 and #9) the first does. What
/// replaces nothing comes last.
void alter(std::vector<Degree>& tones, const AlterationRow& row) {
    auto place = tones.end();
    each_word(row.replaces, [&](std::string_view word) {
        const auto found = std::find(tones.begin(), tones.end(), read_degree(word));
        if (found != tones.end()) place = tones.erase(found);
    });
    if (!row.tone.empty()) tones.insert(place, read_degree(row.tone));
}

bool sounds_among(const std::vector<Degree>& degrees, const Degree& degree) {
    return std::any_of(degrees.begin(), degrees.end(),
                       [&](const Degree& d) { return d.pitch_class() == degree.pitch_class(); });
}

/// What an alteration takes the place of, leaves out or contradicts, and no other writes again.
std::vector<Degree> tones_gone(const Chord& chord) {
    std::vector<Degree> gone;
    if (chord.alterations.none()) return gone;
    const auto tones = chord_tones(chord);
    each_alteration(chord, [&](const AlterationRow& row) {
        for (const auto column : {row.replaces, row.contradicted}) {
            for (const auto& degree : read_degrees(column)) {
                if (!sounds_among(tones, degree)) gone.push_back(degree);
            }
        }
    });
    return gone;
}

/// A fifth that is altered makes the chord: it must sound, either of two where both are written.
Demand altered_fifths(const Chord& chord) {
    Demand fifths;
    if (chord.alterations.has(Alteration::no_fifth)) return fifths;
    if (chord.alterations.has(Alteration::flat_five)) fifths.push_back({5, -1});
    if (chord.alterations.has(Alteration::sharp_five)) fifths.push_back({5, 1});
    return fifths;
}

void demand_tensions(const Chord& chord, std::vector<Demand>& demands) {
    const auto tones = chord_tones(chord);
    for (const auto& degree : read_degrees(row_of(chord.quality).written)) {
        if (contains(tones, degree)) demands.push_back({degree});
    }
    each_alteration(chord, [&](const AlterationRow& row) {
        const bool fifth = row.replaces == "5";
        if (row.tone.empty() || fifth) return;
        const Demand demand{read_degree(row.tone)};
        const bool there = std::find(demands.begin(), demands.end(), demand) != demands.end();
        if (!there) demands.push_back(demand);
    });
}

}  // namespace

std::span<const QualityRow> quality_table() { return qualities; }

const QualityRow& row_of(Quality quality) {
    const auto& row = qualities[static_cast<std::size_t>(quality)];
    assert(row.quality == quality);
    return row;
}

std::span<const AlterationRow> alteration_table() { return all_alterations; }

std::vector<Degree> read_degrees(std::string_view column) {
    std::vector<Degree> degrees;
    each_word(column, [&](std::string_view word) { degrees.push_back(read_degree(word)); });
    return degrees;
}

std::vector<OptionalTone> read_options(std::string_view column) {
    std::vector<OptionalTone> options;
    each_word(column, [&](std::string_view word) { options.push_back(read_option(word)); });
    return options;
}

std::vector<Degree> chord_tones(const Chord& chord) {
    auto tones = read_degrees(row_of(chord.quality).tones);
    each_alteration(chord, [&](const AlterationRow& row) { alter(tones, row); });
    return tones;
}

std::optional<Chord> sus_reading(const Chord& chord) {
    if (!chord.bass) return std::nullopt;
    const Chord sus{*chord.bass, Quality::suspended_ninth, {}, {}};
    auto allowed = chord_tones(sus);
    allowed.push_back({13, 0});
    const int above_bass = chord.root.pitch_class() - chord.bass->pitch_class() + 12;
    bool fourth = false;
    bool seventh = false;
    for (const auto& tone : chord_tones(chord)) {
        const int sound = (above_bass + tone.pitch_class()) % 12;
        fourth = fourth || sound == Degree{4, 0}.pitch_class();
        seventh = seventh || sound == Degree{7, -1}.pitch_class();
        const bool fits = std::any_of(allowed.begin(), allowed.end(),
                                      [&](const Degree& d) { return d.pitch_class() == sound; });
        if (!fits) return std::nullopt;
    }
    return fourth && seventh ? std::optional(sus) : std::nullopt;
}

std::vector<Demand> defining_tones(const Chord& chord, bool strictly) {
    std::vector<Demand> demands;
    const auto gone = tones_gone(chord);
    const bool no_third = chord.alterations.has(Alteration::no_third);
    each_word(row_of(chord.quality).defining, [&](std::string_view word) {
        const bool optional = word.back() == '?';
        auto demand = read_demand(word);
        // No third is none, be there a #9 that sounds like it, or the 11 of an eleventh chord.
        const bool third = no_third && demand.front().number == 3;
        const bool out = third || sounds_among(gone, demand.front());
        if (!(optional && !strictly) && !out) demands.push_back(std::move(demand));
    });
    if (auto fifths = altered_fifths(chord); !fifths.empty()) demands.push_back(std::move(fifths));
    if (strictly) demand_tensions(chord, demands);
    return demands;
}

std::vector<Degree> contradicted_tones(const Chord& chord) {
    const auto tones = chord_tones(chord);
    const int bass = chord.bass.value_or(chord.root).pitch_class();
    std::vector<Degree> contradicted;
    const auto add = [&](std::string_view column) {
        for (const auto& degree : read_degrees(column)) {
            const bool in_bass = (chord.root.pitch_class() + degree.pitch_class()) % 12 == bass;
            const bool known = in_bass || sounds_among(tones, degree);
            if (!known && !contains(contradicted, degree)) contradicted.push_back(degree);
        }
    };
    add(row_of(chord.quality).contradicted);
    each_alteration(chord, [&](const AlterationRow& row) { add(row.contradicted); });
    return contradicted;
}

bool is_dominant(const Chord& chord) {
    const auto tones = read_degrees(row_of(chord.quality).tones);
    return contains(tones, {7, -1}) && !contains(tones, {3, -1});
}

bool is_suspended(const Chord& chord) {
    const auto tones = read_degrees(row_of(chord.quality).tones);
    return !contains(tones, {3, 0}) && !contains(tones, {3, -1}) && tones.size() > 2;
}

bool is_minor(const Chord& chord) {
    const auto tones = chord_tones(chord);
    return contains(tones, {3, -1}) && contains(tones, {5, 0});
}

}  // namespace compline::harmony
