// compline demo: five planted mistakes found, and files that a player can use.

#include "app/program.hpp"
#include "support/schema.hpp"

#include <compline/sound/wav.hpp>

#include <unistd.h>

#include <cmath>
#include <iterator>

using namespace compline;
using namespace compline::tests;

namespace {

double energy(const std::vector<float>& side) {
    double sum = 0;
    for (const float sample : side) sum += static_cast<double>(sample) * sample;
    return sum;
}

std::size_t files_in(const std::filesystem::path& folder) {
    return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(folder),
                                                  std::filesystem::directory_iterator()));
}

}  // namespace

TEST_CASE("the demo finds its five mistakes, and its files say the same", "[app]") {
    const TemporaryFolder place;
    const auto folder = place.file("my demo").string();
    const auto ran = run_compline({"demo", "--folder", folder});
    INFO(shown(ran));
    REQUIRE(ran.status == 0);
    CHECK(ran.err.empty());
    CHECK(contains(ran.out, "Found 5 of 5 planted mistakes, reported 0 that were not there."));
    CHECK_FALSE(contains(ran.out, "NOT "));

    const auto chart = folder + "/blue-kettle-on-the-back-stairs.yaml";
    CHECK(files::load_text(chart) == files::load_text(blues()));
    // The take scored from its file gives the report that was made before it was written.
    const auto scored = run_compline({"score", folder + "/take.mid", "--chart", chart, "--json"});
    CHECK(scored.status == 0);
    CHECK(scored.out == files::load_text(folder + "/report.json"));
    const auto words = run_compline({"score", folder + "/take.mid", "--chart", chart});
    CHECK(contains(ran.out, words.out));

    // The plan that the guitarist played, as a page.
    CHECK(contains(ran.out, "voicings.html"));
    CHECK(contains(ran.out, "printed, is in\n" + folder + "/report.html\n"));
    CHECK(contains(files::load_text(folder + "/report.html"), "<section class=\"strip\""));
    const auto page = files::load_text(folder + "/voicings.html");
    CHECK(contains(page, "Blue Kettle on the Back Stairs"));
    CHECK(contains(page, "<svg"));

    // 24 bars after two of count-in: band left, guitarist right, both to be heard.
    const auto wav = sound::read_wav(folder + "/demo.wav");
    CHECK(static_cast<double>(wav.sound.left.size()) / 48000 > 26 * 4 * 60.0 / 132);
    CHECK(energy(wav.sound.left) > 1);
    CHECK(energy(wav.sound.right) > 1);
    // In the count-in the guitarist is silent.
    const std::vector<float> count_in(wav.sound.right.begin(), wav.sound.right.begin() + 48000 * 3);
    CHECK(energy(count_in) == 0);

    if (!outside_python_module("jsonschema")) return;
    const auto checked = check_schema({scored.out});
    INFO(checked.output);
    CHECK(checked.status == 0);
}

TEST_CASE("the demo twice gives the same files, with another number another performance", "[app]") {
    const TemporaryFolder place;
    const auto folder = place.file("demo").string();
    const auto first = run_compline({"demo", "--folder", folder});
    const auto take = files::load_bytes(folder + "/take.mid");
    const auto wav = files::load_bytes(folder + "/demo.wav");
    const auto again = run_compline({"demo", "--folder", folder});
    INFO(shown(again));
    CHECK(again.status == 0);
    CHECK(again.out == first.out);
    CHECK(files::load_bytes(folder + "/take.mid") == take);
    CHECK(files::load_bytes(folder + "/demo.wav") == wav);
    // Other files are replaced when asked.
    const auto refused = run_compline({"demo", "--folder", folder, "--seed", "8"});
    INFO(shown(refused));
    CHECK(refused.status == 2);
    CHECK(refused.out.empty());
    CHECK(refused.err ==
          folder + "/take.mid is there already: give another --folder, or --replace\n");
    CHECK(files::load_bytes(folder + "/take.mid") == take);
    const auto other = run_compline({"demo", "--folder", folder, "--seed", "8", "--replace"});
    INFO(shown(other));
    CHECK(other.status == 0);
    CHECK(other.out != first.out);
    CHECK(files::load_bytes(folder + "/take.mid") != take);
}

TEST_CASE("the demo writes over no other file, nor through a link, before it writes any", "[app]") {
    const TemporaryFolder place;
    const std::vector<std::string> demo{"demo", "--folder", place.path().string()};
    auto replacing = demo;
    replacing.emplace_back("--replace");
    const auto refuses = [&](const std::vector<std::string>& arguments, const std::string& name,
                             const std::string& words) {
        const auto ran = run_compline(arguments);
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(ran.out.empty());
        CHECK(ran.err == place.file(name).string() + words);
        CHECK(files_in(place.path()) == 1);
        std::filesystem::remove(place.file(name));
    };
    for (const std::string name :
         {"blue-kettle-on-the-back-stairs.yaml", "report.json", "demo.wav"}) {
        text_file(place, name, "mine");
        refuses(demo, name, " is there already: give another --folder, or --replace\n");
    }
    const TemporaryFolder outside;
    std::filesystem::create_symlink(outside.file("behind"), place.file("voicings.html"));
    refuses(demo, "voicings.html", " is a link, not a file: give another --folder\n");
    std::filesystem::create_symlink(outside.file("behind"), place.file("demo.wav"));
    refuses(replacing, "demo.wav", " is a link, not a file: give another --folder\n");
    CHECK(std::filesystem::is_empty(outside.path()));
    std::filesystem::create_directory(place.file("take.mid"));
    refuses(replacing, "take.mid", " is a folder, not a file: give another --folder\n");
}

TEST_CASE("the demo refuses numbers and folders that are none", "[app]") {
    for (const std::string seed : {"-1", "1.5", "x", "nan", "1000001"}) {
        const auto ran = run_compline({"demo", "--seed=" + seed});
        INFO(shown(ran));
        CHECK(ran.status == 2);
        CHECK(contains(ran.err, "--seed " + seed + ": expected a "));
    }
    CHECK(run_compline({"demo", "--folder", ""}).status == 2);
}

TEST_CASE("the demo where it may not write is status 1 with the reason", "[app]") {
    const TemporaryFolder place;
    const auto file = text_file(place, "file", "");
    const auto beneath = run_compline({"demo", "--folder", file + "/demo"});
    INFO(shown(beneath));
    CHECK(beneath.status == 1);
    CHECK(contains(beneath.err, "/demo: the folder cannot be made: Not a directory"));

    if (::geteuid() == 0) return;  // root may write anywhere
    const auto locked = place.file("locked");
    std::filesystem::create_directory(locked);
    std::filesystem::permissions(
        locked, std::filesystem::perms::owner_read | std::filesystem::perms::owner_exec);
    const auto ran = run_compline({"demo", "--folder", locked.string()});
    std::filesystem::permissions(locked, std::filesystem::perms::owner_all);
    INFO(shown(ran));
    CHECK(ran.status == 1);
    CHECK(contains(ran.err, "locked"));
}
