#include "support/bass_ear.hpp"

#include "support/booking.hpp"
#include "support/catch.hpp"

#include <algorithm>
#include <map>

namespace compline::tests {

namespace {

using time::Ticks;

constexpr Ticks heard_beat = time::quarter_note;

// clang-format off
const std::map<std::string, BassChord>& table() {
    static const std::map<std::string, BassChord> all = {
        // symbol   rests on           never strong    never at all
        {"maj7",  {{0, 4, 7, 9, 11},   {3, 10},        {},     false}},
        {"maj9",  {{0, 4, 7, 9, 11},   {1, 3, 10},     {},     false}},
        {"6",     {{0, 4, 7, 9},       {3, 10},        {},     false}},
        {"7",     {{0, 4, 7, 10},      {3, 11},        {},     true}},
        {"9",     {{0, 4, 7, 10},      {1, 3, 11},     {},     true}},
        {"13",    {{0, 4, 7, 10},      {3, 8, 11},     {},     true}},
        {"7b9",   {{0, 4, 7, 10},      {2, 3, 11},     {},     true}},
        {"7#5",   {{0, 4, 8, 10},      {3, 7, 9, 11},  {},     true}},
        {"7alt",  {{0, 4, 6, 8, 10},   {2, 7, 9, 11},  {},     false}},
        {"7sus4", {{0, 5, 7, 10},      {3, 4, 11},     {4},    true}},
        {"sus4",  {{0, 5, 7},          {3, 4},         {4},    false}},
        {"m7",    {{0, 3, 7, 10},      {4, 11},        {},     false}},
        {"m9",    {{0, 3, 7, 10},      {1, 4, 11},     {},     false}},
        {"m6",    {{0, 3, 7, 9},       {4, 10},        {},     false}},
        {"m7b5",  {{0, 3, 6, 10},      {4, 7, 11},     {7},    false}},
        {"dim7",  {{0, 3, 6, 9},       {4, 7},         {7},    false}},
        {"",      {{0, 4, 7},          {3, 10},        {},     false}},
    };
    return all;
}
// clang-format on

/// The chord of a form that sounds at a place in it, and where it starts and ends, counted in the
/// form; one that goes on over a bar line is one chord.
void name_chord(const chart::Form& form, Ticks in_form, HeardBass& heard) {
    const auto& spans = form.spans;
    std::size_t i = 0;
    while (i + 1 < spans.size() && spans[i + 1].start <= in_form) ++i;
    if (!spans[i].chord) return;
    const auto& chord = *spans[i].chord;
    std::size_t first = i;
    std::size_t last = i;
    while (first > 0 && spans[first - 1].chord == spans[i].chord) --first;
    while (last + 1 < spans.size() && spans[last + 1].chord == spans[i].chord) ++last;
    const Ticks time_starts = heard.at - in_form;
    heard.chord_starts = time_starts + spans[first].start;
    heard.chord_ends = time_starts + spans[last].start + spans[last].length;
    heard.symbol = chord.symbol(harmony::Accidentals::letters);
    auto plain = chord;
    plain.bass.reset();
    const auto root = chord.root.name(harmony::Accidentals::letters);
    heard.chord = bass_chord(plain.symbol(harmony::Accidentals::letters).substr(root.size()));
    heard.above_root = (heard.note - chord.root.pitch_class() + 120) % 12;
    heard.slash_bass = chord.bass && chord.bass->pitch_class() == heard.note % 12;
}

}  // namespace

const BassChord& bass_chord(const std::string& quality) {
    const auto known = table().find(quality);
    INFO("no such chord in the table: " << quality);
    REQUIRE(known != table().end());
    return known->second;
}

bool HeardBass::is_one_of(const std::vector<int>& semitones) const {
    return std::find(semitones.begin(), semitones.end(), above_root) != semitones.end();
}

bool HeardBass::is_last_quarter() const { return chord_ends - at <= heard_beat; }

std::vector<HeardBass> hear_bass(const roadmap::RoadMap& map, const band::Players& players) {
    std::vector<HeardBass> line;
    const auto& form = map.form();
    const auto bar = form.chart.meter.bar();
    const auto length = form.length();
    if (length == Ticks(0)) return line;
    for (const auto& note : band::arrange(map, players).notes) {
        HeardBass heard;
        heard.note = note.note.number();
        heard.at = note.at;
        heard.in_bar = note.at % bar;
        heard.length = note.length;
        heard.dead = note.dead;
        const Ticks in_form = note.at % length;
        heard.bar = static_cast<int>(in_form / bar) + 1;
        const auto& kicks = form.bar(heard.bar).kicks;
        heard.kick = std::find(kicks.begin(), kicks.end(), heard.in_bar) != kicks.end();
        heard.short_one = note.at % heard_beat != Ticks(0) && !heard.kick;
        name_chord(form, in_form, heard);
        line.push_back(heard);
    }
    return line;
}

std::vector<HeardBass> hear_bass(const chart::Form& form, const chart::AskedManner& manner,
                                 std::uint64_t seed, int times) {
    auto booking = Booking::of(form.whole(), times, 0);
    booking.asked.manner = manner;
    booking.players.seed = seed;
    return hear_bass(booking.map(form), booking.players);
}

std::vector<HeardBass> without_short_ones(std::vector<HeardBass> line) {
    line.erase(
        std::remove_if(line.begin(), line.end(), [](const auto& note) { return note.short_one; }),
        line.end());
    return line;
}

}  // namespace compline::tests
