#pragma once

#include "option.hpp"

#include <compline/time/units.hpp>

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace compline::app {

// A conversation at a terminal: questions as data, and one way through them. Enter takes what
// stands in brackets, "-" leaves a question out, "back" goes back to the one before, and the end of
// the input ends it all. What is no answer is told what would be one, and asked again.

/// The two ends of a conversation.
class Talk {
  public:
    Talk() = default;
    virtual ~Talk() = default;
    Talk(const Talk&) = delete;
    Talk& operator=(const Talk&) = delete;

    /// Lines for the player; those that are too wide go on below.
    virtual void tell(const std::string& lines) = 0;
    /// The last line of a question, behind which the answer is typed.
    virtual void ask(const std::string& line) = 0;
    /// What was typed; waits for it. None: nobody answers any more.
    virtual std::optional<std::string> line() = 0;
    /// The same, waiting for so long at most. None: nothing was typed yet, or see ended().
    virtual std::optional<std::string> line_within(time::Seconds at_most) = 0;
    [[nodiscard]] virtual bool ended() const = 0;
};

/// What comes after an answer.
enum class Then {
    on,
    again,  ///< the same question
    back    ///< the one before
};

struct Question {
    std::string step;  ///< the part of the whole that it belongs to
    /// What is asked, a line or more. It may show something first.
    std::function<std::string()> words;
    /// What Enter stands for, shown in brackets. None, or an empty text: Enter is an answer itself.
    std::function<std::string()> usual = {};
    /// Takes an answer. Throws BadInput for what is none.
    std::function<Then(const std::string& answer)> take;
    /// Whether it is asked, as things are when its turn comes. None: always.
    std::function<bool()> wanted = {};
    /// What "-" does. None: nothing.
    std::function<void()> leave = {};
    /// How an answer comes, where it is not a line alone: by a string that is played, say, which
    /// is taken as Enter. None: as Talk::line().
    std::function<std::optional<std::string>(Talk& talk)> wait = {};
};

/// Typed for an answer, it leaves the question out.
inline constexpr const char* leave_out = "-";

enum class Conversation { held, ended };

/// Asks them all in order. Ended: the player stopped answering.
[[nodiscard]] Conversation hold(const std::vector<Question>& questions, Talk& talk);

/// "y", "yes", "n", "no", in whatever case. Throws BadInput.
[[nodiscard]] bool read_yes(const std::string& answer);

/// One of these words, in whatever case: which. Throws BadInput.
[[nodiscard]] std::size_t read_answer(const std::string& answer,
                                      const std::vector<std::string>& words);

/// Which of so many numbered things: its number, from 1. None: it is no number. Throws BadInput
/// for a number that none has.
[[nodiscard]] std::optional<std::size_t> read_choice(const std::string& answer, std::size_t count);

}  // namespace compline::app
