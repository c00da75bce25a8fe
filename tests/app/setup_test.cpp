// Setting up, as a player goes through it: by answers, by wrong ones, by options alone.

#include "../../src/app/setup_end.hpp"
#include "app/program.hpp"
#include "app/scripted_gear.hpp"
#include "app/scripted_talk.hpp"
#include "support/catch.hpp"

#include <compline/report/columns.hpp>

#include <cstdlib>
#include <sstream>

using namespace compline;
using namespace compline::tests;
using app::Conversation;
using midi::note_on;

namespace {

/// Settings of the test's own, for as long as it is there.
struct OwnSettings {
    TemporaryFolder folder;
    std::string before =
        std::getenv("XDG_CONFIG_HOME") == nullptr ? "" : std::getenv("XDG_CONFIG_HOME");

    OwnSettings() { ::setenv("XDG_CONFIG_HOME", folder.path().c_str(), 1); }
    ~OwnSettings() {
        before.empty() ? ::unsetenv("XDG_CONFIG_HOME")
                       : ::setenv("XDG_CONFIG_HOME", before.c_str(), 1);
    }
    [[nodiscard]] std::string text() const {
        const auto file = folder.file("compline") / "settings.yaml";
        return std::filesystem::exists(file) ? files::load_text(file) : "none";
    }
    [[nodiscard]] Ran types(const std::vector<std::string>& arguments) const {
        return run_compline(arguments, folder.path().string());
    }
};

/// One who plays E2 and so on, string by string, each on its channel.
std::vector<midi::Message> open_string(int string, int velocity = 80) {
    static const std::vector<int> open = {64, 59, 55, 50, 45, 40};
    return {note_on(string, open.at(static_cast<std::size_t>(string) - 1), velocity)};
}

std::vector<midi::Message> strum(int velocity) {
    std::vector<midi::Message> all;
    for (int string = 6; string >= 1; --string) {
        all.push_back(open_string(string, velocity).front());
    }
    return all;
}

void two_of_each(ScriptedGear& gear) {
    gear.outputs_there.found = {{"JACK", "system", 2, time::SampleRate(48000), true},
                                {"ALSA", "USB box", 2, time::SampleRate(48000), true}};
    gear.inputs_there.found = {{"ALSA", "Six Strings:Six Strings MIDI 1 20:0"},
                               {"ALSA", "Foot Board:Foot Board MIDI 1 24:0"}};
}

/// What setting up by these answers said and changed.
struct Path {
    ScriptedGear gear;
    std::string said;
    std::string changes;
    std::string done;
    bool held = false;
    std::size_t left = 0;

    void go(const std::string& step, const std::deque<std::string>& answers,
            const std::string& guitar = "") {
        app::SetupAnswers kept(guitar);
        ScriptedTalk talk(answers);
        held = app::hold(app::questions_of(step, {kept, gear, talk}), talk) == Conversation::held;
        said = talk.said;
        left = talk.left();
        changes.clear();
        for (const auto& line : kept.changes()) changes += line + "\n";
        done = std::exchange(gear.done, {});
        if (held) kept.write();
    }
};

struct GearedPath : Path {
    GearedPath() { two_of_each(gear); }
};

}  // namespace

TEST_CASE("a guitar as most have it changes nothing, another is kept as it was said", "[app]") {
    const OwnSettings settings;
    Path path;
    path.go("guitar", {"", "", "", ""});
    CHECK(path.held);
    CHECK(path.changes.empty());
    path.go("guitar", {"D2 A2 D3 G3 B3 E4", "2", "yes", "fingers"});
    CHECK(path.changes ==
          "tuning: D2 A2 D3 G3 B3 E4\ncapo: 2\nleft-handed: yes\nright-hand: fingers\n");
    CHECK(settings.text() ==
          "tuning: D2 A2 D3 G3 B3 E4\ncapo: 2\nleft-handed: yes\nright-hand: fingers\n");
    // Done again later: what is kept stands in the brackets, and can be taken back.
    path.go("guitar", {"", "0", "-", ""});
    CHECK(contains(path.said, "[D2 A2 D3 G3 B3 E4]"));
    CHECK(path.changes == "capo: 0\n");
}

TEST_CASE("every wrong answer of the guitar is told what is expected, and asked again", "[app]") {
    const OwnSettings settings;
    Path path;
    path.go("guitar", {"E2 H2", "", "12", "", "perhaps", "", "teeth", ""});
    CHECK(path.held);
    CHECK(path.left == 0);
    CHECK(path.changes.empty());
    CHECK(contains(path.said, "\"H2\" is no note with an octave"));
    CHECK(contains(path.said, "capo 12: expected a number from 0 to 11"));
    CHECK(contains(path.said, "perhaps: expected yes or no"));
    CHECK(contains(path.said, "right-hand teeth: expected pick"));
}

TEST_CASE("a guitar's own settings are kept for it alone, and it is the one from then on",
          "[app]") {
    const OwnSettings settings;
    Path path;
    path.go("guitar", {"", "3", "", ""}, "archtop");
    CHECK(path.changes == "capo of archtop: 3\n");
    CHECK(contains(settings.text(), "guitar: archtop\n"));
    CHECK(contains(settings.text(), "  archtop:\n    capo: 3\n"));
    path.go("guitar", {"", "4", "", ""});
    CHECK(path.changes == "capo of archtop: 4\n");
}

TEST_CASE("the band is heard by the output that is chosen, softly and then as loud as is wanted",
          "[app]") {
    const OwnSettings settings;
    GearedPath path;
    path.go("output", {"2", "", "louder", "louder", "louder", "softer", "yes"});
    CHECK(path.held);
    CHECK(path.changes == "out: ALSA:USB box\n");
    CHECK(path.done ==
          "plays on USB box at -12 dB; plays on USB box at -6 dB; plays on USB box at -0 dB; "
          "plays on USB box at -6 dB; ");
    CHECK(contains(path.said, "That is as loud as the band plays"));
    CHECK(contains(path.said, "is 6 dB louder after a moment"));
    CHECK(contains(path.said, "can harm hearing"));
    // What would be taken anyway is not written; by a part of its name it is the same.
    GearedPath usual;
    const OwnSettings others;
    usual.go("output", {"", "-"});
    CHECK(usual.changes.empty());
    CHECK(usual.done.empty());
    usual.go("output", {"usb", "-"});
    CHECK(usual.changes == "out: ALSA:USB box\n");
}

TEST_CASE("a band that is not heard can be heard by another output", "[app]") {
    const OwnSettings settings;
    GearedPath path;
    path.go("output", {"1", "", "no", "back", "2", "", "yes"});
    CHECK(path.held);
    CHECK(path.left == 0);
    CHECK(path.changes == "out: ALSA:USB box\n");
    GearedPath broken;
    broken.gear.breaks_down = true;
    broken.go("output", {"1", "", "-", "-"});
    CHECK(contains(broken.said, "system plays no more"));
    Path nothing;
    nothing.gear.outputs_there.empty = {{"ALSA", "no sound card"}};
    nothing.go("output", {});
    CHECK(nothing.held);
    CHECK(contains(nothing.said, "nothing to play the band through:\n  ALSA: no sound card"));
}

TEST_CASE("how a player hears himself decides what is said of delays", "[app]") {
    const OwnSettings settings;
    Path path;
    for (const auto& [answer, words] :
         {std::pair{"", "reaches you at once"}, std::pair{"interface", "direct monitoring"},
          std::pair{"both", "two attacks"}}) {
        path.go("monitoring", {"telepathy", answer});
        CHECK(path.held);
        CHECK(contains(path.said, "expected amplifier, interface or both"));
        CHECK(contains(path.said, words));
        CHECK(path.changes.empty());
    }
}

TEST_CASE("the guitar's input is chosen by its number or name, without ALSA's numbers", "[app]") {
    const OwnSettings settings;
    GearedPath path;
    path.go("input", {
                         "3",
                         "zither",
                         "strings",
                     });
    CHECK(path.held);
    CHECK(path.changes == "in: ALSA:Six Strings:Six Strings MIDI 1\n");
    CHECK(contains(path.said, "3: expected a number from 1 to 2"));
    CHECK(contains(path.said, "zither: none is called so: write a number from 1 to 2"));
    path.go("input", {"none"});
    CHECK(path.changes == "in: none\n");
    path.go("input", {""});  // as it is kept
    CHECK(path.changes.empty());
    const OwnSettings others;
    Path one;
    one.gear.inputs_there.found = {{"ALSA", "Six Strings MIDI 1 20:0"}};
    one.go("input", {""});
    CHECK(one.changes.empty());  // it would be taken anyway
}

TEST_CASE(
    "who has no MIDI pickup can be heard by the guitar's sound, and Enter alone asks for nothing",
    "[app]") {
    const OwnSettings settings;
    live::SoundInput box;
    box.api = "JACK";
    box.name = "system";
    Path path;
    path.gear.sounds_there.found = {box};
    path.go("input", {""});
    CHECK(path.changes.empty());
    CHECK(contains(path.said, "There is no MIDI input to hear you from"));
    CHECK(contains(path.said, "time alone is judged"));
    path.go("input", {"1"});
    CHECK(path.changes == "in: sound:JACK:system\n");
    path.go("input", {""});  // as it is kept
    CHECK(path.changes.empty());
    GearedPath both;
    both.gear.sounds_there.found = {box};
    both.go("input", {"3"});
    CHECK(contains(both.said, "  3  sound:JACK:system"));
    CHECK(both.held);
}

TEST_CASE("what a way of measuring found to be nothing takes out what was kept", "[app]") {
    const OwnSettings settings;
    Path path;
    path.gear.measured = app::DelaysMeasured{"found", {{"string-offsets", "5=8"}}};
    path.go("delays", {"guitar", "later"});
    CHECK(path.changes == "string-offsets: 5=8\n");
    path.gear.measured = app::DelaysMeasured{"found", {{"string-offsets", ""}}};
    path.go("delays", {"guitar", "later"});
    CHECK(path.changes == "string-offsets: as usual\n");
    CHECK(settings.text().empty());
}

TEST_CASE("what the unit sends is shown string by string, then soft and hard", "[app]") {
    const OwnSettings settings;
    GearedPath path;
    auto& bursts = path.gear.bursts;
    path.go("input", {"1"});
    bursts.push_back({note_on(6, 40, 80), midi::pitch_bend(6, 410)});
    bursts.push_back(open_string(4));  // the wrong one, once
    for (int string = 5; string >= 1; --string) bursts.push_back(open_string(string));
    bursts.push_back(strum(30));
    bursts.push_back(strum(127));
    path.go("strings", {"maybe", "yes", "12"});
    CHECK(path.held);
    CHECK(path.left == 0);
    CHECK(contains(path.said, "string 6: E2, 10 cents sharp: tune it, on channel 6"));
    CHECK(contains(path.said, "that was D3, on channel 4: string 5 is A2"));
    CHECK(contains(path.said, "string 5: A2, in tune, on channel 5"));
    CHECK(contains(path.said, "  1        30    127   the hard one is at the top"));
    CHECK(contains(path.said, "Your unit: a channel for each string, string 1 on channel 1."));
    CHECK(path.changes == "midi-pickup: bend=12\n");
}

TEST_CASE("strings that are not played are passed by Enter, and nothing is claimed of them",
          "[app]") {
    const OwnSettings settings;
    GearedPath path;
    path.go("input", {"1"});
    path.go("strings", {"", "!", "!low", "!", "!", "!", "!", "!", "!", "!"});
    CHECK(path.held);
    CHECK(path.left == 0);
    CHECK(contains(path.said, "nothing came from string 6"));
    CHECK(contains(path.said, "low: play, or press Enter to go on"));
    CHECK_FALSE(contains(path.said, "channel"));
    CHECK(path.changes.empty());
    path.go("strings", {"no"});
    CHECK(path.held);
    CHECK(path.done.empty());
}

TEST_CASE("a range of bends that the unit told is not asked for", "[app]") {
    const OwnSettings settings;
    GearedPath path;
    path.go("input", {"1"});
    auto first =
        std::vector<midi::Message>{midi::control_change(6, 101, 0), midi::control_change(6, 100, 0),
                                   midi::control_change(6, 6, 12)};
    first.push_back(note_on(6, 40, 80));
    path.gear.bursts = {first};
    path.go("strings", {"", "!", "!", "!", "!", "!", "!", "!"});
    CHECK(path.held);
    CHECK_FALSE(contains(path.said, "How many semitones"));
}

TEST_CASE("delays are measured by the way that is chosen, and what is found is kept", "[app]") {
    const OwnSettings settings;
    Path path;
    path.gear.measured = {"round trip 11.354 ms\n", {{"round-trip", "11.354"}, {"offset", "9"}}};
    path.go("delays", {"tape", "wire", "later"});
    CHECK(path.held);
    CHECK(path.done == "measures by wire; ");
    CHECK(contains(path.said, "tape: expected wire, guitar, click or later"));
    CHECK(contains(path.said, "round trip 11.354 ms\nHow late"));
    CHECK(path.changes == "round-trip: 11.354\noffset: 9\n");
    // One way after the other, until there is no more to measure.
    path.go("delays", {"guitar", "click", ""});
    CHECK(path.done == "measures by guitar; measures by click; ");
    path.gear.cannot_measure = true;
    path.go("delays", {"wire", ""});
    CHECK(path.held);
    CHECK(contains(path.said, "there is no sound input"));
    CHECK(path.changes.empty());
    path.gear.cannot_measure = false;
    path.gear.measured.reset();
    path.go("delays", {"wire", ""});
    CHECK(contains(path.said, "Left: nothing was measured"));
}

TEST_CASE("each switch of a pedal is pressed once for what it asks for", "[app]") {
    const OwnSettings settings;
    GearedPath path;
    path.go("pedal", {"yes"});
    CHECK_FALSE(path.held);  // who stops answering changes nothing
    CHECK(settings.text() == "none");
    GearedPath again;
    again.gear.bursts = {{midi::control_change(1, 64, 127)},
                         {midi::control_change(1, 64, 127)},  // it is taken
                         {midi::control_change(1, 67, 20), midi::control_change(1, 67, 127)},
                         {note_on(1, 36, 90)}};
    again.go("pedal", {"yes", "foot", "!", "!", "!", "!", "!", "!", "!", "!", "!"});
    INFO(again.said);
    CHECK(again.held);
    CHECK(contains(again.said, "that switch asks for loop here already"));
    CHECK(contains(again.changes, "pedal-in: ALSA:Foot Board:Foot Board MIDI 1 24:0\n"));
    CHECK(contains(again.changes, "pedal: 64=loop here, 67=leave the loop, note 36=pause\n"));
}

TEST_CASE("who has no pedal is asked no more about it", "[app]") {
    const OwnSettings settings;
    GearedPath path;
    path.go("pedal", {""});
    CHECK(path.held);
    CHECK(path.left == 0);
    CHECK(path.changes.empty());
}

TEST_CASE("no line of setting up is wider than a terminal", "[app]") {
    const OwnSettings settings;
    const auto err = settings.folder.file("err").string();
    for (const std::string way : {"amplifier", "interface", "both"}) {
        const auto line = "printf '\\n\\nmaybe\\nyes\\n\\n" + way +
                          "\\ntape\\n\\nlarge\\n\\n' | env " +
                          command_line({"setup"}, settings.folder.path().string()) + " 2>" + err;
        (void)run(line);  // with whatever devices there are
        std::istringstream lines(files::load_text(err));
        int count = 0;
        for (std::string shown; std::getline(lines, shown); ++count) {
            CAPTURE(shown);
            CHECK(report::columns_of(shown) <= report::terminal_columns);
        }
        CHECK(count > 20);
    }
}

TEST_CASE("what was answered is written once it is wanted, and else played by all the same",
          "[app]") {
    const OwnSettings settings;
    ScriptedGear gear;
    two_of_each(gear);
    bool written = false;
    bool together = false;
    const auto end = [&](app::SetupAnswers& answers, const std::deque<std::string>& lines) {
        written = together = false;
        ScriptedTalk talk(lines);
        const app::Setup setup{answers, gear, talk};
        (void)app::hold(
            {app::write_question(setup, &written), app::together_question(setup, &together)}, talk);
        return talk.said;
    };
    app::SetupAnswers answers("archtop");
    answers.set("in", "Six Strings");
    answers.set("capo", "2");
    const auto said = end(answers, {"hm", "no", "yes"});
    CHECK(contains(said, "This is new:\n  in: Six Strings\n  capo of archtop: 2\nWrite it to "));
    CHECK(contains(said, "Now F7 | Bb7 | F7 | C7 with the band, once through?"));
    CHECK_FALSE(written);
    CHECK(together);
    CHECK(settings.text() == "none");
    const std::vector<std::string> words = {"practice", "--changes", "F7 | Bb7 | F7 | C7",
                                            "--times", "1"};
    auto by_options = words;
    by_options.insert(by_options.end(), {"--in", "Six Strings", "--capo", "2"});
    CHECK(app::words_to_practise(answers, "archtop", written) == by_options);
    (void)end(answers, {"", "no"});
    CHECK(written);
    CHECK_FALSE(together);
    CHECK(contains(settings.text(), "in: Six Strings\n"));
    auto by_guitar = words;
    by_guitar.insert(by_guitar.end(), {"--guitar", "archtop"});
    CHECK(app::words_to_practise(answers, "archtop", written) == by_guitar);
    CHECK(app::words_to_practise(answers, "", written) == words);
    // Nothing new, and nobody to hear: nothing is asked.
    app::SetupAnswers nothing("");
    nothing.set("in", "none");
    nothing.write();
    app::SetupAnswers again("");
    CHECK(end(again, {}).empty());
}

TEST_CASE("all of it can be said by options, and no question is asked", "[app]") {
    const OwnSettings settings;
    const auto ran = settings.types({"setup", "--yes", "--tuning", "D2 A2 D3 G3 B3 E4", "--capo",
                                     "2", "--left-handed", "--view", "large", "--pedal",
                                     "64=loop here", "--in", "none", "--offset", "9",
                                     "--string-offsets", "5=8", "--round-trip", "11.3"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(settings.text() ==
          "tuning: D2 A2 D3 G3 B3 E4\ncapo: 2\nleft-handed: yes\nin: none\nround-trip: 11.3\n"
          "offset: 9\nstring-offsets: \"5=8\"\npedal: \"64=loop here\"\nview: large\n");
    CHECK(contains(ran.err, "compline practice mine.yaml --in none"));
    const auto again = settings.types({"setup", "--yes"});
    CHECK(again.status == 0);
    CHECK(contains(again.err, "Nothing differs"));
}

TEST_CASE("what setting up cannot take is refused, and nothing is written", "[app]") {
    const OwnSettings settings;
    const std::vector<std::pair<std::vector<std::string>, std::string>> refused = {
        {{"setup", "gitar"}, "did you mean guitar?"},
        {{"setup", "--yes", "--capo", "12"}, "--capo 12: expected a number from 0 to 11"},
        {{"setup", "--yes", "--tuning", "E2"}, "--tuning"},
        {{"setup", "--yes", "--view", "small"}, "--view small: expected rows or large"},
        {{"setup", "--yes", "--round-trip", "x"}, "--round-trip \"x\""},
        {{"setup", "--yes", "--pedal", "64=jump"}, "\"jump\" is no command"},
        {{"setup", "guitar", "--yes"}, "--yes asks no question"},
        {{"setup", "--yes", "--string-offsets", "9=1"}, "is no string's offset"},
    };
    for (const auto& [words, complaint] : refused) {
        const auto ran = settings.types(words);
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(contains(ran.err, complaint));
        CHECK(settings.text() == "none");
    }
}

TEST_CASE("the whole path is gone by Enter alone, and changes nothing that is as usual", "[app]") {
    const OwnSettings settings;
    Path path;
    path.gear.outputs_there.found = {{"JACK", "system", 2, time::SampleRate(48000), true}};
    path.gear.inputs_there.found = {{"ALSA", "Six Strings MIDI 1 20:0"}};
    auto& bursts = path.gear.bursts;
    for (int string = 6; string >= 1; --string) bursts.push_back(open_string(string));
    bursts.push_back(strum(30));
    bursts.push_back(strum(110));
    path.go("", std::deque<std::string>(14, ""));
    INFO(path.said);
    CHECK(path.held);
    CHECK(path.left == 0);
    CHECK(path.changes.empty());
    CHECK(path.done == "plays on system at -12 dB; listens to Six Strings MIDI 1 20:0; ");
    CHECK(contains(path.said, "  1        30    110   good"));
}

TEST_CASE("the whole path is gone with every answer wrong once, and ends as without", "[app]") {
    const OwnSettings settings;
    GearedPath path;
    auto& bursts = path.gear.bursts;
    bursts.push_back({note_on(6, 38, 80)});
    for (int string = 5; string >= 1; --string) bursts.push_back(open_string(string));
    bursts.push_back(strum(30));
    bursts.push_back(strum(110));
    bursts.push_back({midi::control_change(1, 64, 127)});
    std::deque<std::string> answers;
    for (const auto& [wrong, right] :
         std::vector<std::pair<std::string, std::string>>{{"six", "D2 A2 D3 G3 B3 E4"},
                                                          {"-1", "0"},
                                                          {"left", "no"},
                                                          {"toes", "fingers"},
                                                          {"0", "2"},
                                                          {"loud", ""},
                                                          {"perhaps", "y"},
                                                          {"ears", "both"},
                                                          {"a", "six"},
                                                          {"show me", "y"},
                                                          {"wide", "12"},
                                                          {"guess", "later"},
                                                          {"1", "yes"},
                                                          {"9", "foot"},
                                                          {"small", "large"}}) {
        // Between the pedal's input and the view its switches are pressed, or not.
        if (right == "large") answers.insert(answers.end(), 11, "!");
        answers.push_back(wrong);
        answers.push_back(right);
    }
    path.go("", answers);
    INFO(path.said);
    CHECK(path.held);
    CHECK(path.left == 0);
    CHECK(path.changes ==
          "tuning: D2 A2 D3 G3 B3 E4\nright-hand: fingers\nout: ALSA:USB box\n"
          "in: ALSA:Six Strings:Six Strings MIDI 1\nmidi-pickup: bend=12\n"
          "pedal-in: ALSA:Foot Board:Foot Board MIDI 1 24:0\npedal: 64=loop here\nview: large\n");
}

TEST_CASE("who answers nothing at no terminal is told how to say it, and nothing is written",
          "[app]") {
    const OwnSettings settings;
    const auto answered = [&](const std::string& words) {
        const auto err = settings.folder.file("err").string();
        const auto ran =
            run("printf '" + words + "' | " + "env " +
                command_line({"setup", "guitar"}, settings.folder.path().string()) + " 2>" + err);
        return std::pair{ran.status, files::load_text(err)};
    };
    const auto [nothing, told] = answered("");
    CHECK(nothing == 2);
    CHECK(contains(told, "Stopped: nothing was written."));
    CHECK(contains(told, "say by options what differs from what is usual, and --yes"));
    CHECK(answered("\\n2\\n").first == 2);
    CHECK(settings.text() == "none");
    CHECK(answered("\\n2\\n\\n\\nno\\n").first == 0);
    CHECK(settings.text() == "none");
    CHECK(answered("\\n2\\n\\n\\nyes").first == 0);
    CHECK(settings.text() == "capo: 2\n");
}
