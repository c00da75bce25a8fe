#include "hand_words.hpp"
#include "voicing_words.hpp"
#include "words.hpp"

#include <compline/report/columns.hpp>
#include <compline/report/hand.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <vector>

namespace compline::report {

namespace {

using practice::HandAgainstPlan;
using practice::HandMove;
using practice::HandUnknown;

constexpr std::size_t furthest_on_one_screen = 4;

int whole(double value) { return static_cast<int>(std::lround(value)); }

std::string shift_words(int hand) {
    if (hand == 0) return "";
    return fmt::format(", the hand {} {}", std::abs(hand), hand > 0 ? "up" : "down");
}

/// "F7 → B♭7  3 frets, the hand 1 up; the plan 2"
std::string frets_there(const HandMove& move) {
    const auto chords = fmt::format("{} → {}", move.from.symbol(), move.to.symbol());
    if (move.times == move.of) {
        return fmt::format("{}  {}{}; the plan {}", chords, travel_words(move.move.travel()),
                           shift_words(move.move.hand), mean_frets(move.plan_frets));
    }
    return fmt::format("{}  {} frets on average; the plan {}; mostly, {} of {} times:", chords,
                       mean_frets(move.frets), mean_frets(move.plan_frets), move.times, move.of);
}

std::string way(const char* whose, const guitar::Grip& from, const guitar::Grip& to) {
    return fmt::format("    {}  {} → {}", whose, from.shape.text(), to.shape.text());
}

/// The same in several bars is said once.
struct Alike {
    std::vector<std::string> bars;
    std::vector<std::string> lines;  ///< what is said of them, the first behind the bars
};

std::vector<std::string> lines_of(const HandMove& move) {
    std::vector<std::string> lines = {frets_there(move), way("yours", move.held_before, move.held),
                                      way("plan ", move.planned_before, move.planned)};
    if (move.nearer) lines.push_back("    near   " + nearer_words(*move.nearer));
    return lines;
}

std::vector<Alike> alike(const std::vector<HandMove>& moves) {
    std::vector<Alike> all;
    for (const auto& move : moves) {
        const auto lines = lines_of(move);
        const auto same = std::find_if(all.begin(), all.end(),
                                       [&](const Alike& one) { return one.lines == lines; });
        if (same == all.end()) {
            all.push_back({{bar_of_move(move)}, lines});
        } else {
            same->bars.push_back(bar_of_move(move));
        }
    }
    return all;
}

std::string text_of(const Alike& one) {
    constexpr std::size_t below = 11;  // behind "    near   "
    auto text =
        hanging("  " + text::listed(one.bars) + "  " + one.lines.front(), terminal_columns, below) +
        "\n";
    for (std::size_t i = 1; i < one.lines.size(); ++i) {
        text += hanging(one.lines[i], terminal_columns, below) + "\n";
    }
    return text;
}

std::string furthest_text(const HandAgainstPlan& hand, Listing listing) {
    const auto far = alike(hand.furthest());
    if (far.empty()) return "  Nowhere did it go further than the plan.\n";
    const auto shown =
        listing == Listing::all ? far.size() : std::min(far.size(), furthest_on_one_screen);
    std::string text = "Furthest beyond it\n";
    for (std::size_t i = 0; i < shown; ++i) text += text_of(far[i]);
    if (shown == far.size()) return text;
    return text + fmt::format("  and {} more (--all)\n", far.size() - shown);
}

std::string passed_text(const practice::PassedOver& passed) {
    if (passed.all() == 0) return "";
    std::vector<std::string> parts;
    const auto add = [&](int count, const char* what) {
        if (count > 0) parts.push_back(fmt::format("{} {}", count, what));
    };
    add(passed.not_struck, "not struck");
    add(passed.wrong, "with wrong or missing tones");
    add(passed.uncertain, "uncertain");
    add(passed.no_hand, "in grips whose fingers are not known");
    add(passed.no_plan, "that the plan does not have");
    const auto line =
        fmt::format("  Passed over, and the ways on from there: {}.", text::listed(parts));
    return hanging(line, terminal_columns, 2) + "\n";
}

std::string unknown_text(HandUnknown why) {
    if (why == HandUnknown::by_sound) {
        return "  Not known: by sound alone nobody hears which strings and frets it held.\n";
    }
    return "  Not known: all strings came on one channel, which says no frets. With a channel\n"
           "  for each string (mono mode, guitar mode) it is.\n";
}

std::string guided_text(const HandAgainstPlan& hand) {
    return fmt::format(
        "  A finger stays or slides in {} of {}, in the plan in {}.\n", whole(hand.hand.guided),
        plural(static_cast<int>(hand.moves.size()), "change", "changes"), whole(hand.plan.guided));
}

}  // namespace

std::string mean_frets(double value) { return plain(std::round(value * 10) / 10); }

std::string travel_words(double value) {
    const auto number = mean_frets(value);
    return number == "0" ? "no fret" : number + (number == "1" ? " fret" : " frets");
}

std::string nearer_words(const practice::NearerGrip& nearer) {
    const auto text =
        fmt::format("{}, {}", nearer.grip.shape.text(), travel_words(nearer.move.travel()));
    if (nearer.guides.empty()) return text;
    guitar::Move guides;
    guides.fingers = nearer.guides;
    guides.voices = nearer.move.voices;
    const auto words = finger_words(guides);
    return fmt::format("{}: {}; you lifted {}", text, fmt::join(words, ", "),
                       nearer.guides.size() == 1 ? "it" : "them");
}

std::string bar_of_move(const HandMove& move) {
    return move.beat == time::BeatOfBar(1)
               ? fmt::format("bar {}", move.bar)
               : fmt::format("bar {} beat {}", move.bar, plain(move.beat.number()));
}

std::string hand_sentence(const HandAgainstPlan& hand) {
    if (hand.moves.empty()) return "";
    return fmt::format("Your fingers went {} in one time through, the plan's go {}.",
                       plural(whole(hand.hand.frets), "fret", "frets"), whole(hand.plan.frets));
}

std::string hand_text(const HandAgainstPlan& hand, Listing listing) {
    const auto asked = text::printable(hand.voicings, hand.voicings.size());
    const auto head = asked.empty() ? "Your hand against the plan of voicings"
                                    : fmt::format("Your hand against the plan of {}", asked);
    const auto text = cut_to_columns(head, terminal_columns) + "\n";
    if (hand.unknown != HandUnknown::no) return text + unknown_text(hand.unknown);
    if (hand.moves.empty()) {
        return text + "  No two changes in a row were struck with the right tones.\n" +
               passed_text(hand.passed);
    }
    return text + "  " + hand_sentence(hand) + "\n" + guided_text(hand) + passed_text(hand.passed) +
           furthest_text(hand, listing);
}

}  // namespace compline::report
