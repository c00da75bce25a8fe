#include "support/catch.hpp"
#include "support/refusal.hpp"

#include <compline/roadmap/silence.hpp>

#include <string>

using namespace compline;
using tests::refusal;

TEST_CASE("a silence says how many bars play and how many do not") {
    CHECK(roadmap::read_silence("4:2") == roadmap::Silence{4, 2, false, false});
    CHECK(roadmap::read_silence("4:4 drums") == roadmap::Silence{4, 4, true, false});
    CHECK(roadmap::read_silence("1:1 times") == roadmap::Silence{1, 1, false, true});
    CHECK(roadmap::read_silence("2:1 times drums") == roadmap::Silence{2, 1, true, true});
    for (const char* text :
         {"", "4", "4:", ":4", "0:4", "4:0", "65:1", "4:4 bass", "-1:2", "4:4:4"}) {
        CAPTURE(text);
        const auto words = refusal([&] { (void)roadmap::read_silence(text); });
        CHECK(words.find("is not a silence: write how many bars play") != std::string::npos);
    }
}

TEST_CASE("a silence counted in choruses is answered with the word of today") {
    for (const std::string old : {"chorus", "choruses"}) {
        CHECK(refusal([&] { (void)roadmap::read_silence("2:1 drums " + old); }) ==
              "character 11: " + old + " is now times: write \"2:1 times\" to count times through");
    }
}
