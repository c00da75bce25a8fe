#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/chart/chart.hpp>
#include <compline/chart/form.hpp>
#include <compline/chart/read_manner.hpp>

using namespace compline;
using chart::AskedManner;
using chart::Bass;
using chart::Drums;
using chart::Feel;
using tests::problems_of;

namespace {

std::string with(const std::string& key, const std::string& value) {
    std::string text;
    const auto line = [&](const std::string& name, const std::string& usual) {
        text += name + ": " + (name == key ? value : usual) + "\n";
    };
    line("title", "T");
    line("key", "F");
    line("tempo", "120");
    if (text.find("\n" + key + ":") == std::string::npos && key != "title") line(key, value);
    return text + "sections: {A: F6}\n";
}

chart::Chart read(const std::string& key, const std::string& value) {
    return chart::read_chart(with(key, value), "t.yaml");
}

std::string key_name(const std::string& value) {
    return read("key", value).key.name(harmony::Accidentals::letters);
}

std::string problem(const std::string& key, const std::string& value) {
    const auto problems = problems_of(with(key, value));
    return problems.size() == 1 ? problems.front() : fmt::format("{} problems", problems.size());
}

}  // namespace

TEST_CASE("a chart of four lines is complete, the rest has defaults") {
    const auto chart =
        chart::read_chart("title: T\nkey: F\ntempo: 120\nsections: {A: F6, B: C7}\n", "t.yaml");
    CHECK(chart.title == "T");
    CHECK(chart.meter == time::Meter(4));
    CHECK(chart.tempo == time::Bpm(120));
    CHECK(chart.feel() == Feel::swing);
    CHECK(!chart.swing_ratio.has_value());
    CHECK(compline::tests::form_in_words(chart) == "A B");
}

TEST_CASE("keys are read in the ways that players write them") {
    CHECK(key_name("F") == "F");
    CHECK(key_name("Eb") == "Eb");
    CHECK(key_name("B♭") == "Bb");
    CHECK(key_name("Cm") == "Cm");
    CHECK(key_name("F# minor") == "F#m");
    CHECK(key_name("A minor") == "Am");
    CHECK(key_name("A♭ major") == "Ab");
    CHECK(read("key", "B♭ minor").key.name() == "B♭m");
    CHECK(read("key", "B").key.minor == false);
    CHECK(read("key", "Bm").key.minor == true);
}

TEST_CASE("a key's name is read back as the same key") {
    for (const char* letter : {"A", "B", "C", "D", "E", "F", "G"}) {
        for (const char* rest : {"", "b", "#", "m", "bm", "#m"}) {
            const auto key = read("key", std::string(letter) + rest).key;
            CHECK(read("key", key.name()).key == key);
            CHECK(read("key", key.name(harmony::Accidentals::letters)).key == key);
        }
    }
}

TEST_CASE("what is not a key is refused with examples") {
    for (const char* value : {"H", "f", "F dorian", "Ebb", "F##", "minor", "Fmaj7", "FF"}) {
        CHECK(problem("key", value) ==
              fmt::format("2:6: \"{}\" is not a key: write a note A to G, ♭ or ♯ (b or #) if need "
                          "be, and m for minor, such as F, E♭, Cm or F# minor",
                          value));
    }
}

TEST_CASE("tempos from 30 to 400 are read, with decimals") {
    CHECK(read("tempo", "30").tempo == time::Bpm(30));
    CHECK(read("tempo", "400").tempo == time::Bpm(400));
    CHECK(read("tempo", "132.5").tempo == time::Bpm(132.5));
    CHECK(read("tempo", "\"132\"").tempo == time::Bpm(132));
}

TEST_CASE("what is no plain number is no tempo") {
    for (const char* value : {"nan", "1e3", "+132", "-132", "0x84", "132 bpm", "132.", ".5",
                              "1.2.3", "1_000", "inf", "132½"}) {
        CHECK(problem("tempo", value) ==
              fmt::format("3:8: \"{}\" is not a tempo: write quarter notes a minute as a plain "
                          "number, such as 132",
                          value));
    }
}

TEST_CASE("tempos that nobody plays are refused with the limits") {
    for (const char* value : {"0", "29.9", "400.1", "100000000000"}) {
        CHECK(problem("tempo", value) ==
              fmt::format("3:8: \"{}\" is not a tempo the band can play: write 30 to 400 quarter "
                          "notes a minute",
                          value));
    }
}

TEST_CASE("meters are two to six quarters, two halves, and six, nine or twelve eighths") {
    CHECK(read("meter", "3/4").meter == time::Meter(3));
    CHECK(read("meter", "4/4").meter == time::Meter(4));
    CHECK(read("meter", "5/4").meter == time::Meter(5));
    CHECK(read("meter", "6/4").meter == time::Meter(6));
    for (const char* value : {"2/2", "2/4", "6/8", "9/8", "12/8"}) {
        const auto written = read("meter", value).meter.written();
        CHECK(fmt::format("{}/{}", written.above, written.below) == value);
    }
    for (const char* value : {"3/8", "4/2", "7/4", "4", "4/4/4", "4/4 "}) {
        const auto quoted = fmt::format("\"{}\"", value);
        CHECK(problem("meter", quoted) ==
              fmt::format("4:8: {} is not a meter of a chart: write 2/2, 2/4, 3/4, 4/4, 5/4, 6/4, "
                          "6/8, 9/8 or 12/8",
                          quoted));
    }
}

TEST_CASE("a feel is swing, straight, bossa or ballad, and capitals do not count") {
    CHECK(read("feel", "straight").feel() == Feel::straight);
    CHECK(read("feel", "bossa").feel() == Feel::bossa);
    CHECK(read("feel", "Ballad").feel() == Feel::ballad);
    CHECK(problem("feel", "swung") ==
          "4:7: \"swung\" is not a feel (did you mean swing?): write swing, straight, bossa or "
          "ballad");
    CHECK(problem("feel", "polka") ==
          "4:7: \"polka\" is not a feel: write swing, straight, bossa or ballad");
}

TEST_CASE("drums and bass may be asked for by name, and nothing is asked where none is written") {
    CHECK(read("drums", "ride").manner == AskedManner{std::nullopt, Drums::ride, std::nullopt});
    CHECK(read("drums", "brushes").manner.drums == Drums::brushes);
    CHECK(read("drums", "hats").manner.drums == Drums::hats);
    CHECK(read("drums", "quarters").manner.drums == Drums::quarters);
    CHECK(read("drums", "off").manner.drums == Drums::off);
    CHECK(read("bass", "walking").manner == AskedManner{std::nullopt, std::nullopt, Bass::walking});
    CHECK(read("bass", "two-feel").manner.bass == Bass::two_feel);
    CHECK(read("bass", "roots").manner.bass == Bass::roots);
    CHECK(read("bass", "off").manner.bass == Bass::off);
    CHECK(read("bass", "two-feel plain").manner ==
          AskedManner{std::nullopt, std::nullopt, Bass::two_feel, true});
    CHECK(read("bass", "plain").manner.plain_bass);
    CHECK(read("swing", "auto").manner == AskedManner{});
    CHECK(problem("drums", "brush") ==
          "4:8: \"brush\" is not a way to play the drums (did you mean brushes?): write ride, "
          "brushes, "
          "hats, quarters or off");
    CHECK(
        problem("bass", "two feel") ==
        "4:7: \"two feel\" is not a way to play the bass (did you mean two-feel?): write walking, "
        "two-feel, roots, off or plain");
    CHECK(
        problem("bass", "off plain") ==
        "4:7: \"off plain\": plain goes with walking or two-feel; roots and off are plain already");
}

TEST_CASE("the drums may be asked to breathe, or to be even, by the chart or a section") {
    CHECK(read("phrasing", "breathing").manner.phrasing == chart::Phrasing::breathing);
    CHECK(read("phrasing", "Even").manner.phrasing == chart::Phrasing::even);
    CHECK_FALSE(read("feel", "swing").manner.phrasing.has_value());
    CHECK(problem("phrasing", "breath") ==
          "4:11: \"breath\" is not a phrasing: write even or breathing");
    const auto chart = chart::read_chart(
        "title: T\nkey: F\ntempo: 120\nphrasing: breathing\nsections:\n  A: F6\n"
        "  B:\n    phrasing: even\n    bars: F6\n",
        "t.yaml");
    const auto form = chart::unroll(chart);
    CHECK(form.bars[0].manner.phrasing == chart::Phrasing::breathing);
    CHECK(form.bars[1].manner.phrasing == chart::Phrasing::even);
    CHECK(chart::in_words(chart.manner) == "breathing");
}

TEST_CASE("a swing is auto, a ratio, a share of the beat or a number from 1 to 3") {
    CHECK(!read("swing", "auto").swing_ratio.has_value());
    CHECK(read("swing", "2:1").swing_ratio == 2.0);
    CHECK(read("swing", "3:2").swing_ratio == 1.5);
    CHECK(read("swing", "1.8").swing_ratio == 1.8);
    CHECK(read("swing", "1").swing_ratio == 1.0);
    CHECK(read("swing", "3:1").swing_ratio == 3.0);
    CHECK(read("swing", "50%").swing_ratio == 1.0);
    CHECK(read("swing", "60%").swing_ratio == 1.5);
    CHECK(read("swing", "75%").swing_ratio == 3.0);
    CHECK(*read("swing", "62.5%").swing_ratio == Approx(5.0 / 3));
    for (const char* value : {"3.1", "0.9", "1:2", "4:1", "62", "49.9%", "76%", "100%", "120%"}) {
        CHECK(problem("swing", value) ==
              fmt::format("4:8: \"{}\" is not a swing the band can play: the long part is 1 to 3 "
                          "times the short one (1 is straight, 3 a dotted eighth), 50% to 75% of "
                          "the beat",
                          value));
    }
    for (const char* value : {"2:0", "hard", "2:x", "2:1:1", "nan", "-2", "62 %", "2:1%", "62%%"}) {
        CHECK(problem("swing", value) ==
              fmt::format("4:8: \"{}\" is not a swing: write auto (by tempo), a ratio such as 2:1, "
                          "the long note's share of the beat such as 62%, or a number such as 1.8",
                          value));
    }
}

TEST_CASE("the share of the beat that is written is where the off-beat falls") {
    for (const double share : {50.0, 55.5, 62.0, 66.0, 75.0}) {
        const auto ratio = chart::read_swing_ratio(fmt::format("{}%", share));
        CHECK(time::Swing(*ratio).off_beat() == Approx(share / 100));
    }
}

TEST_CASE("the swing played is the one written, or the one that drummers take at the tempo") {
    CHECK(read("swing", "2:1").swing_at(time::Bpm(300)).ratio() == 2.0);
    CHECK(read("swing", "auto").swing_at(time::Bpm(200)) == time::Swing::at(time::Bpm(200)));
    CHECK(read("feel", "straight").swing_at(time::Bpm(200)).ratio() == 1.0);
}

TEST_CASE("a ballad swings, a bossa is in even eighths") {
    CHECK(read("feel", "ballad").swing_at(time::Bpm(90)) == time::Swing::at(time::Bpm(90)));
    CHECK(read("feel", "bossa").swing_at(time::Bpm(140)) == time::Swing::straight());
}

TEST_CASE("below 75 bpm brushes swing 2:1, unless a ratio is written or no brushes are played") {
    const auto ratio = [](const char* key, const char* value, double bpm) {
        return read(key, value).swing_at(time::Bpm(bpm)).ratio();
    };
    for (const double slow : {40.0, 60.0, 74.9}) {
        CHECK(ratio("drums", "brushes", slow) == 2.0);
        CHECK(ratio("feel", "ballad", slow) == 2.0);  // brushes, since nothing else is asked for
        CHECK(ratio("swing", "auto", slow) == 2.0);
        CHECK(ratio("swing", "2.5", slow) == 2.5);
        CHECK(ratio("feel", "bossa", slow) == 1.0);
        for (const char* others : {"ride", "hats", "quarters", "off"}) {
            CHECK(ratio("drums", others, slow) == time::Swing::at(time::Bpm(slow)).ratio());
        }
    }
    CHECK(ratio("drums", "brushes", 75) == time::Swing::at(time::Bpm(75)).ratio());
}

TEST_CASE("a straight or bossa feel with a swing is a contradiction, with auto it is none") {
    const auto problems = [](const std::string& feel, const std::string& rest) {
        return problems_of("title: T\nkey: F\ntempo: 120\nfeel: " + feel + "\n" + rest);
    };
    const std::string sections = "sections: {A: F6}\n";
    CHECK(problems("straight", "swing: auto\n" + sections).empty());
    CHECK(problems("ballad", "swing: 2:1\n" + sections).empty());
    CHECK(problems("straight", "swing: 2:1\n" + sections) ==
          std::vector<std::string>{
              "5:8: a swing for a straight feel: delete this line, or write feel: swing"});
    CHECK(problems("bossa", "swing: 62%\n" + sections) ==
          std::vector<std::string>{
              "5:8: a swing for a bossa feel: delete this line, or write feel: swing"});
}

TEST_CASE("a swing is right in a straight tune when a section or a chorus of the road map swings") {
    const auto problems = [](const std::string& rest) {
        return problems_of("title: T\nkey: F\ntempo: 120\nfeel: bossa\nswing: 2:1\n" + rest).size();
    };
    CHECK(problems("sections: {A: F6, B: {feel: swing, bars: C7}}\n") == 0);
    CHECK(problems("sections: {A: F6, B: {feel: ballad, bars: C7}}\n") == 0);
    CHECK(problems("sections: {A: F6, B: {feel: straight, bars: C7}}\n") == 1);
    CHECK(problems("road map: 'head; solo: feel=swing'\nsections: {A: F6}\n") == 0);
    CHECK(problems("road map: 'head; solo: feel=straight'\nsections: {A: F6}\n") == 1);
}

TEST_CASE("a title is any text that can be printed") {
    CHECK(read("title", "Für Ω's \"Café\", no. 7").title == "Für Ω's \"Café\", no. 7");
    CHECK(read("title", "\"A \\\"B\\\" C\"").title == "A \"B\" C");
    CHECK(read("title", "'It''s ours'").title == "It's ours");
    CHECK(read("title", "1962").title == "1962");
    CHECK(read("title", "\"A: B #2\"").title == "A: B #2");
    CHECK(problem("title", "\"\"") == "1:8: the title is empty: give the tune a name");
    CHECK(problem("title", "\"a\\e[2Jb\"") ==
          "1:8: the title holds \"<U+001B>\": a title is plain text on one line");
    CHECK(problem("title", "\"a\\nb\"") ==
          "1:8: the title holds \"<U+000A>\": a title is plain text on one line");
    CHECK(problem("title", "\"a\\u202eb\"") ==
          "1:8: the title holds \"<U+202E>\": a title is plain text on one line");
    CHECK(read("title", std::string(200, 'x')).title.size() == 200);
    CHECK(problem("title", std::string(201, 'x')) ==
          "1:8: the title has 201 characters: at most 200 are read");
    // What nobody sees, and what turns the direction of text round.
    for (const char* code : {"061c", "200b", "200e", "200f", "206a", "206f", "feff"}) {
        CAPTURE(code);
        CHECK(
            problem("title", std::string("\"a\\u") + code + "b\"").find("the title holds \"<U+") !=
            std::string::npos);
    }
    CHECK(problem("title", "\"a\\U000E0041b\"") ==
          "1:8: the title holds \"<U+E0041>\": a title is plain text on one line");
    CHECK(problem("title", "a\xE2\x80\x8F b").find("U+200F: delete it") != std::string::npos);
}

TEST_CASE("a number sign in a title needs quotes, a comment behind one does not") {
    CHECK(problem("title", "Blues #2") ==
          "1:14: YAML takes the rest of this line for a comment: put the value in quotes, or a "
          "blank after the # of a comment");
    CHECK(read("title", "Blues  # the slow one").title == "Blues");
}
