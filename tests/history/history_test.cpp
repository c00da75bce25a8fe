// What weeks of practice leave behind, in a file.

#include "support/catch.hpp"
#include "support/full_disk.hpp"
#include "support/judged_rows.hpp"
#include "support/temporary_folder.hpp"

#include <compline/files/file_io.hpp>
#include <compline/history/history.hpp>
#include <compline/text/bad_input.hpp>

#include <sys/stat.h>

using namespace compline;
using namespace compline::history;
using namespace compline::tests;

namespace {

const KeptChart lantern = kept_chart("Lantern", "Dm7 | G7 | Cmaj7 | A7");
/// Two of its four bars are others.
const KeptChart lantern_mended = kept_chart("lantern", "Dm7 | Db7 | Cmaj7 | A7b9");
const KeptChart harbour = kept_chart("Harbour", "F6 | D7 | Gm7 | C7");

PlayedRows on(const std::string& date, const std::string& how = ".") {
    PlayedRows played;
    played.made = date + "T20:00:00+01:00";
    played.how = how;
    return played;
}

PlayedRows by(const std::string& player, PlayedRows played) {
    played.player = player;
    return played;
}

PlayedRows at(double bpm, PlayedRows played) {
    played.bpm = bpm;
    return played;
}

struct InFolder {
    TemporaryFolder folder;
    std::filesystem::path file = folder.file("history.db");
    History history{file};
};

}  // namespace

TEST_CASE("what goes into the history comes out as it was", "[history]") {
    InFolder in;
    const auto take = judged_rows(lantern, on("2026-11-03", ".lmw"));
    in.history.enter(take);
    CHECK(in.history.read(take.take.fingerprint) == take);
    CHECK(History(in.file).read(take.take.fingerprint) == take);
    CHECK(!in.history.read("0123456789abcdef"));
}

TEST_CASE("a history is for its owner alone, whatever the umask lets", "[history]") {
    const TemporaryFolder folder;
    const auto umask_before = ::umask(0);
    History history(folder.file("history.db"));
    history.enter(judged_rows(lantern, on("2026-11-03")));
    ::umask(umask_before);
    for (const auto& entry : std::filesystem::directory_iterator(folder.path())) {
        INFO(entry.path());
        CHECK((entry.status().permissions() & std::filesystem::perms::all) ==
              (std::filesystem::perms::owner_read | std::filesystem::perms::owner_write));
    }
}

TEST_CASE("a take that is entered twice is there once, as it was judged last", "[history]") {
    InFolder in;
    auto take = judged_rows(lantern, on("2026-11-03", ".l"));
    in.history.enter(take);
    take.changes[1].in_time = true;
    take.take.in_time += 1;
    in.history.enter(take);
    CHECK(in.history.takes().size() == 1);
    CHECK(in.history.read(take.take.fingerprint) == take);
    const auto tune = in.history.tune("", lantern);
    REQUIRE(tune);
    REQUIRE(tune->evenings.size() == 1);
    CHECK(tune->evenings[0].sums.in_time == take.take.in_time);
}

TEST_CASE("an evening is all that was played on it, place by place and tempo by tempo",
          "[history]") {
    InFolder in;
    in.history.enter(judged_rows(lantern, on("2026-11-03", "....l...")));  // bar 1, 2nd time
    in.history.enter(judged_rows(lantern, at(132, on("2026-11-03", ".m.."))));
    const auto tune = in.history.tune("", lantern);
    REQUIRE(tune);
    CHECK(tune->bars == 4);
    CHECK(tune->chart_bpm == 120);
    REQUIRE(tune->evenings.size() == 1);
    const auto& evening = tune->evenings[0];
    CHECK(evening.date == "2026-11-03");
    CHECK(evening.takes == 2);
    CHECK(evening.sums.of == 16);
    CHECK(evening.sums.in_time == 13);
    CHECK(evening.whole_times == 4);
    CHECK(evening.slowest_bpm == 120);
    CHECK(evening.fastest_bpm == 132);
    CHECK(evening.usual_bpm == 120);
    CHECK(evening.whole == evening.sums);
    CHECK(evening.whole_bpm == 132);
    REQUIRE(tune->places.size() == 4);
    CHECK(tune->places[0].late == 1);
    CHECK(tune->places[0].late_ms == 90);
    CHECK(tune->places[1].bar == 2);
    CHECK(tune->places[1].from == "Dm7");
    CHECK(tune->places[1].to == "G7");
    CHECK(tune->places[1].sums.of == 4);
    CHECK(tune->places[1].missed == 2);
    REQUIRE(tune->tempi.size() == 2);
    CHECK(tune->tempi[1].bpm == 132);
    CHECK(tune->tempi[1].sums.in_time == 6);
    CHECK(tune->tempi[1].times == 2);
    CHECK(tune->tempi[1].whole == tune->tempi[1].sums);
}

TEST_CASE("a tune is clean at the tempo at which two times through in a row were", "[history]") {
    InFolder in;
    auto thrice = at(126, on("2026-11-04", "....m......."));  // the second is not
    thrice.times = 3;
    in.history.enter(judged_rows(lantern, on("2026-11-03")));
    in.history.enter(judged_rows(lantern, at(144, thrice)));
    const auto tune = in.history.tune("", lantern);
    REQUIRE(tune);
    REQUIRE(tune->evenings.size() == 2);
    CHECK(tune->evenings[0].clean_bpm == 120.0);
    CHECK(!tune->evenings[1].clean_bpm);
    CHECK(tune->evenings[1].clean_whole_times == 2);
    REQUIRE(tune->runs.size() == 2);
    CHECK(tune->runs[0] == CleanRun{"2026-11-03", 1, 4, 120, 2});
    CHECK(tune->runs[1] == CleanRun{"2026-11-04", 1, 4, 144, 1});
}

TEST_CASE("clean times through are in a row in one take, in one tempo, past what was not played",
          "[history]") {
    InFolder in;
    auto thrice = on("2026-11-03");
    thrice.times = 3;
    SECTION("another tempo between") {
        auto take = judged_rows(lantern, thrice);
        take.times[1].bpm = 132;
        in.history.enter(take);
        const auto tune = in.history.tune("", lantern);
        REQUIRE(tune);
        for (const auto& run : tune->runs) CHECK(run.in_a_row == 1);
        CHECK(!tune->evenings[0].clean_bpm);
    }
    SECTION("the first of another take") {
        thrice.times = 1;
        in.history.enter(judged_rows(lantern, thrice));
        thrice.made = "2026-11-03T20:10:00+01:00";
        in.history.enter(judged_rows(lantern, thrice));
        CHECK(in.history.tune("", lantern)->runs.at(0).in_a_row == 1);
    }
    SECTION("somebody listened to the one between") {
        auto take = judged_rows(lantern, thrice);
        take.times[1].struck = 2;  // of four
        take.times[1].clean = false;
        in.history.enter(take);
        CHECK(in.history.tune("", lantern)->runs.at(0).in_a_row == 2);
    }
}

TEST_CASE("a change that does not count is in no sum", "[history]") {
    InFolder in;
    auto take = judged_rows(lantern, on("2026-11-03", "l"));
    take.changes[1].counts = false;  // bar 2, 1st time
    in.history.enter(take);
    const auto tune = in.history.tune("", lantern);
    REQUIRE(tune->places.size() == 4);
    CHECK(tune->places[1].sums.of == 1);
    CHECK(tune->places[1].late == 1);
    CHECK(tune->tempi[0].sums.of == 7);
    CHECK(tune->evenings[0].whole.of == 7);
}

TEST_CASE("of several takes of which one cannot be written none is there", "[history]") {
    InFolder in;
    auto broken = judged_rows(harbour, on("2026-11-04"));
    broken.times.push_back(broken.times.back());  // the same time through twice
    CHECK_THROWS_AS(in.history.enter({judged_rows(lantern, on("2026-11-03")), broken}),
                    HistoryError);
    CHECK(in.history.takes().empty());
    in.history.enter(judged_rows(lantern, on("2026-11-03")));  // nothing is left open
    CHECK(in.history.takes().size() == 1);
}

TEST_CASE("bars of a tune that are clean do not make the tune clean", "[history]") {
    InFolder in;
    auto loop = on("2026-11-03");
    loop.from_bar = 2;
    loop.to_bar = 3;
    in.history.enter(judged_rows(lantern, loop));
    const auto tune = in.history.tune("", lantern);
    REQUIRE(tune);
    CHECK(!tune->evenings[0].clean_bpm);
    CHECK(tune->evenings[0].whole_times == 0);
    CHECK(tune->evenings[0].whole.of == 0);
    CHECK(tune->evenings[0].sums.of == 4);
    REQUIRE(tune->tempi.size() == 1);
    CHECK(tune->tempi[0].whole.of == 0);
    REQUIRE(tune->runs.size() == 1);
    CHECK(tune->runs[0].from_bar == 2);
}

TEST_CASE("a chart that changed keeps its history where bars and chords are the same",
          "[history]") {
    InFolder in;
    in.history.enter(judged_rows(lantern, on("2026-11-03", "l.m.")));
    in.history.enter(judged_rows(lantern_mended, on("2026-11-10")));
    const auto now = in.history.tune("", lantern_mended);
    REQUIRE(now);
    REQUIRE(now->evenings.size() == 2);
    CHECK(now->evenings[0].sums.of == 4);  // bars 1 and 3, twice
    CHECK(now->evenings[0].sums.in_time == 0);
    CHECK(now->evenings[0].whole.of == 0);  // half of it is no whole tune
    CHECK(now->evenings[1].sums.of == 8);
    const auto before = in.history.tune("", lantern);
    REQUIRE(before);
    CHECK(before->evenings[0].sums.of == 8);
    CHECK(before->evenings[1].sums.of == 4);
    const auto tunes = in.history.tunes("");
    REQUIRE(tunes.size() == 1);
    CHECK(tunes[0] == *now);
    CHECK(tunes[0].tune.title == "lantern");
}

TEST_CASE("two tunes of one title are two tunes", "[history]") {
    InFolder in;
    const auto other = kept_chart("Lantern", "Bb6 | Eb7 | F7 | D7");
    in.history.enter(judged_rows(lantern, on("2026-11-03")));
    in.history.enter(judged_rows(other, on("2026-11-04")));
    CHECK(in.history.tunes("").size() == 2);
    CHECK(in.history.tune("", other)->evenings.size() == 1);
}

TEST_CASE("a tune that is renamed is the same tune", "[history]") {
    InFolder in;
    in.history.enter(judged_rows(lantern, on("2026-11-03")));
    auto renamed = lantern;
    renamed.title = "Lantern Street";
    in.history.enter(judged_rows(renamed, on("2026-11-04")));
    const auto tunes = in.history.tunes("");
    REQUIRE(tunes.size() == 1);
    CHECK(tunes[0].tune.title == "Lantern Street");
    CHECK(tunes[0].evenings.size() == 2);
    in.history.enter(judged_rows(lantern, on("2026-11-02")));  // an older take names nothing anew
    CHECK(in.history.tunes("")[0].tune.title == "Lantern Street");
}

TEST_CASE("the tune that was played last comes first, and what was before a date is left out",
          "[history]") {
    InFolder in;
    in.history.enter(judged_rows(harbour, on("2026-11-05")));
    in.history.enter(judged_rows(lantern, on("2026-11-03")));
    in.history.enter(judged_rows(lantern, on("2026-11-09")));
    const auto all = in.history.tunes("");
    REQUIRE(all.size() == 2);
    CHECK(all[0].tune.title == "Lantern");
    CHECK(all[0].evenings.size() == 2);
    const auto since = in.history.tunes("", "2026-11-06");
    REQUIRE(since.size() == 1);
    CHECK(since[0].evenings.size() == 1);
    CHECK(!in.history.tune("", harbour, "2026-11-06"));
}

TEST_CASE("players are kept apart", "[history]") {
    InFolder in;
    in.history.enter(judged_rows(lantern, on("2026-11-03")));
    in.history.enter(judged_rows(lantern, by("Anna", on("2026-11-03", "m"))));
    in.history.enter(judged_rows(harbour, by("Anna", on("2026-11-04"))));
    CHECK(in.history.tunes("").size() == 1);
    CHECK(in.history.tune("", lantern)->evenings[0].sums.in_time == 8);
    CHECK(in.history.tune("Anna", lantern)->evenings[0].sums.in_time == 0);
    const auto players = in.history.players();
    REQUIRE(players.size() == 2);
    CHECK(players[1].name == "Anna");
    CHECK(players[1].evenings == 2);
    CHECK(players[1].last == "2026-11-04");
}

namespace {

/// Whether these bytes are in one of the files of a folder.
bool folder_holds(const std::filesystem::path& folder, const std::string& words) {
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (files::load_text(entry.path()).find(words) != std::string::npos) return true;
    }
    return false;
}

}  // namespace

TEST_CASE("what is forgotten is gone for good, its bytes too", "[history]") {
    InFolder in;
    const auto kept = judged_rows(harbour, on("2026-11-02"));
    in.history.enter(kept);
    in.history.enter(judged_rows(lantern, by("Annabella", on("2026-11-03"))));
    Homework homework;
    homework.player = "Annabella";
    homework.given = "2026-11-03";
    in.history.set_homework(homework, lantern);
    REQUIRE(folder_holds(in.folder.path(), "Annabella"));
    SECTION("a player") { in.history.forget_player("Annabella"); }
    SECTION("the takes of a player, one by one") {
        for (const auto& take : in.history.takes()) {
            if (take.player == "Annabella") in.history.forget({take.fingerprint});
        }
        in.history.drop_homework(in.history.homework("Annabella").front().id);
        in.history.forget({});
    }
    CHECK(!folder_holds(in.folder.path(), "Annabella"));
    CHECK(!folder_holds(in.folder.path(), "Lantern"));
    CHECK(in.history.homework("Annabella").empty());
    CHECK(in.history.read(kept.take.fingerprint) == kept);
    CHECK(in.history.players().size() == 1);
    CHECK(in.history.check().empty());
}

TEST_CASE("a chart lies where it was told last, whenever that was played", "[history]") {
    InFolder in;
    auto unknown = lantern;
    unknown.file.clear();
    in.history.enter(judged_rows(unknown, on("2026-11-03")));
    Homework homework;
    homework.given = "2026-11-02";
    in.history.set_homework(homework, lantern);
    CHECK(in.history.tunes("")[0].tune.chart_file == lantern.file);
    in.history.enter(judged_rows(unknown, on("2026-11-04")));
    CHECK(in.history.tunes("")[0].tune.chart_file == lantern.file);
}

TEST_CASE("homework is kept with its tune until it is taken back", "[history]") {
    InFolder in;
    Homework homework;
    homework.player = "Anna";
    homework.given = "2026-11-03";
    homework.from_bar = 9;
    homework.to_bar = 12;
    homework.to_bpm = 132;
    const auto id = in.history.set_homework(homework, lantern);
    const auto all = in.history.homework("Anna");
    REQUIRE(all.size() == 1);
    CHECK(all[0].id == id);
    CHECK(all[0].to_bar == 12);
    CHECK(all[0].to_bpm == 132);
    CHECK(all[0].tune.title == "Lantern");
    CHECK(in.history.homework("").empty());
    CHECK(in.history.tunes("Anna").empty());
    in.history.drop_homework(id);
    CHECK(in.history.homework("Anna").empty());
}

TEST_CASE("on a full disk nothing is half written, and what was there stays", "[history]") {
    InFolder in;
    const auto first = judged_rows(lantern, on("2026-11-03"));
    in.history.enter(first);
    const auto second = judged_rows(harbour, on("2026-11-04"));
    for (const std::int64_t left : {0, 4000, 9000, 20000}) {
        const FullDisk full(left);
        INFO(left);
        CHECK_THROWS_WITH(in.history.enter(second), Catch::Contains("the disk is full"));
    }
    CHECK(in.history.takes().size() == 1);
    CHECK(in.history.read(first.take.fingerprint) == first);
    CHECK(in.history.check().empty());
    in.history.enter(second);
    CHECK(in.history.read(second.take.fingerprint) == second);
}

TEST_CASE("what is no history is refused in words and stays as it is", "[history]") {
    const TemporaryFolder folder;
    const auto file = folder.file("history.db");
    SECTION("a text") {
        const std::string text(5000, 'x');
        files::save_text(file, text, files::Existing::keep);
        CHECK_THROWS_AS(History(file), DamagedHistory);
        CHECK(files::load_text(file) == text);
    }
    SECTION("a folder") {
        std::filesystem::create_directory(file);
        CHECK_THROWS_AS(History(file), HistoryError);
    }
    SECTION("nothing, where none is to be made") {
        CHECK_THROWS_AS(History(file, History::Make::no), HistoryError);
        CHECK(!std::filesystem::exists(file));
    }
    SECTION("a folder that is not there") {
        CHECK_THROWS_AS(History(folder.file("none") / "history.db"), HistoryError);
    }
}
