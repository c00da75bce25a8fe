// Charts in other keys. What sounds is checked by a table of this test's own.

#include "chart/keys.hpp"
#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/chart/form.hpp>
#include <compline/chart/transpose.hpp>

#include <array>
#include <filesystem>
#include <optional>
#include <random>
#include <string>
#include <vector>

using namespace compline;
using chart::Chart;
using chart::Key;
using tests::key_of;
using tests::majors;
using tests::minors;

namespace {

constexpr auto letters = harmony::Accidentals::letters;
constexpr int frets = 22;

/// 0 = C ... 11 = B, by the beginning of a name in plain letters.
int sounding(const std::string& name) {
    auto tone = static_cast<int>(std::string("C D EF G A B").find(name.front()));
    for (std::size_t i = 1; i < name.size() && (name[i] == 'b' || name[i] == '#'); ++i) {
        tone += name[i] == 'b' ? -1 : 1;
    }
    return (tone + 12) % 12;
}

/// What stands behind the root, up to a bass.
std::string quality(const std::string& symbol) {
    const auto from = symbol.find_first_not_of("b#", 1);
    return from == std::string::npos ? "" : symbol.substr(from, symbol.find('/') - from);
}

std::string bass(const std::string& symbol) {
    const auto slash = symbol.find('/');
    const bool six_nine = slash != std::string::npos && symbol[slash + 1] == '9';
    return slash == std::string::npos || six_nine ? "" : symbol.substr(slash + 1);
}

/// The chords of one time through and of the lead-in, in plain letters.
std::vector<std::string> symbols(const Chart& chart) {
    std::vector<std::string> found;
    for (const auto& span : chart::unroll(chart).spans) {
        found.push_back(span.chord ? span.chord->symbol(letters) : "N.C.");
    }
    return found;
}

bool moved_by(const std::string& from, const std::string& to, int semitones) {
    if (from == "N.C." || to == "N.C.") return from == to;
    const auto as_far = [&](const std::string& one, const std::string& other) {
        return (sounding(one) + semitones + 24) % 12 == sounding(other);
    };
    if (!as_far(from, to) || quality(from) != quality(to)) return false;
    if (bass(from).empty() != bass(to).empty()) return false;
    return bass(from).empty() || as_far(bass(from), bass(to));
}

bool all_moved(const Chart& from, const Chart& to, int semitones) {
    const auto before = symbols(from);
    const auto after = symbols(to);
    if (before.size() != after.size()) return false;
    for (std::size_t i = 0; i < before.size(); ++i) {
        if (!moved_by(before[i], after[i], semitones)) return false;
    }
    return true;
}

bool all_can_be_read(const Chart& chart) {
    for (const auto& symbol : symbols(chart)) {
        if (symbol.find("##") != std::string::npos) return false;
        if (symbol != "N.C." && harmony::read_chord(symbol).symbol(letters) != symbol) return false;
    }
    return true;
}

std::vector<Chart> our_charts() {
    std::vector<Chart> charts;
    for (const auto& file : std::filesystem::directory_iterator(COMPLINE_SOURCE_DIR "/charts")) {
        if (file.path().extension() == ".yaml") charts.push_back(chart::load_chart(file.path()));
    }
    REQUIRE(charts.size() >= 7);
    return charts;
}

/// A tune in F with an ending, a lead-in and a bridge in a key of its own, of these chords.
template <std::size_t N>
Chart random_chart(unsigned seed, const std::array<const char*, N>& chords) {
    std::mt19937 random(seed);
    const auto bars = [&](int count) {
        std::string text;
        for (int i = 0; i < count; ++i) {
            text += (i > 0 ? " | " : "") + std::string(chords[random() % N]);
            if (random() % 3 == 0) text += std::string("! ") + chords[random() % N];
        }
        return text;
    };
    auto chart = chart::read_chart(
        tests::chart_text("  A: " + bars(8) + "\n  B: " + bars(4) + "\n"), "t.yaml");
    chart.sections[0].endings = {{{2}, tests::chart_of({bars(2)}).sections[0].bars}};
    chart.lead_in =
        chart::LeadIn{chart.meter.bar(), tests::chart_of({bars(1)}).sections[0].bars[0].slots};
    return chart;
}

constexpr std::array in_f = {"F6",   "Gm7",  "Am7", "Bbmaj7", "C7b9",  "Dm7/C", "Em7b5",
                             "A7#5", "F7/A", "C13", "G9",     "D7alt", "N.C."};
constexpr std::array in_c = {"C6", "Dm7/C", "Em7", "Fmaj7", "G7b9", "Am7", "Bm7b5", "E7", "N.C."};
constexpr std::array beyond_f = {"F6",    "Gm7",    "Abdim7", "Db9",  "B7#11", "F#dim7", "C#m7b5",
                                 "Eb6/9", "Gb7/Bb", "D#dim7", "C7/E", "Cb7",   "E#7"};

Chart moved(const Chart& chart, const Key& into) {
    return chart::transposed(chart, into, frets).chart;
}

/// A chart in F whose bridge is in a key of its own.
Chart with_bridge(const std::string& bars, const std::string& bridge, const std::string& key) {
    auto chart =
        chart::read_chart(tests::chart_text("  A: " + bars + "\n  B: " + bridge + "\n"), "t.yaml");
    chart.sections[1].key = key_of(key);
    return chart;
}

}  // namespace

TEST_CASE("every chord of our charts sounds as much higher, in every key, and can be read") {
    for (const auto& chart : our_charts()) {
        INFO(chart.title);
        for (const auto& name : chart.key.minor ? minors : majors) {
            INFO(name);
            const auto there = moved(chart, key_of(name));
            CHECK(there.key.name(letters) == name);
            CHECK(all_moved(chart, there, sounding(name) - sounding(chart.key.name(letters))));
            CHECK(all_can_be_read(there));
        }
    }
}

TEST_CASE("random charts that stay in their keys come back as they were, from every key") {
    for (unsigned seed = 0; seed < 300; ++seed) {
        auto chart = random_chart(seed, in_f);
        if (seed % 2 == 0) {
            chart.sections[1] = random_chart(seed, in_c).sections[1];
            chart.sections[1].key = key_of("C");
        }
        for (const auto& name : majors) {
            INFO("seed " << seed << " to " << name);
            const auto there = moved(chart, key_of(name));
            CHECK((there == chart) == (name == "F"));
            CHECK(moved(there, chart.key) == chart);
        }
    }
}

TEST_CASE("whatever is borrowed, a random chart sounds as it did when it has come back") {
    for (unsigned seed = 0; seed < 100; ++seed) {
        const auto chart = random_chart(seed, beyond_f);
        for (const auto& name : majors) {
            INFO("seed " << seed << " to " << name);
            const auto there = moved(chart, key_of(name));
            CHECK(all_moved(chart, there, sounding(name) - sounding("F")));
            CHECK(all_can_be_read(there));
            CHECK(all_moved(chart, moved(there, chart.key), 0));
        }
    }
}

TEST_CASE("a chart in another key knows the one it is written in") {
    const auto chart = tests::chart_of({"F6 | C7"});
    CHECK_FALSE(chart.written_in);
    const auto there = moved(moved(chart, key_of("G")), key_of("Ab"));
    REQUIRE(there.written_in);
    CHECK(there.written_in->name(letters) == "F");
    CHECK_FALSE(moved(there, key_of("F")).written_in);
}

TEST_CASE("endings, the lead-in and a section's own key move with the tune") {
    auto chart = with_bridge("F6 | C7", "A6 | E7", "A");
    chart.sections[0].endings = {{{2}, tests::chart_of({"F7"}).sections[0].bars}};
    chart.lead_in =
        chart::LeadIn{chart.meter.bar(), tests::chart_of({"C7"}).sections[0].bars[0].slots};
    const auto there = moved(chart, key_of("G"));
    CHECK(tests::bars_in_words(there.sections[0]) == "G6 4 | D7 4");
    CHECK(tests::bars_in_words(there.sections[1]) == "B6 4 | F#7 4");
    CHECK(there.sections[1].key->name(letters) == "B");
    CHECK(there.sections[0].endings[0].bars[0].slots[0].chord->symbol(letters) == "G7");
    CHECK(there.lead_in->slots[0].chord->symbol(letters) == "D7");
}

TEST_CASE("a bridge whose key would have seven sharps and more has its other name") {
    const auto there = moved(with_bridge("F6 | A7", "A6 | C#m7", "A"), key_of("B"));
    CHECK(there.sections[1].key->name(letters) == "Eb");  // D sharp
    CHECK(tests::bars_in_words(there.sections[1]) == "Eb6 4 | Gm7 4");
    CHECK(tests::bars_in_words(there.sections[0]) == "B6 4 | D#7 4");
}

TEST_CASE("neighbours that get one name are one chord") {
    const auto chart = tests::chart_of({"Cbdim7 Bdim7 | F6"});
    CHECK(tests::bars_in_words(moved(chart, key_of("Gb")).sections[0]) == "Cdim7 4 | Gb6 4");
}
