// score --html and practice --html: the report's page, and what it never writes over.

#include "app/pupil_folder.hpp"

#include <filesystem>

using namespace compline;
using namespace compline::tests;

namespace {

/// A take of the eight bars in a folder.
class OneTake {
  public:
    OneTake() { pupil_.save("take.mid", "2026-11-03T20:00:00+01:00", clumsy_hand()); }

    [[nodiscard]] std::string take() const { return pupil_.path("anna/take.mid"); }
    [[nodiscard]] std::string page() const { return pupil_.path("page.html"); }
    [[nodiscard]] Ran score(std::vector<std::string> options) const {
        options.insert(options.begin(), {"score", take(), "--no-history"});
        return run_compline(options);
    }

  private:
    PupilFolder pupil_;
};

}  // namespace

TEST_CASE("score writes a page beside its words, and says where it is", "[app][page]") {
    const OneTake played;
    const auto ran = played.score({"--html", played.page()});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(ran.out == played.score({}).out);
    CHECK(contains(ran.err, "The page is in " + played.page()));
    const auto page = files::load_text(played.page());
    CHECK(contains(page, ran.out.substr(0, ran.out.find('\n'))));
    CHECK(contains(page, "played 2026-11-03 20:00"));
}

TEST_CASE("JSON on the standard output stays JSON alone beside a page", "[app][page]") {
    const OneTake played;
    const auto ran = played.score({"--json", "--html", played.page()});
    CHECK(ran.status == 0);
    CHECK(ran.out == played.score({"--json"}).out);
    CHECK(std::filesystem::exists(played.page()));
}

TEST_CASE("a page that is there is kept, unless it is to be replaced", "[app][page]") {
    const OneTake played;
    files::save_text(played.page(), "mine", files::Existing::keep);
    const auto kept = played.score({"--html", played.page()});
    INFO(shown(kept));
    CHECK(kept.status == 2);
    CHECK(contains(kept.err, "page.html is there already: give another name, or --replace"));
    CHECK(kept.out.empty());
    CHECK(files::load_text(played.page()) == "mine");
    CHECK(played.score({"--html", played.page(), "--replace"}).status == 0);
    CHECK(files::load_text(played.page()) != "mine");
}

TEST_CASE("no page is written over the take or the chart that it is made from", "[app][page]") {
    const OneTake played;
    const auto before = files::load_bytes(played.take());
    const auto ran = played.score({"--html", played.take(), "--replace"});
    INFO(shown(ran));
    CHECK(ran.status == 2);
    CHECK(contains(ran.err, "that is what is read: give another name"));
    CHECK(files::load_bytes(played.take()) == before);
}

TEST_CASE("a page is of one take, and --replace is of a page", "[app][page]") {
    const OneTake played;
    const auto two = played.score({played.take(), "--html", played.page()});
    CHECK(two.status == 2);
    CHECK(contains(two.err, "--html makes a page of one take: give one"));
    CHECK(!std::filesystem::exists(played.page()));
    const auto none = played.score({"--replace"});
    CHECK(none.status == 2);
    CHECK(contains(none.err, "--replace is for a page: give --html too"));
}

TEST_CASE("where a page cannot be written the report is read all the same", "[app][page]") {
    const OneTake played;
    const auto ran = played.score({"--html", "/dev/null/page.html"});
    INFO(shown(ran));
    CHECK(ran.status == 1);
    CHECK(ran.out == played.score({}).out);
}

TEST_CASE("a page of an evening is refused before it begins, not after", "[app][page]") {
    const OneTake played;
    const auto deaf = run_compline({"practice", blues(), "--in", "none", "--html", played.page()});
    CHECK(deaf.status == 2);
    CHECK(contains(deaf.err, "--html is of no use with --in none: nobody listens"));
    files::save_text(played.page(), "mine", files::Existing::keep);
    const auto taken = run_compline({"practice", blues(), "--html", played.page()});
    INFO(shown(taken));
    CHECK(taken.status == 2);
    CHECK(contains(taken.err, "page.html is there already"));
}
