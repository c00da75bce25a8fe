#include "bar_reader.hpp"

#include "kicks.hpp"
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

std::string capitals(std::string_view token) {
    std::string text(token);
    for (char& c : text) c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    return text;
}

/// What a token is that is no chord but something else that players write; empty when nothing
/// known.
std::string other_notation(std::string_view token) {
    if (token.find(':') != std::string_view::npos) {
        return "is not a chord: repeat signs are not read, name the section twice in `form`";
    }
    if (token.find('%') != std::string_view::npos) {
        return "is not a chord: one % repeats the one bar before it";
    }
    const std::string name = capitals(token);
    if (name == "N.C" || is_no_chord(name)) {
        return "is not a chord: where nobody plays write N.C.";
    }
    if (token.find_first_not_of("-_.") == std::string_view::npos) {
        return "is not a chord: a beat on the same chord is written /";
    }
    return "";
}

void append(WrittenBar& bar, time::Ticks start, time::Ticks length,
            const std::optional<harmony::Chord>& chord) {
    auto& slots = bar.slots;
    if (!slots.empty() && slots.back().chord == chord) {
        slots.back().length += length;
    } else {
        slots.push_back({start, length, chord});
    }
}

void append_kicks(WrittenBar& bar, time::Ticks start, KickMarks kicks) {
    if (kicks.on_beat) bar.kicks.push_back(start);
    if (kicks.off_beat) bar.kicks.push_back(start + time::eighth_note);
}

}  // namespace

std::vector<WrittenBar> BarReader::read_section(const std::vector<yaml::TextLine>& lines) {
    bars_.clear();
    previous_.reset();
    previous_was_wrong_ = false;
    for (const auto& line : lines) read_line(line);
    return std::exchange(bars_, {});
}

std::vector<BarReader::Token> BarReader::tokens_of(const yaml::TextLine& line, std::size_t from,
                                                   std::size_t to) {
    std::vector<Token> tokens;
    const std::string_view text = line.text;
    for (std::size_t at = from; at < to;) {
        const std::size_t start = std::min(text.find_first_not_of(' ', at), to);
        const std::size_t end = std::min(text.find(' ', start), to);
        if (start < end) {
            const auto token = text.substr(start, end - start);
            const std::size_t kicks = start_of_kicks(token);
            tokens.push_back(
                {token.substr(0, kicks), token.substr(kicks), line.offset_at(start), &line, start});
        }
        at = end;
    }
    return tokens;
}

std::string_view BarReader::without_comment(const yaml::TextLine& line) {
    const std::string_view text = line.text;
    for (std::size_t at = text.find('#'); at != std::string_view::npos;
         at = text.find('#', at + 1)) {
        if (at > 0 && text[at - 1] != ' ' && text[at - 1] != '|') continue;
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
    check_kicks(tokens);
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
    bars_.push_back(std::move(again));
}

void BarReader::check_kicks(const std::vector<Token>& tokens) {
    for (std::size_t i = 0; i < std::min(tokens.size(), most_tokens_read); ++i) {
        const auto& [sign, marks, offset, line, byte] = tokens[i];
        const std::size_t place = line->offset_at(byte + sign.size());
        if (marks.empty()) continue;
        if (sign.empty()) {
            problems_.add(offset, fmt::format("{} alone is no kick: its mark stands behind a chord "
                                              "or a / without a blank, such as F7! or /&!",
                                              text::quoted(marks)));
        } else if (!read_kicks(marks)) {
            problems_.add(place, fmt::format("{} behind {} is no kick: write ! for one on its "
                                             "beat, &! on the off-beat after it, !&! on both",
                                             text::quoted(marks), text::quoted(sign)));
        } else if (sign == "%") {
            problems_.add(place,
                          "a kick behind %, which repeats the bar before with its kicks: "
                          "write out a bar that has others");
        }
    }
}

bool BarReader::tokens_fit(const std::vector<Token>& tokens) {
    const auto no_sign =
        std::find_if(tokens.begin(), tokens.end(), [](const Token& t) { return t.text.empty(); });
    if (!meter_ || tokens.empty() || no_sign != tokens.end()) return false;
    const auto beats = static_cast<std::size_t>(meter_->beats());
    const auto count = std::min(tokens.size(), std::size_t{1000});
    const auto slash =
        std::find_if(tokens.begin(), tokens.end(), [](const Token& t) { return t.text == "/"; });
    if (slash != tokens.end() && count != beats) {
        problems_.add(slash->offset,
                      fmt::format("a / is one beat, so this bar of {0}/4 needs {0} chords and "
                                  "slashes, not {1} (a slash chord has no blanks: C7/E)",
                                  beats, count));
        return false;
    }
    if (!beats_of_signs(*meter_, count).empty()) return true;
    const bool too_many = count > beats;
    problems_.add(tokens[too_many ? beats : 0].offset,
                  fmt::format("{} chords do not share a bar of {}/4 evenly: write {}, with / for "
                              "each beat a chord goes on{}",
                              count, beats, counts_that_fit(*meter_),
                              too_many ? ", or a bar line is missing" : ""));
    return false;
}

WrittenBar BarReader::read_beats(const std::vector<Token>& tokens) {
    WrittenBar bar;
    const auto beats =
        tokens_fit(tokens) ? beats_of_signs(*meter_, tokens.size()) : std::vector<int>{};
    time::Ticks start;
    for (std::size_t i = 0; i < std::min(tokens.size(), most_tokens_read); ++i) {
        if (tokens[i].text.empty()) continue;
        const auto chord = read_token(tokens[i]);
        if (beats.empty()) continue;
        const auto length = time::quarter_note * beats[i];
        if (chord) append(bar, start, length, *chord);
        append_kicks(bar, start, read_kicks(tokens[i].kicks).value_or(KickMarks{}));
        start += length;
    }
    return bar;
}

std::optional<BarReader::SlotChord> BarReader::read_token(const Token& token) {
    if (token.text != "/") {
        previous_ = read_symbol(token);
        previous_was_wrong_ = !previous_;
    } else if (!previous_ && !previous_was_wrong_) {
        problems_.add(token.offset,
                      "/ in the first bar of a section has no chord before it to go on with: write "
                      "the chord");
        previous_was_wrong_ = true;
    }
    return previous_;
}

std::optional<BarReader::SlotChord> BarReader::read_symbol(const Token& token) {
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
