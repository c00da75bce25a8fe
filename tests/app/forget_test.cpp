// compline history forget: what goes, what stays, and who is asked.

#include "../src/app/forget.hpp"

#include "../src/app/last_evening.hpp"
#include "../src/app/take_input.hpp"
#include "app/own_data.hpp"
#include "app/program.hpp"
#include "app/scripted_talk.hpp"
#include "support/catch.hpp"
#include "support/judged_rows.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/history/history.hpp>
#include <compline/practice/take_file.hpp>

using namespace compline;
using namespace compline::tests;
using history::History;

namespace {

/// Takes in the history, each with a file: among the player's own, or elsewhere.
class KeptTakes {
  public:
    [[nodiscard]] std::filesystem::path file() const {
        return own_.folder().file("compline") / "history.db";
    }
    [[nodiscard]] std::filesystem::path own(const std::string& name) const {
        return own_.takes() / name;
    }
    [[nodiscard]] std::filesystem::path elsewhere(const std::string& name) const {
        return own_.folder().file(name);
    }
    void keep(const std::filesystem::path& take, const std::string& player,
              const std::string& title = "Lantern Street") const {
        const auto bytes = "take " + take.string();
        files::save_text(take, bytes, files::Existing::keep);
        PlayedRows played;
        played.player = player;
        auto rows = judged_rows(kept_chart(title, "F6 | D7 | Gm7 | C7"), played);
        rows.take.fingerprint = fmt::format("{:016x}", chart::fnv1a_64(bytes));
        rows.take.folder = take.parent_path().string();
        rows.take.file = take.filename().string();
        History(file()).enter(rows);
    }
    [[nodiscard]] std::size_t left() const { return History(file()).takes().size(); }
    [[nodiscard]] Ran forgets(std::vector<std::string> words) const {
        words.insert(words.begin(), {"history", "forget"});
        return run_compline(words);
    }

  private:
    OwnData own_;
};

bool is_there(const std::filesystem::path& file) { return std::filesystem::exists(file); }

}  // namespace

TEST_CASE("a take that is forgotten goes from the history and from the player's own takes",
          "[app]") {
    const KeptTakes kept;
    kept.keep(kept.own("a.mid"), "");
    kept.keep(kept.own("b.mid"), "");
    kept.keep(kept.own("c.mid"), "");
    const auto by_name = kept.forgets({"a.mid", "--yes"});
    INFO(shown(by_name));
    CHECK(by_name.status == 0);
    CHECK(by_name.out == "Removed: 1 take of the history, 1 file.\n");
    CHECK_FALSE(is_there(kept.own("a.mid")));
    CHECK(kept.left() == 2);
    CHECK(kept.forgets({kept.own("b.mid").string(), "c", "--yes"}).status == 0);
    CHECK(kept.left() == 0);
    CHECK_FALSE(is_there(kept.own("c.mid")));
}

TEST_CASE("a file that lies elsewhere stays where it is when its take is forgotten", "[app]") {
    const KeptTakes kept;
    kept.keep(kept.elsewhere("lesson.mid"), "");
    const auto ran = kept.forgets({kept.elsewhere("lesson.mid").string(), "--yes"});
    INFO(shown(ran));
    CHECK(ran.out == "Removed: 1 take of the history, 0 files.\n");
    CHECK(is_there(kept.elsewhere("lesson.mid")));
    CHECK(kept.left() == 0);
}

TEST_CASE("a take whose file is gone is forgotten by its name", "[app]") {
    const KeptTakes kept;
    kept.keep(kept.own("a.mid"), "");
    std::filesystem::remove(kept.own("a.mid"));
    CHECK(kept.forgets({"a.mid", "--yes"}).status == 0);
    CHECK(kept.left() == 0);
}

TEST_CASE("an own take that never came into the history can be forgotten too", "[app]") {
    const KeptTakes kept;
    files::save_text(kept.own("stray.mid"), "stray", files::Existing::keep);
    CHECK(kept.forgets({"stray.mid", "--yes"}).out == "Removed: 0 takes of the history, 1 file.\n");
    CHECK_FALSE(is_there(kept.own("stray.mid")));
}

TEST_CASE("a name that several takes have is not guessed at", "[app]") {
    const KeptTakes kept;
    kept.keep(kept.own("a.mid"), "");
    kept.keep(kept.elsewhere("a.mid"), "");
    const auto ran = kept.forgets({"a.mid", "--yes"});
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(contains(ran.err, "forget a.mid: several takes are called so: say which: "));
    CHECK(kept.left() == 2);
    CHECK(kept.forgets({kept.own("a.mid").string(), "--yes"}).status == 0);
    CHECK(kept.left() == 1);
}

TEST_CASE("all that a player left goes, and nothing of anybody else", "[app]") {
    const KeptTakes kept;
    kept.keep(kept.own("anna.mid"), "Anna");
    kept.keep(kept.own("ben.mid"), "Ben");
    history::Homework homework;
    homework.player = "Anna";
    homework.given = "2026-11-03";
    (void)History(kept.file()).set_homework(homework, kept_chart("Lantern Street", "F6 | C7"));
    const auto ran = kept.forgets({"--player", "Anna", "--yes"});
    INFO(shown(ran));
    CHECK(ran.out == "Removed: 1 take of the history, 1 piece of homework, 1 file.\n");
    CHECK_FALSE(is_there(kept.own("anna.mid")));
    CHECK(is_there(kept.own("ben.mid")));
    CHECK(kept.left() == 1);
    CHECK(History(kept.file()).homework("Anna").empty());
    const auto again = kept.forgets({"--player", "Bem", "--yes"});
    CHECK(again.status == 2);
    CHECK(contains(again.err, "there is nothing of \"Bem\" (did you mean Ben?)"));
}

TEST_CASE("takes that a player left without a history go too, or they would come back", "[app]") {
    const KeptTakes kept;
    const auto demo = kept.elsewhere("demo").string();
    REQUIRE(run_compline({"demo", "--folder", demo}).status == 0);
    auto take = app::read_take_file(demo + "/take.mid", practice::TakeTexts::read).take;
    take.info->player = "Anna";
    const auto form = chart::unroll(chart::read_chart(take.info->chart_text, "demo"));
    const auto bytes =
        midi::write_smf(practice::to_file(take, roadmap::RoadMap(form, take.info->asked)));
    files::save_bytes(kept.own("anna.mid"), bytes, files::Existing::keep);
    const auto ran = kept.forgets({"--player", "Anna", "--yes"});
    INFO(shown(ran));
    CHECK(ran.out == "Removed: 0 takes of the history, 1 file.\n");
    CHECK_FALSE(is_there(kept.own("anna.mid")));
}

TEST_CASE("what a player practised last is forgotten with the player, and nobody else's", "[app]") {
    const KeptTakes kept;
    kept.keep(kept.own("a.mid"), "Anna");
    kept.keep(kept.own("b.mid"), "Ben");
    app::remember({{"practice", "blues.yaml", "--player", "Anna"}, "/", "Blues", "2026-11-03"});
    CHECK(kept.forgets({"--player", "Ben", "--yes"}).status == 0);
    CHECK(app::last_evening());
    CHECK(kept.forgets({"--player", "Anna", "--yes"}).status == 0);
    CHECK(!app::last_evening());
}

TEST_CASE("nothing is forgotten where nobody can be asked", "[app]") {
    const KeptTakes kept;
    kept.keep(kept.own("a.mid"), "");
    const auto ran = kept.forgets({"a.mid"});
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(contains(ran.err, "nothing was removed: nobody is at the terminal to be asked; --yes"));
    CHECK(is_there(kept.own("a.mid")));
    CHECK(kept.left() == 1);
}

TEST_CASE("who is asked sees what goes, and only yes is yes", "[app]") {
    const KeptTakes kept;
    kept.keep(kept.own("a.mid"), "");
    kept.keep(kept.elsewhere("b.mid"), "");
    const auto found = app::takes_named({"a.mid", "b.mid"});
    ScriptedTalk yes({"maybe", "yes"});
    CHECK(app::is_meant(found, yes));
    INFO(yes.said);
    CHECK(contains(yes.said,
                   "This goes for good, 2 takes of the history, 1 file:\n"
                   "  a.mid  2026-11-03 20:00, Lantern Street\n"
                   "  b.mid  2026-11-03 20:00, Lantern Street\n"
                   "Files that do not lie among your takes stay where they are: 1.\n"));
    CHECK(contains(yes.said, "expected yes or no"));
    ScriptedTalk enter({""});
    CHECK_FALSE(app::is_meant(found, enter));
    ScriptedTalk gone({});
    CHECK_FALSE(app::is_meant(found, gone));
}

TEST_CASE("what is to be forgotten must be said, and in one way", "[app]") {
    const KeptTakes kept;
    kept.keep(kept.own("a.mid"), "Anna");
    for (const auto& words :
         std::vector<std::vector<std::string>>{{"--yes"}, {"a.mid", "--player", "Anna", "--yes"}}) {
        const auto ran = kept.forgets(words);
        CHECK(ran.status == 2);
        CHECK(contains(ran.err, "say what is to be forgotten"));
    }
    const auto unknown = kept.forgets({"z.mid", "--yes"});
    CHECK(unknown.status == 2);
    CHECK(contains(unknown.err, "forget z.mid: there is no such take: yours lie in "));
    CHECK(run_compline({"history", "--yes"}).status == 2);
    CHECK(kept.left() == 1);
}
