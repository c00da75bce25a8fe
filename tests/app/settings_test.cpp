// Settings as a player has them: shown, set, and taken where nothing was typed.

#include "../src/app/settings_file.hpp"
#include "app/program.hpp"
#include "support/catch.hpp"

#include <nlohmann/json.hpp>

#include <map>
#include <sstream>

using namespace compline;
using namespace compline::tests;
using app::ProgramCommand;

namespace {

/// A player's own folder of settings.
struct Player {
    TemporaryFolder folder;

    [[nodiscard]] std::string config() const { return folder.path().string(); }
    [[nodiscard]] std::filesystem::path file() const {
        return folder.file("compline") / "settings.yaml";
    }
    void writes(const std::string& text) const {
        std::filesystem::create_directory(folder.file("compline"));
        files::save_text(file(), text, files::Existing::replace);
    }
    [[nodiscard]] Ran types(const std::vector<std::string>& arguments) const {
        return run_compline(arguments, config());
    }
    [[nodiscard]] std::string says() const { return files::load_text(file()); }
};

std::vector<std::string> with(std::vector<std::string> words,
                              const std::vector<std::string>& more) {
    words.insert(words.end(), more.begin(), more.end());
    return words;
}

std::string a_take(const TemporaryFolder& folder) {
    const auto path = folder.file("band.mid").string();
    REQUIRE(run_compline({"render", blues(), path, "--count-in", "0"}).status == 0);
    return path;
}

std::vector<ProgramCommand> commands() {
    return {app::practice_command(), app::render_command(), app::score_command(),
            app::compare_command(),  app::plan_command(),   app::show_command()};
}

/// The command with readers that write down what they are given; what was read by which.
ProgramCommand writing_down(ProgramCommand command, std::vector<std::string>& read) {
    for (auto* options : {&command.options, &command.settled}) {
        for (auto& option : *options) {
            if (!option.setting) continue;
            option.setting->read = [&read](const std::string& place, const std::string& text) {
                read.push_back(place + " = " + text);
            };
        }
    }
    command.port = {};
    return command;
}

}  // namespace

TEST_CASE("a setting is written, shown with its line, and taken out again", "[app]") {
    const Player player;
    CHECK(contains(player.types({"settings"}).out, "not there yet: all is as usual"));
    const auto set = player.types({"settings", "set", "tolerance", "40"});
    INFO(shown(set));
    CHECK(set.status == 0);
    CHECK(player.says() == "tolerance: 40\n");
    CHECK((std::filesystem::status(player.file()).permissions() &
           (std::filesystem::perms::group_all | std::filesystem::perms::others_all)) ==
          std::filesystem::perms::none);
    CHECK(player.types({"settings", "set", "offset", "-4"}).status == 0);
    CHECK(player.types({"settings", "set", "capo", "2", "--guitar", "archtop"}).status == 0);
    CHECK(player.types({"settings", "set", "guitar", "archtop"}).status == 0);
    const auto all = player.types({"settings"});
    INFO(shown(all));
    CHECK(contains(all.out, "tolerance       40                                        line 1"));
    CHECK(contains(all.out, "rhythm          the chart's, else free                    default"));
    CHECK(contains(all.out, "guitar archtop, taken where no port says otherwise"));
    const auto json = nlohmann::json::parse(player.types({"settings", "--json"}).out);
    CHECK(json["guitars"][0]["settings"][0]["value"] == "2");
    CHECK(player.types({"settings", "unset", "tolerance"}).status == 0);
    CHECK_FALSE(contains(player.says(), "tolerance"));
}

TEST_CASE("no line of the settings is wider than a terminal", "[app]") {
    const Player player;
    player.writes("mix: drums=-6\n");
    std::istringstream lines(player.types({"settings"}).out);
    std::string first;
    std::getline(lines, first);  // the path is as long as it is
    for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 80);
}

TEST_CASE("a setting that none can have is refused, and the file stays as it was", "[app]") {
    const Player player;
    player.writes("out: USB # the small box\n");
    const std::vector<std::pair<std::vector<std::string>, std::string>> refused = {
        {{"set", "tolrance", "4"}, "there is no setting tolrance: did you mean tolerance?"},
        {{"set", "tolerance", "wide"}, "tolerance wide: expected a number from 1 to 200"},
        {{"set", "tuning", "E2 H2 D3 G3"}, "\"H2\" is no note with an octave"},
        {{"set", "capo", "30"}, "capo 30: expected a number from 0 to 11"},
        {{"set", "verdicts", "maybe"}, "verdicts maybe: expected yes or no"},
        {{"set", "mix", "drums=-400"}, "\"-400\" for drums"},
        {{"set", "voicings", "shels"}, "did you mean shells?"},
        {{"set", "guitar", "lute"}, "there is no guitar \"lute\": no guitars are described yet"},
        {{"set", "out", "USB", "--guitar", "lute"}, "of those that each guitar has"},
        {{"set", "offset", "1001"}, "offset 1001: expected a number from -1000 to 1000"},
        {{"set", "string-offsets", "9=3"}, "string-offsets \"9=3\": \"9=3\" is no string's offset"},
        {{"set", "string-offsets", "6=60"}, "\"60\" for 6: write milliseconds from -50 to 50"},
        {{"set", "round-trip", "fast"}, "round-trip \"fast\": \"fast\" is no round trip"},
        {{"set", "round-trip", "11 at home"}, "\"home\" does not say what it was measured on"},
        {{"set", "round-trip", "11", "--guitar", "lute"}, "of those that each guitar has"},
        {{"set", "out"}, "write compline settings alone, compline settings set KEY VALUE"},
        {{"unset"}, "write compline settings alone"},
        {{"show", "all"}, "write compline settings alone"},
    };
    for (const auto& [words, complaint] : refused) {
        const auto ran = player.types(with({"settings"}, words));
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(contains(ran.err, complaint));
        CHECK(player.says() == "out: USB # the small box\n");
    }
}

TEST_CASE("settings that cannot be read or written say so, and no command goes on", "[app]") {
    const Player player;
    const auto take = a_take(player.folder);
    player.writes("tolerance: wide\n");
    const auto bad_value = player.types({"score", take, "--chart", blues()});
    INFO(shown(bad_value));
    CHECK(bad_value.status == 2);
    CHECK(contains(bad_value.err, "settings.yaml:1:12: tolerance wide: expected a number from 1"));
    player.writes("rhythm: 1 7\n");
    const auto bad_rhythm = player.types({"score", take, "--chart", blues()});
    CHECK(bad_rhythm.status == 2);
    CHECK(contains(bad_rhythm.err, "settings.yaml:1:9: rhythm \"1 7\": "));
    player.writes("tolrance: 4\n");
    for (const char* command : {"plan", "show"}) {
        const auto ran = player.types({command, blues()});
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(contains(ran.err, "settings.yaml:1:1: \"tolrance\" is not a key of a settings file"));
        CHECK(player.types({command, blues(), "--no-settings"}).status == 0);
    }
    // What reads no settings does not care.
    CHECK(player.types({"check", blues()}).status == 0);
    std::filesystem::remove(player.file());
    std::filesystem::create_directory(player.file());
    const auto folder = player.types({"plan", blues()});
    CHECK(folder.status == 2);
    CHECK(contains(folder.err, "settings.yaml"));
    const auto nowhere =
        run_compline({"settings", "set", "out", "USB"}, player.folder.file("band.mid").string());
    INFO(shown(nowhere));
    CHECK(nowhere.status == 1);
    CHECK(contains(nowhere.err, "band.mid: the folder cannot be made: "));
}

TEST_CASE("an option comes before a setting, a setting before what is usual", "[app]") {
    const Player player;
    const auto take = a_take(player.folder);
    const std::vector<std::string> score = {"score", take, "--chart", blues(), "--json"};
    const std::vector<std::string> plan = {"plan", blues(), "--bars", "1-4", "--json"};
    struct Row {
        std::vector<std::string> command;
        std::string key;
        std::string value;
        std::vector<std::string> typed;  ///< the same by an option
        std::vector<std::string> other;
    };
    const std::vector<Row> rows = {
        {score, "tolerance", "11", {"--tolerance", "11"}, {"--tolerance", "90"}},
        {score, "rhythm", "four", {"--rhythm", "four"}, {"--rhythm", "1 3"}},
        {score, "strictness", "written", {"--strictness", "written"}, {"--strictness", "working"}},
        {score, "against", "beat", {"--against", "beat"}, {"--against", "own"}},
        {score, "pushes", "no", {"--no-pushes"}, {}},
        {score, "midi-pickup", "poly", {"--midi-pickup", "poly"}, {"--midi-pickup", "cycles=0"}},
        {plan,
         "tuning",
         "D2 A2 D3 G3 B3 E4",
         {"--tuning", "D2 A2 D3 G3 B3 E4"},
         {"--tuning", "E2 A2 D3 G3 B3 D4"}},
        {plan, "capo", "2", {"--capo", "2"}, {"--capo", "1"}},
        {plan, "frets", "24", {"--frets", "24"}, {"--frets", "19"}},
        {plan, "style", "shells", {"--style", "shells"}, {"--style", "rootless"}},
        {plan, "strings", "4321", {"--strings", "4321"}, {"--strings", "6543"}},
        {plan, "near", "9", {"--near", "9"}, {"--near", "3"}},
        {plan, "position", "5", {"--position", "5"}, {"--position", "12"}},
        {plan, "root", "above", {"--root", "above"}, {"--root", "bottom"}},
        {plan, "right-hand", "fingers", {"--right-hand", "fingers"}, {"--right-hand", "pick"}},
        {plan, "open", "yes", {"--open"}, {}},
        {plan, "thumb", "yes", {"--thumb"}, {}},
        {plan, "moving", "yes", {"--moving"}, {}},
        {{"show", blues()},
         "accidentals",
         "letters",
         {"--accidentals", "letters"},
         {"--accidentals", "signs"}},
        {{"plan", blues(), "--bars", "1-2"}, "left-handed", "yes", {"--left-handed"}, {}},
    };
    std::map<std::vector<std::string>, Ran> plain;
    for (const auto& row : rows) {
        CAPTURE(row.key);
        player.writes(row.key + ": " + row.value + "\n");
        const bool is_first = plain.count(row.command) == 0;
        if (is_first) plain[row.command] = run_compline(row.command);
        const auto& usual = plain.at(row.command);
        const auto settled = player.types(row.command);
        INFO(shown(settled));
        CHECK(settled.status == 0);
        CHECK(settled.out == run_compline(with(row.command, row.typed)).out);
        const bool shows = row.key != "thumb" && row.key != "moving" && row.key != "midi-pickup";
        if (shows) CHECK(settled.out != usual.out);
        if (is_first) CHECK(player.types(with(row.command, {"--no-settings"})).out == usual.out);
        if (row.other.empty()) continue;
        CHECK(player.types(with(row.command, row.other)).out ==
              run_compline(with(row.command, row.other)).out);
    }
    // A page, and the band.
    const auto written = [&](const std::vector<std::string>& words, const std::string& config) {
        REQUIRE(run_compline(with(words, {"--replace"}), config).status == 0);
        return files::load_text(words[2] == "--html" ? words[3] : words[2]);
    };
    const auto page = player.folder.file("page.html").string();
    player.writes("paper: letter\nmix: bass=off\npan: bass=-1\n");
    for (const char* command : {"plan", "show"}) {
        CHECK(written({command, blues(), "--html", page}, player.config()) ==
              written({command, blues(), "--html", page, "--paper", "letter"}, no_settings_folder));
        CHECK(written({command, blues(), "--html", page, "--paper", "a4"}, player.config()) ==
              written({command, blues(), "--html", page}, no_settings_folder));
    }
    const auto band = player.folder.file("out.mid").string();
    CHECK(written({"render", blues(), band}, player.config()) ==
          written({"render", blues(), band, "--mix", "bass=off", "--pan", "bass=-1"},
                  no_settings_folder));
    CHECK(
        written({"render", blues(), band, "--mix", "bass=3", "--pan", "bass=1"}, player.config()) ==
        written({"render", blues(), band, "--mix", "bass=3", "--pan", "bass=1"},
                no_settings_folder));
}

TEST_CASE("every setting of every command is taken where nothing was typed, and only there",
          "[app]") {
    for (const auto& command : commands()) {
        for (const auto& option : app::settings_of(command)) {
            const auto& key = option.setting->key;
            CAPTURE(command.name, key);
            std::vector<std::string> read;
            const auto listening = writing_down(command, read);
            settings::AllSettings settings;
            settings.all.push_back({key, "all", "s.yaml:1:1", 1});
            app::apply_settings(listening, settings, {}, "");
            // Of one name are the tones that are right and those that voicings may have.
            const auto who = read.size();
            const bool both = command.name == "practice" || command.name == "score";
            CHECK(who == (key == "strictness" && both ? 2U : 1U));
            CHECK(read.front() == "s.yaml:1:1: " + key + " = all");
            app::apply_settings(listening, settings, {option.name}, "");
            CHECK(read.size() == who);
            if (!option.setting->of_guitar) continue;
            settings.guitars.push_back({"lute", "s.yaml:3:3", "", {{key, "own", "s.yaml:4:4", 4}}});
            app::apply_settings(listening, settings, {}, "lute");
            CHECK(read.back() == "s.yaml:4:4: " + key + " = own");
            app::apply_settings(listening, settings, {option.name}, "lute");
            CHECK(read.size() == who + 2);
        }
    }
}

TEST_CASE("a take is judged by the delays of the settings only where that is asked for", "[app]") {
    const Player player;
    const auto take = a_take(player.folder);
    player.writes(
        "offset: 9\nstring-offsets: 5=8\nmidi-pickup: cycles=1.4\n"
        "round-trip: 11.354 at 48000/256 by JACK:system\n"
        "guitars:\n  lute: {offset: 4, string-offsets: 1=-2}\n");
    const std::vector<std::string> score = {"score", take, "--chart", blues(), "--json"};
    const auto delays = [&](const std::vector<std::string>& typed) {
        const auto ran = player.types(with(score, typed));
        INFO(shown(ran));
        REQUIRE(ran.status == 0);
        const auto report = nlohmann::json::parse(ran.out);
        return report.contains("delays") ? report["delays"].dump() : "none";
    };
    CHECK(delays({}) == "none");
    CHECK(delays({"--delays", "take"}) == "none");
    const auto by = [](const std::string& by_string, const std::string& ms,
                       const std::string& cycles) {
        return R"({"by":"settings","by_string_ms":)" + by_string + R"(,"constant_ms":)" + ms +
               R"(,"cycles":)" + cycles + R"(,"moved_ms":null})";
    };
    const std::string fifth = "[0.0,0.0,0.0,0.0,8.0]";
    CHECK(delays({"--delays", "settings"}) == by(fifth, "9.0", "1.4"));
    // That --offset is another: where bar 1 is.
    CHECK(delays({"--delays", "settings", "--offset", "100"}) == by(fifth, "9.0", "1.4"));
    CHECK(delays({"--delays", "settings", "--midi-pickup", "cycles=2"}) == by(fifth, "9.0", "2.0"));
    CHECK(delays({"--delays", "settings", "--guitar", "lute"}) == by("[-2.0]", "4.0", "1.4"));
    CHECK(delays({"--delays", "settings", "--no-settings"}) == by("[]", "0.0", "1.5"));
    const auto words = player.types({"score", take, "--chart", blues(), "--delays", "settings"});
    CHECK(contains(words.out, "Delays   by your settings: 9 ms and 1.4 cycles of the wave, "));
    CHECK(
        player.types({"compare", take, take, "--chart", blues(), "--delays", "settings"}).status ==
        0);
    const auto other = player.types(with(score, {"--delays", "mine"}));
    CHECK(other.status == 2);
    CHECK(contains(other.err, "--delays mine: expected take or settings"));
    player.writes("string-offsets: 7=3\n");
    const auto seventh = player.types(with(score, {"--delays", "settings"}));
    INFO(shown(seventh));
    CHECK(seventh.status == 2);
    CHECK(contains(seventh.err,
                   "settings.yaml:1:17: string-offsets \"7=3\": there is no string 7: the guitar "
                   "has 6"));
}

TEST_CASE("a guitar is known by its port, else by its name, else the usual one is taken", "[app]") {
    settings::AllSettings settings;
    settings.all = {{"capo", "1", "", 1}, {"guitar", "lute", "", 2}};
    settings.guitars = {{"archtop", "", "Six", {{"capo", "2", "", 3}}},
                        {"lute", "", "", {{"capo", "3", "", 4}}}};
    std::vector<std::string> read;
    auto command = writing_down(app::practice_command(), read);
    const auto capo = [&](const std::string& port, const std::string& asked) {
        read.clear();
        command.port = [port] { return port; };
        app::apply_settings(command, settings, {}, asked);
        return read.back().substr(read.back().size() - 1);
    };
    CHECK(capo("JACK:my SIX way", "") == "2");
    CHECK(capo("JACK:keys", "") == "3");
    CHECK(capo("", "") == "3");
    CHECK(capo("JACK:my SIX way", "lute") == "3");
    std::string refused;
    try {
        (void)capo("", "luth");
    } catch (const app::BadInput& bad) {
        refused = bad.what();
    }
    CHECK(contains(refused, "--guitar luth: there is no guitar \"luth\""));
    CHECK(contains(refused, "did you mean lute?"));
}

TEST_CASE("a chart's own rhythm comes before that of the settings", "[app]") {
    const Player player;
    player.writes("rhythm: four\n");
    const auto chart = [&](const std::string& rhythm) {
        return text_file(player.folder, "own.yaml",
                         "title: Own\nkey: C\nmeter: 4/4\ntempo: 120\nfeel: swing\n" + rhythm +
                             "sections:\n  A: C6 | Dm7 | G7 | C6\n");
    };
    const auto take = player.folder.file("own.mid").string();
    REQUIRE(run_compline({"render", chart(""), take}).status == 0);
    const auto rhythm = [&](const std::string& path) {
        const auto ran = player.types({"score", take, "--chart", path, "--json"});
        INFO(shown(ran));
        return nlohmann::json::parse(ran.out)["settings"]["rhythm"].get<std::string>();
    };
    CHECK(rhythm(chart("")) == "four");
    CHECK(rhythm(chart("rhythm: 1 3\n")) == "1 3");
}
