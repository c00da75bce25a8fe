#pragma once

#include <compline/text/bad_input.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::text {

/// A word of a phrase: `walking`, or a name and a value, `bass=-6`.
struct Word {
    std::string_view text;                  ///< all of it
    std::string_view name;                  ///< before the `=`; all of it where there is none
    std::optional<std::string_view> value;  ///< behind it, be it empty
    std::size_t offset = 0;                 ///< of the word in its text, in bytes
};

/// The word that stands from one byte of a text to another.
[[nodiscard]] Word word_at(std::string_view text, std::size_t from, std::size_t end);

/// A value in a few words, as options and charts have them ("4:4 drums", "drums=-6, bass=off",
/// "mono from=1"): the words in order, and one way to refuse what is wrong with one of them.
///
/// Words refer to the text, which must outlive them.
class Phrase {
  public:
    /// What parts the words: blanks (and line ends), commas, or either. Blanks around a `,` and
    /// around the `=` of a word between commas do not count.
    enum class Parted { by_blanks, by_commas, by_either };

    explicit Phrase(std::string_view text, Parted parted = Parted::by_blanks);
    /// The words from one byte of a text to another, their places counted in the whole of it.
    Phrase(std::string_view text, Parted parted, std::size_t from, std::size_t to);

    [[nodiscard]] std::string_view text() const { return text_; }
    [[nodiscard]] const std::vector<Word>& words() const { return words_; }

    /// Throws BadInput at the word: "found: expected". Without a place where the word is the whole
    /// text.
    [[noreturn]] void refuse(const Word& word, const std::string& found,
                             const std::string& expected) const;
    /// The same at part of a word, `part` pointing into the text.
    [[noreturn]] void refuse(std::string_view part, const std::string& found,
                             const std::string& expected) const;
    /// `"shels" is not known here (did you mean shells?): write ...`. The nearest of the known
    /// words, for a word with a value the nearest name.
    [[noreturn]] void refuse_unknown(const Word& word, const std::vector<std::string>& known,
                                     const std::string& expected) const;

    /// Refuses a name that stands twice.
    void refuse_repeated() const;

    /// The value of a word as a number (read_number) within the range. `unit` comes before the
    /// range in the message: "milliseconds", giving "write milliseconds from -20 to 20".
    [[nodiscard]] double number(const Word& word, double least, double most,
                                std::string_view unit) const;

  private:
    void add(std::size_t from, std::size_t end);

    std::string_view text_;
    bool loose_;  ///< blanks may stand around =
    std::vector<Word> words_;
};

}  // namespace compline::text
