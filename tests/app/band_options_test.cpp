// What a player may ask of the band, and what is said when it cannot be.

#include "program.hpp"
#include "support/catch.hpp"
#include "support/temporary_folder.hpp"

#include <compline/midi/smf.hpp>

#include <cmath>

using namespace compline::tests;

namespace {

Ran render(const TemporaryFolder& folder, const std::vector<std::string>& more) {
    std::vector<std::string> arguments{"render", blues(), folder.file("out.mid").string(),
                                       "--replace"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return run_compline(arguments);
}

}  // namespace

TEST_CASE("all that can be asked of the band at once is played", "[app]") {
    const TemporaryFolder folder;
    const auto ran =
        render(folder, {"--drums", "brushes",   "--bass",    "two-feel",  "--feel",     "ballad",
                        "--swing", "62%",       "--silence", "4:4 drums", "--hi-hat",   "2",
                        "--fills", "--crash",   "--place",   "bass=+8",   "--mix",      "drums=-6",
                        "--pan",   "bass=-0.5", "--seed",    "5",         "--count-in", "1"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "after 1 bar of count-in"));
}

TEST_CASE("a wish that the band cannot meet is named, with what it can do", "[app]") {
    const TemporaryFolder folder;
    const auto refuses = [&](const std::vector<std::string>& options, const std::string& words) {
        const auto ran = render(folder, options);
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(contains(ran.err, words));
        CHECK_FALSE(std::filesystem::exists(folder.file("out.mid")));
    };
    refuses({"--drums", "loud"}, "--drums: ");
    refuses({"--bass", "funky"}, "two-feel");
    refuses({"--feel", "samba"}, "bossa");
    refuses({"--phrasing", "breath"},
            "--phrasing: \"breath\" is not a phrasing: write even or breathing");
    refuses({"--swing", "4:1"}, "--swing: ");
    refuses({"--click", "5"}, "--click \"5\": \"5\" is not where to click");
    refuses({"--click", "2 4", "--drums", "ride"}, "leave out one of them");
    refuses({"--silence", "4"}, "--silence \"4\": \"4\" is not a silence");
    refuses({"--place", "bass=25"}, "from -20 to 20");
    refuses({"--mix", "piano=3"}, "\"piano\" is nobody in the band");
    refuses({"--pan", "bass=left"}, "-1 is left, 1 right");
    refuses({"--hi-hat", "2&"}, "the foot closes on beats");
    refuses({"--road-map", "head x0"}, "--road-map ");
    refuses({"--road-map", "head x2", "--times", "3"}, "leave out --bars");
    refuses({"--melody", "nowhere.mid"}, "nowhere.mid");
    refuses({"--melody", blues()}, "byte 0");
    refuses({"--seed", "-1"}, "--seed -1: expected a number from 0");
    refuses({"--count-in", "3"}, "--count-in 3: expected a number from 0 to 2");
}

TEST_CASE("a slow tempo is counted in with one bar, others with two", "[app]") {
    const TemporaryFolder folder;
    CHECK(contains(render(folder, {"--tempo", "79"}).out, "after 1 bar of"));
    CHECK(contains(render(folder, {"--tempo", "80"}).out, "after 2 bars"));
    CHECK(contains(render(folder, {"--tempo", "79", "--count-in", "2"}).out, "after 2 bars"));
}

TEST_CASE("another seed is another bass line, the same seed the same", "[app]") {
    const TemporaryFolder folder;
    const auto bytes = [&](const std::string& seed) {
        REQUIRE(render(folder, {"--seed", seed}).status == 0);
        return compline::files::load_text(folder.file("out.mid"));
    };
    const auto one = bytes("1");
    CHECK(bytes("1") == one);
    CHECK(bytes("2") != one);
}

TEST_CASE("the player's phrasing goes before the chart's, which goes before even", "[app]") {
    const TemporaryFolder folder;
    const auto text = compline::files::load_text(blues());
    const auto breathing = text_file(folder, "breathing.yaml", "phrasing: breathing\n" + text);
    const auto bytes = [&](const std::string& chart, std::vector<std::string> options) {
        options.insert(options.begin(),
                       {"render", chart, folder.file("out.mid").string(), "--replace"});
        REQUIRE(run_compline(options).status == 0);
        return compline::files::load_text(folder.file("out.mid"));
    };
    const auto even = bytes(blues(), {});
    CHECK(bytes(blues(), {"--phrasing", "even"}) == even);
    const auto breathes = bytes(blues(), {"--phrasing", "breathing"});
    CHECK(breathes != even);
    CHECK(bytes(breathing, {}) == breathes);
    CHECK(bytes(breathing, {"--phrasing", "even"}) == even);
}

TEST_CASE("where no way through is asked for the tune ends, a passage and a plan do not", "[app]") {
    const TemporaryFolder folder;
    const auto bars = [&](const std::vector<std::string>& options) {
        REQUIRE(render(folder, options).status == 0);
        const auto file =
            compline::midi::read_smf(compline::files::load_bytes(folder.file("out.mid")));
        return std::lround(compline::midi::flatten(file.file).length.count() * 132 / 60 / 4);
    };
    constexpr int count_in = 2;
    constexpr int held = 2;
    CHECK(bars({}) == count_in + 12 + held);
    CHECK(bars({"--times", "2"}) == count_in + 24 + held);
    CHECK(bars({"--road-map", "none"}) == count_in + 12 + held);
    CHECK(bars({"--bars", "1-12"}) == count_in + 12 + held);
    CHECK(bars({"--bars", "9-12"}) == count_in + 4);
    CHECK(bars({"--bars", "1-4", "--times", "3"}) == count_in + 12);
    CHECK(bars({"--road-map", "head x2"}) == count_in + 24);
    CHECK(bars({"--road-map", "head; held ending"}) == count_in + 12 + held);
}

TEST_CASE("a plain bass is asked for alone or beside its manner, and leaves notes out", "[app]") {
    const TemporaryFolder folder;
    const auto size = [&](const std::string& bass) {
        REQUIRE(render(folder, {"--bass", bass, "--times", "4"}).status == 0);
        return compline::files::load_text(folder.file("out.mid")).size();
    };
    CHECK(size("plain") < size("walking"));
    CHECK(size("walking, plain") == size("plain"));
}

TEST_CASE("practice refuses voicings that it does not understand before anything sounds", "[app]") {
    const auto ran = run_compline({"practice", blues(), "--voicings", "loud", "--in", "none"});
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(ran.out.empty());
    CHECK(contains(ran.err, "--voicings"));
    CHECK(contains(ran.err, "loud"));
}
