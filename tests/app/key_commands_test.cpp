// What the player's keys ask for.

#include "../../src/app/key_commands.hpp"

#include "report/rows.hpp"
#include "support/catch.hpp"

using namespace compline;
using app::command_of;
using app::KeyPress;
using app::NamedKey;
using practice::Command;

namespace {

practice::State playing() {
    const auto form = tests::blues_form();
    return practice::Evening({form, roadmap::Asked::of(form.whole(), 2)}, {}, {},
                             practice::JudgedMeanwhile::nothing)
        .state();
}

}  // namespace

TEST_CASE("the space bar pauses, and goes on where it is paused") {
    auto state = playing();
    CHECK(command_of(' ', state) == Command::pause);
    state.paused = true;
    CHECK(command_of(' ', state) == Command::go_on);
}

TEST_CASE("the arrows change the tempo, Home begins at the top") {
    const auto state = playing();
    CHECK(command_of(NamedKey::up, state) == Command::faster);
    CHECK(command_of(NamedKey::down, state) == Command::slower);
    CHECK(command_of(NamedKey::home, state) == Command::from_the_top);
}

TEST_CASE("a page-turning pedal loops the row and leaves the loop, by whichever keys it sends") {
    const auto state = playing();
    for (const auto key : {NamedKey::page_down, NamedKey::right}) {
        CHECK(command_of(key, state) == Command::loop_here);
    }
    for (const auto key : {NamedKey::page_up, NamedKey::left}) {
        CHECK(command_of(key, state) == Command::leave_loop);
    }
}

TEST_CASE("d and b send drums and bass out, and bring them back") {
    auto state = playing();
    CHECK(command_of('d', state) == Command::drums_off);
    CHECK(command_of('b', state) == Command::bass_off);
    state.drums = false;
    CHECK(command_of('d', state) == Command::drums_on);
    CHECK(command_of('b', state) == Command::bass_off);
    state.bass = false;
    CHECK(command_of('b', state) == Command::bass_on);
}

TEST_CASE("letters loop, leave the loop, start over and stop, as capitals too") {
    const auto state = playing();
    const std::vector<std::pair<char, Command>> letters{{'l', Command::loop_here},
                                                        {'w', Command::leave_loop},
                                                        {'r', Command::start_over},
                                                        {'q', Command::stop}};
    for (const auto& [letter, command] : letters) {
        CHECK(command_of(letter, state) == command);
        CHECK(command_of(static_cast<char>(letter - 'a' + 'A'), state) == command);
    }
}

TEST_CASE("a key that is none of ours asks for nothing") {
    const auto state = playing();
    for (const char other : {'x', '\t', '0', '\xE4', '@', '['}) {
        CHECK(!command_of(other, state).has_value());
    }
}

TEST_CASE("Enter gives the cue, and ends a pause as space does") {
    auto state = playing();
    CHECK(command_of('\r', state) == Command::go_on);
    CHECK(command_of('\n', state) == Command::go_on);
    state.paused = true;
    CHECK(command_of('\r', state) == Command::go_on);
}

TEST_CASE("v asks for the other view, and nothing of the band") {
    CHECK(app::asks_for_other_view('v'));
    CHECK(app::asks_for_other_view('V'));
    CHECK_FALSE(app::asks_for_other_view('w'));
    CHECK_FALSE(app::asks_for_other_view(NamedKey::down));
    CHECK(!command_of('v', playing()).has_value());
}
