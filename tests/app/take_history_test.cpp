// How takes come into the history: by practice and score, and anew from their files.

#include "../src/app/take_history.hpp"

#include "../src/app/rebuild_history.hpp"
#include "app/own_data.hpp"
#include "app/program.hpp"
#include "support/catch.hpp"
#include "support/raw_database.hpp"

#include <compline/history/history.hpp>
#include <compline/midi/smf.hpp>
#include <compline/practice/take.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

/// The demo's take, made once.
const practice::Take& demo_take() {
    static const TemporaryFolder folder;
    static const auto take = [] {
        const auto ran = run_compline({"demo", "--folder", folder.file("demo").string()});
        INFO(shown(ran));
        REQUIRE(ran.status == 0);
        const auto bytes = files::load_bytes(folder.file("demo") / "take.mid");
        return practice::read_take(midi::read_smf(bytes).file);
    }();
    return take;
}

/// As one of the player's own, of that moment.
std::string own_take(const std::filesystem::path& file, const std::string& made,
                     const std::string& player = "", bool played = true) {
    auto take = demo_take();
    if (!played) take.messages.clear();
    take.info->made = made;
    take.info->player = player;
    const auto form = practice::form_of(*take.info, "chart");
    const auto bytes = midi::write_smf(practice::to_file(take, practice::map_of(*take.info, form)));
    files::save_bytes(file, bytes, files::Existing::replace);
    return file.string();
}

/// Without what it says of itself: as another recorder's.
std::string bare_take(const std::filesystem::path& file) {
    auto take = demo_take();
    const auto form = practice::form_of(*take.info, "chart");
    const auto map = practice::map_of(*take.info, form);
    take.info.reset();
    files::save_bytes(file, midi::write_smf(practice::to_file(take, map)),
                      files::Existing::replace);
    return file.string();
}

std::vector<history::JudgedTake> all_rows(const OwnData& own) {
    const history::History history(own.history(), history::History::Make::no);
    std::vector<history::JudgedTake> rows;
    for (const auto& take : history.takes()) rows.push_back(*history.read(take.fingerprint));
    return rows;
}

constexpr const char* tuesday = "2026-11-03T20:00:00+01:00";
constexpr const char* thursday = "2026-11-05T20:00:00+01:00";

}  // namespace

TEST_CASE("a take that is scored is in the history, once, however often it is scored", "[app]") {
    const OwnData own;
    const auto take = own_take(own.takes() / "a.mid", tuesday, "Anna");
    for (const auto& more : std::vector<std::vector<std::string>>{{}, {"--bars", "1-4"}, {}}) {
        std::vector<std::string> words{"score", take};
        words.insert(words.end(), more.begin(), more.end());
        const auto ran = run_compline(words);
        INFO(shown(ran));
        REQUIRE(ran.status == 0);
        CHECK(ran.err.empty());
        const auto rows = all_rows(own);
        REQUIRE(rows.size() == 1);  // all of it, whatever part was asked for
        CHECK(rows[0].take.player == "Anna");
        CHECK(rows[0].take.evening == "2026-11-03");
        CHECK(rows[0].take.file == "a.mid");
        CHECK(rows[0].take.changes == 32);
        CHECK(rows[0].chart.title == "Blue Kettle on the Back Stairs");
        CHECK(rows[0].changes.size() == 32);
        REQUIRE(rows[0].times.size() == 2);
        CHECK(rows[0].times[0].whole_tune);
    }
}

TEST_CASE("a take is another pupil's where who scores it says so", "[app]") {
    const OwnData own;
    const auto take = own_take(own.takes() / "a.mid", tuesday, "Anna");
    REQUIRE(run_compline({"score", take}).status == 0);
    REQUIRE(run_compline({"score", take, "--player", "Ben"}).status == 0);
    const auto rows = all_rows(own);
    REQUIRE(rows.size() == 1);
    CHECK(rows[0].take.player == "Ben");
    CHECK(app::rebuild_history() == app::Status::done);
    CHECK(all_rows(own)[0].take.player == "Ben");
}

TEST_CASE("what has no date, what is asked to stay out, and what nobody played is not kept",
          "[app]") {
    const OwnData own;
    const auto dated = own_take(own.takes() / "a.mid", tuesday);
    const auto simulated = own_take(own.folder().file("demo.mid"), "");
    CHECK(run_compline({"score", dated, "--no-history"}).status == 0);
    CHECK(run_compline({"score", simulated}).status == 0);
    const auto silent = own_take(own.takes() / "b.mid", tuesday, "", false);
    CHECK(run_compline({"score", silent}).status == 0);
    CHECK(!std::filesystem::exists(own.history()));
}

TEST_CASE("the notes of a take alone do not take the place of what it says", "[app]") {
    const OwnData own;
    const auto take = own_take(own.takes() / "a.mid", tuesday, "Anna");
    REQUIRE(run_compline({"score", take}).status == 0);
    const auto before = all_rows(own);
    const auto alone = run_compline({"score", take, "--chart", blues(), "--notes-alone"});
    INFO(shown(alone));
    CHECK(alone.status == 0);
    CHECK(all_rows(own) == before);
}

TEST_CASE("a take without a date is of the evening that its name tells", "[app]") {
    const OwnData own;
    const auto take = own_take(own.takes() / "2026-11-03-200000-2.mid", "");
    REQUIRE(run_compline({"score", take}).status == 0);
    const auto rows = all_rows(own);
    REQUIRE(rows.size() == 1);
    CHECK(rows[0].take.evening == "2026-11-03");
    CHECK(rows[0].take.made.substr(0, 19) == "2026-11-03T20:00:00");
}

TEST_CASE("a take from elsewhere is kept as it was judged, unless it hardly fits", "[app]") {
    const OwnData own;
    const auto take = bare_take(own.folder().file("bare.mid"));
    const auto scored = run_compline({"score", take, "--chart", blues(), "--player", "Anna"});
    INFO(shown(scored));
    REQUIRE(scored.status == 0);
    const auto rows = all_rows(own);
    REQUIRE(rows.size() == 1);
    CHECK(!rows[0].take.of_ours);
    CHECK(rows[0].take.player == "Anna");
    CHECK(rows[0].take.evening.size() == 10);  // of its file
    CHECK(rows[0].chart.file == blues());
    const auto wrong =
        run_compline({"score", take, "--chart", blues(), "--player", "Anna", "--offset", "1818"});
    CHECK(contains(wrong.out, "--offset"));  // what fits is offered
    CHECK(all_rows(own)[0].take.in_time == rows[0].take.in_time);
}

TEST_CASE("the history made anew from the takes is the same, row by row", "[app]") {
    const OwnData own;
    for (const auto& [name, made] :
         {std::pair{"2026-11-03-200000.mid", tuesday}, {"2026-11-05-200000.mid", thursday}}) {
        REQUIRE(run_compline({"score", own_take(own.takes() / name, made)}).status == 0);
    }
    const auto elsewhere = own_take(own.folder().file("elsewhere.mid"), tuesday, "Ben");
    REQUIRE(run_compline({"score", elsewhere}).status == 0);
    const auto before = all_rows(own);
    REQUIRE(before.size() == 3);
    SECTION("what is there is judged anew") {
        run_sql(own.history(), "UPDATE change SET verdict = 'late'; UPDATE take SET in_time = 0");
        CHECK(app::rebuild_history() == app::Status::done);
        CHECK(all_rows(own) == before);
    }
    SECTION("of what is gone the rows stay") {
        std::filesystem::remove(elsewhere);
        std::filesystem::remove(own.takes() / "2026-11-03-200000.mid");
        CHECK(app::rebuild_history() == app::Status::done);
        CHECK(all_rows(own) == before);
    }
    SECTION("a history that is gone comes again, but for what lies elsewhere") {
        std::filesystem::remove(own.history());
        CHECK(app::rebuild_history() == app::Status::done);
        const auto after = all_rows(own);
        REQUIRE(after.size() == 2);
        CHECK(after[0].changes == before[0].changes);
        CHECK(after[1].take == before[2].take);
    }
    SECTION("a damaged one is set aside first") {
        files::save_text(own.history(), "no database at all", files::Existing::replace);
        CHECK(app::rebuild_history() == app::Status::done);
        CHECK(all_rows(own).size() == 2);
        CHECK(files::load_text(own.history().string() + ".damaged") == "no database at all");
    }
    SECTION("a take that is broken is named, and the others are taken in") {
        files::save_text(own.takes() / "broken.mid", "no take", files::Existing::keep);
        CHECK(app::rebuild_history() == app::Status::bad_input);
        CHECK(all_rows(own) == before);
    }
}

TEST_CASE("a history that cannot be written costs nobody a report", "[app]") {
    const OwnData own;
    const auto take = own_take(own.takes() / "a.mid", tuesday);
    files::save_text(own.history(), "no database at all", files::Existing::keep);
    const auto ran = run_compline({"score", take});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "30 of 32 changes in time"));
    CHECK(contains(ran.err, "It is not in your history: "));
    CHECK(contains(ran.err, "this is no history, or a damaged one"));
    CHECK(files::load_text(own.history()) == "no database at all");
}
