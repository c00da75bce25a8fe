#pragma once

#include "questions.hpp"
#include "setup_answers.hpp"
#include "setup_gear.hpp"

#include <string>
#include <vector>

namespace compline::app {

// The steps of setting up, each a list of questions in a file of its own. What they share is passed
// in and must outlive them.

/// All that a step works with.
struct Setup {
    SetupAnswers& answers;
    SetupGear& gear;
    Talk& talk;
    bool alone = false;  ///< one step is done again, not all of them
};

/// The few changes that everybody begins with.
inline constexpr const char* first_changes = "F7 | Bb7 | F7 | C7";

/// Strings and tuning, capo, left-handed, pick or fingers.
[[nodiscard]] std::vector<Question> guitar_questions(Setup setup);
/// What the band is heard by; it plays, softly at first.
[[nodiscard]] std::vector<Question> output_questions(Setup setup);
/// By what the player hears himself, and what that means for delays.
[[nodiscard]] std::vector<Question> monitoring_questions(Setup setup);
/// Where the guitar's MIDI comes in.
[[nodiscard]] std::vector<Question> input_questions(Setup setup);
/// What the unit sends: each open string, a soft and a hard strum, channels, the range of bends.
[[nodiscard]] std::vector<Question> strings_questions(Setup setup);
[[nodiscard]] std::vector<Question> delays_questions(Setup setup);
/// Each switch of a MIDI pedal, pressed once for what it is to ask for.
[[nodiscard]] std::vector<Question> pedal_questions(Setup setup);
/// What the screen shows.
[[nodiscard]] std::vector<Question> view_questions(Setup setup);

/// Their names, in order.
[[nodiscard]] const std::vector<std::string>& step_names();
/// The questions of a step; of all where it has no name.
[[nodiscard]] std::vector<Question> questions_of(const std::string& step, Setup setup);

/// A question whose answer is a setting, taken as it is typed. usual: what holds where nothing is
/// set.
[[nodiscard]] Question setting_question(Setup setup, const std::string& key,
                                        const std::string& words, const std::string& usual);
/// The same, answered by yes or no.
[[nodiscard]] Question yes_or_no_question(Setup setup, const std::string& key,
                                          const std::string& words);

}  // namespace compline::app
