#include "key_commands.hpp"

#include <compline/practice/want.hpp>

#include <array>

namespace compline::app {

namespace {

using practice::Command;
using practice::State;

struct KeyRow {
    KeyPress key;
    practice::Want want;
};

constexpr std::array<KeyRow, 16> table = {
    {{' ', {Command::pause, &State::paused, Command::go_on}},
     {'\n', {Command::go_on}},
     {'\r', {Command::go_on}},
     {NamedKey::home, {Command::from_the_top}},
     {NamedKey::up, {Command::faster}},
     {NamedKey::down, {Command::slower}},
     // A page-turning pedal: the row that was hard comes again, and the tune goes on.
     {NamedKey::page_down, {Command::loop_here}},
     {NamedKey::right, {Command::loop_here}},
     {NamedKey::page_up, {Command::leave_loop}},
     {NamedKey::left, {Command::leave_loop}},
     {'l', {Command::loop_here}},
     {'w', {Command::leave_loop}},
     {'d', {Command::drums_on, &State::drums, Command::drums_off}},
     {'b', {Command::bass_on, &State::bass, Command::bass_off}},
     {'r', {Command::start_over}},
     {'q', {Command::stop}}}};

/// As without Shift.
KeyPress plain(KeyPress key) {
    const char* letter = std::get_if<char>(&key);
    if (letter == nullptr || *letter < 'A' || *letter > 'Z') return key;
    return static_cast<char>(*letter - 'A' + 'a');
}

}  // namespace

bool asks_for_other_view(KeyPress key) { return plain(key) == KeyPress('v'); }

std::optional<Command> command_of(KeyPress key, const State& state) {
    for (const auto& row : table) {
        if (row.key == plain(key)) return row.want.in(state);
    }
    return std::nullopt;
}

}  // namespace compline::app
