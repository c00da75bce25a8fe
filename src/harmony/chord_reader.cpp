#include <compline/harmony/chord.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <array>

namespace compline::harmony {

namespace {

using Q = Quality;
using A = Alteration;

/// What stands first after the root.
enum class Mark { none, major, minor, diminished, half_diminished, augmented };
enum class Suspension { none, second, fourth };

constexpr int six_nine = 69;

/// What a symbol says, before it is given a quality.
struct SymbolParts {
    Mark word = Mark::none;
    bool major_seventh = false;
    int number = 0;  ///< 2, 5, 6, 69, 7, 9, 11, 13; 0: none
    Suspension suspension = Suspension::none;
    bool altered = false;
    bool bare = false;  ///< a tone altered, not one added: b9, not addb9
    Alterations alterations;
};

constexpr std::string_view after_root =
    "m, maj7, dim, °, ø, aug, +, sus4, 5, 6, 6/9, 7, 9, 11, 13, add9, an alteration in "
    "parentheses, or / and a bass note";
constexpr std::string_view after_quality =
    "b5 #5 b9 #9 #11 b13, sus4, alt, add9, (no3), or / and a bass note";
constexpr std::string_view in_parentheses = "b5 #5 b9 #9 #11 b13, 9 11 13, add9, no3, maj7";

// clang-format off
struct MarkText { std::string_view text; Mark word; };
constexpr std::array words = {
    MarkText{"min", Mark::minor},  MarkText{"maj", Mark::major},  MarkText{"mi", Mark::minor},
    MarkText{"madd", Mark::minor}, MarkText{"ma", Mark::major},   MarkText{"m", Mark::minor},
    MarkText{"MIN", Mark::minor},  MarkText{"MI", Mark::minor},   MarkText{"Maj", Mark::major},
    MarkText{"MAJ", Mark::major},  MarkText{"MA", Mark::major},   MarkText{"M", Mark::major},
    MarkText{"-", Mark::minor},    MarkText{"−", Mark::minor},    MarkText{"△", Mark::major},
    MarkText{"Δ", Mark::major},    MarkText{"dim", Mark::diminished}, MarkText{"°", Mark::diminished},
    MarkText{"º", Mark::diminished}, MarkText{"o", Mark::diminished}, MarkText{"ø", Mark::half_diminished},
    MarkText{"Ø", Mark::half_diminished}, MarkText{"aug", Mark::augmented}, MarkText{"+", Mark::augmented},
};

struct Number { std::string_view text; int value; };
constexpr std::array numbers = {
    Number{"6/9", six_nine}, Number{"69", six_nine}, Number{"6", 6}, Number{"7", 7}, Number{"9", 9},
    Number{"11", 11}, Number{"13", 13}, Number{"5", 5}, Number{"2", 2},
};
// What an accidental may stand before, and what an addition may name.
constexpr std::array altered_numbers = {
    Number{"13", 13}, Number{"11", 11}, Number{"9", 9}, Number{"6", 6}, Number{"5", 5}, Number{"4", 11},
};
constexpr std::array added_numbers = {
    Number{"13", 13}, Number{"11", 11}, Number{"9", 9}, Number{"6", 13}, Number{"4", 11}, Number{"2", 9},
};
constexpr std::array<std::string_view, 7> major_sevenths = {"maj", "Maj", "ma", "MA", "M", "△", "Δ"};
// clang-format on

std::optional<Alteration> alteration_of(int accidental, int number) {
    struct KnownAlteration {
        int accidental;
        int number;
        Alteration alteration;
    };
    constexpr std::array known = {
        KnownAlteration{-1, 5, A::flat_five},      KnownAlteration{1, 5, A::sharp_five},
        KnownAlteration{-1, 6, A::flat_six},       KnownAlteration{-1, 9, A::flat_nine},
        KnownAlteration{1, 9, A::sharp_nine},      KnownAlteration{1, 11, A::sharp_eleven},
        KnownAlteration{-1, 13, A::flat_thirteen}, KnownAlteration{0, 9, A::added_nine},
        KnownAlteration{0, 11, A::added_eleven},   KnownAlteration{0, 13, A::added_thirteen}};
    for (const auto& k : known) {
        if (k.accidental == accidental && k.number == number) return k.alteration;
    }
    return std::nullopt;
}

/// Reads one symbol from left to right.
class SymbolReader {
  public:
    explicit SymbolReader(std::string_view symbol) : symbol_(symbol) {}

    Chord read() {
        Chord chord;
        const auto root = read_spelling(symbol_, at_);
        if (!root) {
            fail(0, "a chord starts with a letter A to G (N.C. where nobody plays)");
        }
        chord.root = *root;
        quality_at_ = at_;
        read_word();
        read_number();
        read_rest();
        chord.quality = quality();
        chord.alterations = parts_.alterations;
        if (at_ < symbol_.size()) chord.bass = read_bass();
        return simplest(chord);
    }

  private:
    [[noreturn]] void fail(std::size_t place, std::string_view why) const {
        throw text::BadInput("", text::quoted(symbol_) + " is not a chord", std::string(why),
                             place);
    }

    [[noreturn]] void expect(std::string_view what) const {
        const auto rest = symbol_.substr(at_);
        const auto before = symbol_.substr(0, at_);
        if (rest.empty()) fail(at_, fmt::format("after {} stands {}", text::quoted(before), what));
        fail(at_, fmt::format("after {} stands {}, not {}", text::quoted(before), what,
                              text::quoted(rest)));
    }

    [[nodiscard]] std::string_view rest() const { return symbol_.substr(at_); }
    [[nodiscard]] bool at_end() const { return at_ == symbol_.size(); }
    [[nodiscard]] bool sees(std::string_view text) const { return rest().starts_with(text); }
    bool eat(std::string_view text) {
        if (!sees(text)) return false;
        at_ += text.size();
        return true;
    }

    template <std::size_t n>
    std::optional<int> eat_number(const std::array<Number, n>& choice) {
        for (const auto& number : choice) {
            if (eat(number.text)) return number.value;
        }
        return std::nullopt;
    }

    /// -1 flat, 1 sharp, 0 none. After a number - and + are accidentals too (7-9, 7+11).
    int eat_accidental() {
        if (eat("b") || eat("♭") || eat("-") || eat("−")) return -1;
        if (eat("#") || eat("♯") || eat("+")) return 1;
        return 0;
    }

    void read_word() {
        // C+5 and C+11 sharpen a degree, C+ and C+7 augment; Co is diminished, C(omit3) is not.
        if (sees("+5") || sees("+11") || sees("omit")) return;
        for (const auto& reading : words) {
            if (!sees(reading.text)) continue;
            parts_.word = reading.word;
            at_ += reading.text == "madd" ? 1 : reading.text.size();
            if (reading.text == "△" || reading.text == "Δ") name_major_seventh();
            break;
        }
        const bool may_have = parts_.word == Mark::minor || parts_.word == Mark::diminished ||
                              parts_.word == Mark::augmented;
        if (may_have) read_major_seventh();
    }

    void name_major_seventh() {
        parts_.major_seventh = true;
        parts_.number = 7;
    }

    /// The major seventh of a minor, diminished or augmented chord: mM7, m/maj7, m△, and in
    /// parentheses.
    void read_major_seventh() {
        const auto start = at_;
        const bool parenthesis = eat("(");
        if (!parenthesis) eat("/");
        for (const auto text : major_sevenths) {
            if (!eat(text)) continue;
            const bool triangle = text == "△" || text == "Δ";
            const auto number = eat_number(numbers);
            if (!number && !triangle) break;
            parts_.number = number.value_or(7);
            if (parts_.number < 7 || parts_.number == six_nine) break;
            if (parenthesis && !eat(")")) expect("the closing parenthesis");
            parts_.major_seventh = true;
            return;
        }
        at_ = start;
    }

    void read_number() {
        const auto start = at_;
        if (parts_.major_seventh && parts_.word != Mark::major) return;
        const auto number = eat_number(numbers);
        if (!number) return;
        parts_.number = *number;
        const bool extended = *number >= 7 && *number != six_nine;
        if (parts_.word == Mark::major) parts_.major_seventh = extended;
        if (parts_.word == Mark::none && *number == 7 && eat("M")) parts_.major_seventh = true;
        if ((*number == 5 || *number == 2) && parts_.word != Mark::none) {
            at_ = start;
            expect(*number == 5 ? "no bare 5: an altered fifth is b5 or #5"
                                : "no bare 2: write add9");
        }
    }

    void read_rest() {
        while (!at_end() && !sees("/")) {
            if (eat("(")) {
                if (sees(")")) expect(in_parentheses);
                do {
                    read_item(true);
                } while (eat(",") || (!sees(")") && !at_end()));
                if (!eat(")")) expect("the closing parenthesis");
            } else {
                read_item(eat(","));
            }
        }
    }

    /// One alteration, addition, omission or suspension. `plain`: a bare 9, 11 or 13 may stand
    /// here.
    void read_item(bool plain) {
        const auto start = at_;
        if (read_suspension() || read_omission() || read_addition()) return;
        if (eat("alt")) {
            parts_.altered = true;
            return;
        }
        if (eat("aug")) {
            parts_.bare = true;
            insert(A::sharp_five, start);
            return;
        }
        if (plain && read_natural()) return;
        const bool plus = sees("+");
        const int accidental = eat_accidental();
        if (accidental == 0) {
            expect(plain ? in_parentheses : start == quality_at_ ? after_root : after_quality);
        }
        parts_.bare = true;
        // A + on its own augments: C7+.
        const bool digit = !at_end() && rest().front() >= '0' && rest().front() <= '9';
        insert(plus && !digit ? A::sharp_five : read_altered(accidental), start);
    }

    /// The number behind an accidental.
    Alteration read_altered(int accidental) {
        const auto place = at_;
        if (const auto number = eat_number(altered_numbers)) {
            if (const auto alteration = alteration_of(accidental, *number)) return *alteration;
        }
        at_ = place;
        expect(accidental < 0 ? "5, 6, 9 or 13" : "5, 9 or 11");
    }

    bool read_natural() {
        const auto start = at_;
        const auto number = eat_number(added_numbers);
        if (number) insert(*alteration_of(0, *number), start);
        return number.has_value();
    }

    bool read_suspension() {
        const auto start = at_;
        if (!eat("sus")) return false;
        if (parts_.suspension != Suspension::none) fail(start, "sus stands twice");
        if (eat("24")) {
            parts_.suspension = Suspension::fourth;
            insert(A::added_nine, start);
        } else if (eat("2")) {
            parts_.suspension = Suspension::second;
        } else {
            eat("4");
            parts_.suspension = Suspension::fourth;
        }
        return true;
    }

    bool read_omission() {
        const auto start = at_;
        if (!eat("no") && !eat("omit")) return false;
        if (eat("3")) {
            insert(A::no_third, start);
        } else if (eat("5")) {
            insert(A::no_fifth, start);
        } else {
            expect("3 or 5");
        }
        return true;
    }

    bool read_addition() {
        const auto start = at_;
        if (!eat("add")) return false;
        const int accidental = eat_accidental();
        if (accidental != 0) {
            insert(read_altered(accidental), start);
        } else if (const auto number = eat_number(added_numbers)) {
            insert(*alteration_of(0, *number), start);
        } else {
            expect("2, 4, 6, 9, 11 or 13, also with b or #");
        }
        return true;
    }

    void insert(Alteration alteration, std::size_t start) {
        if (parts_.alterations.has(alteration)) {
            fail(start, text::quoted(symbol_.substr(start, at_ - start)) + " stands twice");
        }
        parts_.alterations.insert(alteration);
    }

    Spelling read_bass() {
        eat("/");
        std::size_t length = 0;
        const auto bass = read_spelling(rest(), length);
        if (!bass) expect("a bass note, A to G");
        at_ += length;
        if (!at_end()) {
            fail(at_, fmt::format("nothing may follow the bass note, but {} does",
                                  text::quoted(rest())));
        }
        return *bass;
    }

    [[nodiscard]] std::string_view quality_read() const {
        return symbol_.substr(quality_at_, at_ - quality_at_);
    }

    [[noreturn]] void fail_quality(std::string_view why) const { fail(quality_at_, why); }

    Quality quality() {
        if (parts_.altered) return altered();
        if (parts_.suspension != Suspension::none) return suspended();
        switch (parts_.word) {
            case Mark::none:
            case Mark::major:
                return parts_.major_seventh ? major_seventh() : major();
            case Mark::minor:
                return parts_.major_seventh ? minor_major_seventh() : minor();
            case Mark::augmented:
                return augmented();
            case Mark::diminished:
                if (parts_.major_seventh && parts_.number == 7) return Q::diminished_major_seventh;
                if (!parts_.major_seventh && parts_.number == 0) return Q::diminished;
                if (!parts_.major_seventh && parts_.number == 7) return Q::diminished_seventh;
                fail_quality("a diminished chord is written dim, dim7 or dim(maj7)");
            case Mark::half_diminished:
                break;
        }
        switch (parts_.number) {
            case 0:
            case 7:
                return Q::half_diminished;
            case 9:
                return Q::half_diminished_ninth;
            case 11:
                return Q::half_diminished_eleventh;
            default:
                fail_quality("a half-diminished chord is written ø, ø7, ø9 or ø11");
        }
    }

    Quality altered() {
        const bool seventh = parts_.number == 7 || parts_.number == 0;
        const bool bare = parts_.word == Mark::none && seventh && !parts_.major_seventh &&
                          parts_.suspension == Suspension::none && parts_.alterations.none();
        if (!bare) fail_quality("alt stands alone after the root or the 7: it names no alteration");
        return Q::altered;
    }

    /// The third is gone, so that Cm7sus4 is C7sus4.
    Quality suspended() {
        const bool third_word =
            parts_.word == Mark::none || parts_.word == Mark::minor || parts_.word == Mark::major;
        if (third_word && parts_.suspension == Suspension::second) {
            if (parts_.number == 0) return Q::suspended_second;
            if (parts_.number == 7 && !parts_.major_seventh) return Q::suspended_second_seventh;
        } else if (third_word) {
            switch (parts_.number) {
                case 0:
                    return Q::suspended_fourth;
                case 6:
                    return Q::suspended_sixth;
                case 7:
                    return parts_.major_seventh ? Q::suspended_major_seventh : Q::suspended_seventh;
                case 9:
                    return parts_.major_seventh ? Q::suspended_major_ninth : Q::suspended_ninth;
                case 13:
                    if (!parts_.major_seventh) return Q::suspended_thirteenth;
                    break;
                default:
                    break;
            }
        }
        fail_quality("known with sus: sus2 sus4 6sus4 7sus2 7sus4 9sus4 13sus4 maj7sus4 maj9sus4");
    }

    Quality major() {
        switch (parts_.number) {
            case 0:
                return Q::major;
            case 2:
                insert(A::added_nine, quality_at_);
                return Q::major;
            case 5:
                if (parts_.bare || parts_.alterations.has(A::no_fifth)) {
                    fail_quality(
                        "5 is root and fifth: tones may be added (add9), none altered or left out");
                }
                return Q::power;
            case 6:
                return Q::sixth;
            case six_nine:
                return Q::six_nine;
            case 7:
                return Q::dominant_seventh;
            case 9:
                return Q::dominant_ninth;
            case 11:
                return Q::dominant_eleventh;
            default:
                return Q::dominant_thirteenth;
        }
    }

    [[nodiscard]] Quality major_seventh() const {
        switch (parts_.number) {
            case 9:
                return Q::major_ninth;
            case 11:
                return Q::major_eleventh;
            case 13:
                return Q::major_thirteenth;
            default:
                return Q::major_seventh;
        }
    }

    [[nodiscard]] Quality minor() const {
        switch (parts_.number) {
            case 0:
                return Q::minor;
            case 6:
                return Q::minor_sixth;
            case six_nine:
                return Q::minor_six_nine;
            case 7:
                return Q::minor_seventh;
            case 9:
                return Q::minor_ninth;
            case 11:
                return Q::minor_eleventh;
            default:
                return Q::minor_thirteenth;
        }
    }

    [[nodiscard]] Quality minor_major_seventh() const {
        switch (parts_.number) {
            case 9:
                return Q::minor_major_ninth;
            case 11:
                return Q::minor_major_eleventh;
            case 13:
                return Q::minor_major_thirteenth;
            default:
                return Q::minor_major_seventh;
        }
    }

    Quality augmented() {
        if (parts_.number == 0) return Q::augmented;
        const bool known = parts_.number == 7 || parts_.number == 9;
        if (!known) fail_quality("an augmented chord is written aug, aug7, aug9 or aug(maj7)");
        if (!parts_.alterations.has(A::sharp_five)) parts_.alterations.insert(A::sharp_five);
        return parts_.major_seventh ? major_seventh() : major();
    }

    std::string_view symbol_;
    std::size_t at_ = 0;
    std::size_t quality_at_ = 0;  ///< behind the root
    SymbolParts parts_;
};

}  // namespace

Chord read_chord(std::string_view symbol) { return SymbolReader(symbol).read(); }

}  // namespace compline::harmony
