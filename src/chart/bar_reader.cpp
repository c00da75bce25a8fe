#include "bar_reader.hpp"

#include "shares.hpp"

#include <compline/text/bad_input.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace compline::chart {

namespace {

constexpr std::size_t longest_symbol = 40;
constexpr std::size_t most_tokens_read = 16;  ///< of a bar; no more than 6 can fit

bool is_no_chord(std::string_view token) { return token == "N.C." || token == "NC"; }

bool is_printable(std::string_view token) {
    return text::quoted(token) == fmt::format("\"{}\"", token);
}

/// Of what stands between parentheses around whole signs.
bool is_chord_in_parentheses(std::string_view token) {
    return !is_no_chord(token) && !token.empty() && token.front() >= 'A' && token.front() <= 'Z';
}

/// A:min7, which the reader of symbols knows what to say about.
bool is_annotation(std::string_view token) {
    std::size_t length = 0;
    const auto colon = token.find(':');
    return harmony::read_spelling(token, length) && colon == length && colon + 1 < token.size();
}

std::string capitals(std::string_view token) {
    std::string text(token);
    for (char& c : text) c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    return text;
}

/// What a token is that is no chord but something else that players write; empty when nothing
/// known.
std::string other_notation(std::string_view token) {
    if (token.find(':') != std::string_view::npos && !is_annotation(token)) {
        return "is not a chord: repeat signs are not read, name the section twice in `form`";
    }
    if (token.find('%') != std::string_view::npos) {
        return "is not a chord: one % repeats the one bar before it";
    }
    if (token.find_first_not_of("0123456789.,-[") == std::string_view::npos &&
        token.find_first_of("0123456789") != std::string_view::npos) {
        return "is not a chord: endings have a key of their section, such as endings: {1: Gm7 C7, "
               "2: F6}";
    }
    const std::string name = capitals(token);
    if (name == "N.C" || name == "N" || is_no_chord(name)) {
        return "is not a chord: where nobody plays write N.C.";
    }
    if (token.find_first_not_of("-_.") == std::string_view::npos) {
        return "is not a chord: a beat on the same chord is written /";
    }
    return "";
}

/// One chord is one slot, and to be played where it must be anywhere in it.
void append(WrittenBar& bar, const Slot& slot) {
    auto& slots = bar.slots;
    if (!slots.empty() && slots.back().chord == slot.chord) {
        slots.back().length += slot.length;
        slots.back().optional = slots.back().optional && slot.optional;
    } else {
        slots.push_back(slot);
    }
}

void append_kicks(WrittenBar& bar, time::Ticks start, KickMarks kicks) {
    if (kicks.on_beat) bar.kicks.push_back(start);
    if (kicks.off_beat) bar.kicks.push_back(start + time::eighth_note);
}

}  // namespace

std::vector<WrittenBar> BarReader::read_section(const std::vector<yaml::TextLine>& lines,
                                                std::optional<time::Meter> meter) {
    bars_.clear();
    meter_ = meter;
    previous_.reset();
    previous_was_wrong_ = false;
    read_lines(lines);
    return std::exchange(bars_, {});
}

std::vector<WrittenBar> BarReader::read_ending(const std::vector<yaml::TextLine>& lines,
                                               const std::vector<WrittenBar>& body) {
    previous_.reset();
    previous_was_wrong_ = false;
    bars_.clear();
    previous_is_optional_ = false;
    if (!body.empty()) {
        // For a simile in its first bar, and a slash.
        bars_.push_back(body.back());
        if (!body.back().slots.empty()) previous_ = body.back().slots.back().chord;
        previous_was_wrong_ = !previous_;
    }
    read_lines(lines);
    if (!body.empty()) bars_.erase(bars_.begin());
    return std::exchange(bars_, {});
}

void BarReader::read_lines(const std::vector<yaml::TextLine>& lines) {
    for (const auto& line : lines) read_line(line);
}

std::vector<BarReader::Token> BarReader::tokens_of(const yaml::TextLine& line, std::size_t from,
                                                   std::size_t to) {
    auto [tokens, unclosed] = tokens_of_bar(line, from, to);
    if (unclosed) {
        problems_.add(line.offset_at(*unclosed),
                      "a ( that is not closed in its bar: chords that may be left out stand in "
                      "parentheses, bar by bar, such as (Dm7 G7)");
    }
    return std::move(tokens);
}

std::string_view BarReader::without_comment(const yaml::TextLine& line) {
    const std::string_view text = line.text;
    for (std::size_t at = text.find('#'); at != std::string_view::npos;
         at = text.find('#', at + 1)) {
        if (at > 0 && text[at - 1] != ' ' && text[at - 1] != '|') continue;
        if (in_a_symbol(text, at)) continue;
        problems_.add(line.offset_at(at),
                      "a # that belongs to no chord: the text of a section has no comments, write "
                      "yours above the section");
        return text.substr(0, at);
    }
    return text;
}

void BarReader::read_line(const yaml::TextLine& line) {
    const auto text = without_comment(line);
    for (std::size_t from = 0; from <= text.size();) {
        const std::size_t bar_line = text.find('|', from);
        const bool is_last = bar_line == std::string_view::npos;
        const std::size_t to = is_last ? text.size() : bar_line;
        const auto tokens = tokens_of(line, from, to);
        // Before the first bar line and behind the last one there need not be a bar.
        const bool at_the_edge = from == 0 || is_last;
        if (tokens.empty() && !at_the_edge) {
            problems_.add(line.offset_at(to),
                          "an empty bar: write a chord, % to repeat the bar before, or N.C.; a "
                          "double bar line is written as one");
        }
        if (!tokens.empty() || !at_the_edge) {
            if (!has_room(line.offset_at(from))) return;
            read_bar(tokens);
        }
        from = to + 1;
    }
}

bool BarReader::has_room(std::size_t place) {
    if (written_ > most_bars) return false;
    if (++written_ <= most_bars) return true;
    problems_.add(place, fmt::format("here begins bar {} of the sections as written: a chart has "
                                     "at most {}",
                                     written_, most_bars));
    return false;
}

void BarReader::read_bar(const std::vector<Token>& tokens) {
    check_marks(tokens);
    const auto simile =
        std::find_if(tokens.begin(), tokens.end(), [](const Token& t) { return t.text == "%"; });
    if (tokens.size() == 1 && simile != tokens.end()) {
        read_simile(*simile);
        return;
    }
    if (simile != tokens.end()) {
        problems_.add(simile->offset,
                      "% repeats a whole bar and stands alone in its own: for a beat on the same "
                      "chord write /");
        previous_.reset();
        previous_was_wrong_ = true;
        bars_.emplace_back();
        return;
    }
    bars_.push_back(read_beats(tokens));
}

void BarReader::read_simile(const Token& token) {
    if (bars_.empty()) {
        problems_.add(token.offset,
                      "% in the first bar of a section has no bar before it to repeat: write the "
                      "chord");
        previous_was_wrong_ = true;
        bars_.emplace_back();
        return;
    }
    WrittenBar again = bars_.back();
    again.hold = {};
    bars_.push_back(std::move(again));
}

void BarReader::check_marks(const std::vector<Token>& tokens) {
    for (std::size_t i = 0; i < std::min(tokens.size(), most_tokens_read); ++i) {
        check_kicks(tokens[i]);
        check_off_beat(tokens[i]);
        check_hold(tokens[i], i + 1 == tokens.size());
    }
}

void BarReader::check_kicks(const Token& token) {
    const auto& sign = token.text;
    const auto& marks = token.marks;
    const bool good = marks.off_beat.empty()
                          ? read_kicks(marks.kicks).has_value()
                          : (marks.kicks.empty() || marks.kicks == "!") &&
                                (marks.off_kick.empty() || marks.off_kick == "!");
    const auto found = good || !read_kicks(marks.kicks) ? marks.kicks : marks.off_kick;
    if (marks.kicks.empty() && good) return;
    if (sign.empty() && marks.off_beat.empty()) {
        problems_.add(token.offset,
                      fmt::format("{} alone is no kick: its mark stands behind a chord "
                                  "or a / without a blank, such as F7! or /&!",
                                  text::quoted(marks.kicks)));
    } else if (found == "&") {
        problems_.add(token.place_of(found),
                      "& with nothing behind it: a chord on the off-beat stands there without a "
                      "blank, such as /&Bb7, and &! is a kick there");
    } else if (!good) {
        problems_.add(token.place_of(found),
                      fmt::format("{} behind {} is no kick: write ! for one on its "
                                  "beat, &! on the off-beat after it, !&! on both",
                                  text::quoted(found), text::quoted(sign)));
    } else if (sign == "%") {
        problems_.add(token.place_of(marks.kicks),
                      "a kick behind %, which repeats the bar before with its kicks: "
                      "write out a bar that has others");
    }
}

void BarReader::check_off_beat(const Token& token) {
    const auto& chord = token.marks.off_beat;
    if (chord.empty()) return;
    if (token.text == "%") {
        problems_.add(token.place_of(chord),
                      "a chord behind %, which repeats the bar before: write out a bar that has "
                      "others");
    } else if (meter_ && meter_->is_compound()) {
        problems_.add(token.place_of(chord),
                      fmt::format("& has no off-beat in {}: write {} signs, one for each eighth",
                                  meter_name(*meter_), meter_->written().above));
    }
}

void BarReader::check_hold(const Token& token, bool is_last) {
    const auto& hold = token.marks.hold;
    if (hold.empty()) return;
    if (token.text.empty() && token.marks.off_beat.empty()) {
        problems_.add(token.offset,
                      fmt::format("{} alone is no fermata: it stands behind a chord without a "
                                  "blank, such as C6~4",
                                  text::quoted(hold)));
    } else if (!read_hold(hold)) {
        problems_.add(token.place_of(hold),
                      fmt::format("{} is no fermata: write ~ and how many beats longer the chord "
                                  "is held, 1 to 32, such as C6~4",
                                  text::quoted(hold)));
    } else if (!is_last || token.text == "%") {
        problems_.add(token.place_of(hold),
                      "a fermata stands behind the last chord of its bar: put the bar line there");
    }
}

bool BarReader::tokens_fit(const std::vector<Token>& tokens) {
    const auto no_sign = std::find_if(tokens.begin(), tokens.end(), [](const Token& t) {
        return t.text.empty() && t.marks.off_beat.empty();
    });
    if (!meter_ || tokens.empty() || no_sign != tokens.end()) return false;
    const auto beats = static_cast<std::size_t>(meter_->beats());
    const auto count = std::min(tokens.size(), std::size_t{1000});
    const auto slash =
        std::find_if(tokens.begin(), tokens.end(), [](const Token& t) { return t.text == "/"; });
    if (slash != tokens.end() && !one_a_beat(*meter_, count)) {
        problems_.add(slash->offset,
                      fmt::format("a / is one beat, so this bar of {} needs {} chords and "
                                  "slashes, not {} (a slash chord has no blanks: C7/E)",
                                  meter_name(*meter_), counts_by_beat(*meter_), count));
        return false;
    }
    if (!shares_of_signs(*meter_, count).empty()) return true;
    const bool too_many = count > beats;
    problems_.add(tokens[too_many ? beats : 0].offset,
                  fmt::format("{} chords do not share a bar of {} evenly: write {}, with / for "
                              "each beat a chord goes on{}",
                              count, meter_name(*meter_), counts_that_fit(*meter_),
                              too_many ? ", or a bar line is missing" : ""));
    return false;
}

void BarReader::append_sign(WrittenBar& bar, const Token& token, time::Ticks start,
                            time::Ticks length) {
    const bool split = !token.marks.off_beat.empty();
    const auto off = std::min(time::eighth_note, length);
    const auto chord = read_token(token);
    if (chord && length > time::Ticks(0)) {
        append(bar, {start, split ? off : length, *chord, previous_is_optional_});
    }
    if (!split) return;
    const auto late = read_token(token.off_beat());
    if (late && length > off) {
        append(bar, {start + off, length - off, *late, previous_is_optional_});
    }
}

WrittenBar BarReader::read_beats(const std::vector<Token>& tokens) {
    WrittenBar bar;
    const auto shares =
        tokens_fit(tokens) ? shares_of_signs(*meter_, tokens.size()) : std::vector<time::Ticks>{};
    time::Ticks start;
    for (std::size_t i = 0; i < std::min(tokens.size(), most_tokens_read); ++i) {
        const auto& token = tokens[i];
        if (token.text.empty() && token.marks.off_beat.empty()) continue;
        append_sign(bar, token, start, shares.empty() ? time::Ticks(0) : shares[i]);
        if (shares.empty()) continue;
        append_kicks(bar, start, token.kicks());
        start += shares[i];
        const auto hold = read_hold(token.marks.hold);
        if (hold && i + 1 == tokens.size()) bar.hold = meter_->beat() * *hold;
    }
    return bar;
}

std::optional<BarReader::SlotChord> BarReader::read_token(const Token& token) {
    const bool goes_on = token.text == "/" || token.text.empty();
    if (!goes_on) {
        previous_ = read_symbol(token);
        previous_is_optional_ = token.optional;
        previous_was_wrong_ = !previous_;
    } else if (!previous_ && !previous_was_wrong_) {
        problems_.add(token.offset,
                      fmt::format("{} in the first bar of a section has no chord before it to go "
                                  "on with: write the chord",
                                  token.text.empty() ? "&" : "/"));
        previous_was_wrong_ = true;
    }
    return previous_;
}

std::optional<BarReader::SlotChord> BarReader::read_symbol(const Token& token) {
    if (token.optional && !is_chord_in_parentheses(token.text)) {
        problems_.add(token.offset, fmt::format("{} in parentheses: chords that may be left out "
                                                "stand there, such as (Dm7 G7), and what belongs "
                                                "to a symbol right behind it, such as C7(b9)",
                                                text::quoted(token.text)));
        return std::nullopt;
    }
    if (is_no_chord(token.text)) return SlotChord{};
    if (const auto other = other_notation(token.text); !other.empty()) {
        problems_.add(token.offset, fmt::format("{} {}", text::quoted(token.text), other));
    } else if (token.text.size() > longest_symbol || !is_printable(token.text)) {
        problems_.add(token.offset,
                      fmt::format("{} is not a chord: a chord is a short symbol such as E♭maj7 or "
                                  "C7/E, with plain blanks around it",
                                  text::quoted(token.text)));
    } else {
        try {
            return SlotChord{harmony::read_chord(token.text)};
        } catch (const text::BadInput& error) {
            problems_.add(token.line->offset_at(token.byte + error.offset().value_or(0)),
                          error.what());
        }
    }
    return std::nullopt;
}

}  // namespace compline::chart
