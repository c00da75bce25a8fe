// A MIDI unit whose cable was out is known again, whatever numbers the system gives it then.

#include "../../src/live/same_port.hpp"

#include "support/catch.hpp"

using compline::live::same_port;

namespace {

using Names = std::vector<std::string>;

const std::string strings = "Six Strings:Six Strings MIDI 1 20:0";
const std::string renumbered = "Six Strings:Six Strings MIDI 1 28:0";
const std::string through = "Midi Through:Midi Through Port-0 14:0";

}  // namespace

TEST_CASE("a MIDI port is taken up again by its name, or by all of it but ALSA's numbers") {
    CHECK(same_port(strings, {through, strings}, {through}) == strings);
    CHECK(same_port(strings, {through, renumbered}, {through}) == renumbered);
    CHECK(same_port(strings, {renumbered, strings}, {through}) == strings);
    CHECK_FALSE(same_port(strings, {through}, {through}));
    CHECK_FALSE(same_port(strings, {"Six Strings:Six Strings MIDI 2 20:1"}, {}));
    CHECK_FALSE(same_port("guitar:strings", {"guitar:string"}, {}));
    CHECK_FALSE(same_port("guitar 1", {"guitar 2"}, {}));
}

TEST_CASE("a second unit of the same name that was there all the time is not taken for the first") {
    CHECK_FALSE(same_port(strings, {renumbered}, {renumbered}));
    CHECK(same_port(strings, {renumbered, "Six Strings:Six Strings MIDI 1 32:0"}, {renumbered}) ==
          "Six Strings:Six Strings MIDI 1 32:0");
}
