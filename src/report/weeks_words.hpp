#pragma once

#include <compline/report/weeks.hpp>

#include <string>
#include <vector>

namespace compline::report {

// Words that the history, the advice and homework share.

/// As it can be printed, a long one cut.
[[nodiscard]] std::string title_words(const history::KnownTune& tune);
[[nodiscard]] std::string player_words(const std::string& name);

/// "Am7♭5 → D7", of symbols in plain letters; "D7" where no chord comes before.
[[nodiscard]] std::string move_words(const std::string& from, const std::string& to);

/// "88 %".
[[nodiscard]] std::string percent(double share);
/// "41 min", "5 h 40 min".
[[nodiscard]] std::string duration_words(double seconds);
[[nodiscard]] std::string evenings_words(int evenings);
/// A tempo without its unit, in whole beats.
[[nodiscard]] std::string beats_words(double bpm);
/// "7, 15 and 23".
[[nodiscard]] std::string numbers_words(const std::vector<int>& numbers);

/// Lines of at most 80 columns, so far in, with a line feed at the end of each. A number and what
/// it counts stay together.
[[nodiscard]] std::string paragraph(const std::string& text, int indent);
/// The first line begins at the left edge.
[[nodiscard]] std::string hung(const std::string& text, int indent);

/// "late in 9 of 14, 84 ms on average, missed in 1".
[[nodiscard]] std::string place_faults_words(const history::PlaceStory& place);
/// "better", "no better for 4 evenings"; empty: too few evenings to tell.
[[nodiscard]] std::string place_course_words(const history::PlaceStory& place);
/// "bar 7  Am7♭5 → D7", "bar 7 beat 3  A7".
[[nodiscard]] std::string place_words(const history::PlaceStory& place);
/// "better", "worse", "no change to be seen"; empty: too few evenings to tell.
[[nodiscard]] std::string course_words(const history::Trend& trend);

/// What is open and what was done within two weeks: after that nobody asks any more.
[[nodiscard]] std::vector<HomeworkSoFar> homework_to_tell(const std::vector<HomeworkSoFar>& all,
                                                          const std::string& today);

/// "clean at 120 on 1 of 2 days", "done on Tuesday".
[[nodiscard]] std::string so_far_words(const HomeworkSoFar& homework, const std::string& today);

}  // namespace compline::report
