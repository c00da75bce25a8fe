#include <compline/practice/pedal.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/phrase.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace compline::practice {

namespace {

using Kind = midi::Message::Kind;
using text::Phrase;
using text::Word;

constexpr const char* example = "write such as 64=loop here, 67=pause";
constexpr int highest = 127;

struct NamedKind {
    const char* name;
    Kind kind;
};
constexpr std::array<NamedKind, 3> kinds = {{{"controller", Kind::control_change},
                                             {"program", Kind::program_change},
                                             {"note", Kind::note_on}}};

std::string in_words(Kind kind, int number) {
    const auto named = std::find_if(kinds.begin(), kinds.end(),
                                    [&](const NamedKind& one) { return one.kind == kind; });
    return fmt::format("{} {}", named->name, number);
}

std::string all_commands() { return "write " + text::listed(want_names(), "or"); }

}  // namespace

class Pedal::Reader {
  public:
    explicit Reader(std::string_view words) : phrase_(words, Phrase::Parted::by_commas) {}

    std::vector<Switch> read() {
        std::vector<Switch> switches;
        for (const auto& word : phrase_.words()) {
            const auto one = read(word);
            refuse_twice(word, one, switches);
            switches.push_back(one);
        }
        return switches;
    }

  private:
    [[nodiscard]] Switch read(const Word& word) const {
        if (word.text.empty()) phrase_.refuse(word, "a switch is missing", example);
        if (!word.value) {
            phrase_.refuse(word, text::quoted(word.text) + " asks for nothing", example);
        }
        Switch one;
        one.kind = read_kind(word);
        one.number = read_number(word);
        one.want = read_want(word);
        return one;
    }

    /// A number alone is a controller's.
    [[nodiscard]] Kind read_kind(const Word& word) const {
        const Phrase parts(word.name);
        if (parts.words().size() == 1) return Kind::control_change;
        for (const auto& named : kinds) {
            if (parts.words().size() == 2 && parts.words()[0].text == named.name) return named.kind;
        }
        phrase_.refuse(word, text::quoted(word.name) + " is no switch of a pedal",
                       "write a controller's number, program 3 or note 36");
    }

    [[nodiscard]] int read_number(const Word& word) const {
        const Phrase parts(word.name);
        const auto last = parts.words().empty() ? std::string_view() : parts.words().back().text;
        const auto number = text::read_count(last);
        if (number && *number <= highest) return *number;
        phrase_.refuse(word, text::quoted(last) + " is no number on a MIDI cable",
                       fmt::format("write 0 to {}", highest));
    }

    [[nodiscard]] Want read_want(const Word& word) const {
        const std::string words(*word.value);
        if (words.empty()) {
            phrase_.refuse(word, "there is nothing behind " + std::string(word.name) + "=",
                           all_commands());
        }
        if (const auto want = want_named(words)) return *want;
        phrase_.refuse(
            *word.value,
            text::quoted(words) + " is no command" + text::did_you_mean(words, want_names()),
            all_commands());
    }

    void refuse_twice(const Word& word, const Switch& one,
                      const std::vector<Switch>& switches) const {
        for (const auto& other : switches) {
            if (other.kind != one.kind || other.number != one.number) continue;
            phrase_.refuse(word, in_words(one.kind, one.number) + " has a command already",
                           "give it one of the two");
        }
    }

    Phrase phrase_;
};

Pedal::Pedal(std::string_view words) : switches_(Reader(words).read()) {}

}  // namespace compline::practice
