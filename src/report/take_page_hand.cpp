#include "take_page_hand.hpp"

#include "grip_pair.hpp"
#include "hand_words.hpp"

#include <compline/report/hand.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace compline::report {

namespace {

using practice::HandMove;

/// Beside four of faults: as many as a sheet holds.
constexpr std::size_t most_moves = 2;

const guitar::Grip& better_grip(const HandMove& move) {
    return move.nearer ? move.nearer->grip : move.planned;
}

double better_frets(const HandMove& move) {
    return move.nearer ? move.nearer->move.travel() : move.plan_frets;
}

/// Those that would spare the hand most, each once however many bars have it.
std::vector<HandMove> moves_to_show(const practice::HandAgainstPlan& hand) {
    auto far = hand.furthest();
    const auto spares = [](const HandMove& move) { return move.frets - better_frets(move); };
    std::stable_sort(far.begin(), far.end(), [&](const HandMove& one, const HandMove& other) {
        return spares(one) > spares(other);
    });
    std::vector<HandMove> shown;
    for (const auto& move : far) {
        const bool is_told = std::any_of(shown.begin(), shown.end(), [&](const HandMove& one) {
            return one.held_before == move.held_before && one.held == move.held;
        });
        if (is_told || move.held == better_grip(move)) continue;
        shown.push_back(move);
        if (shown.size() == most_moves) break;
    }
    return shown;
}

std::string move_name(const HandMove& move) {
    return fmt::format("{}, {} {} → {}", bar_of_move(move), move.from.symbol(),
                       move.held_before.shape.text(), move.to.symbol());
}

std::string better_name(const HandMove& move) { return move.nearer ? "nearer" : "the plan's"; }

std::string with_frets(const std::string& name, double frets) {
    return name + ": " + travel_words(frets);
}

std::string pair_of(const HandMove& move, int strings, Hand hand) {
    return grip_pair(move_name(move), {&move.held, with_frets("held", move.frets), {}},
                     {&better_grip(move), with_frets(better_name(move), better_frets(move)), {}},
                     strings, hand);
}

std::string moves_table(const practice::HandAgainstPlan& hand) {
    PageTable table(
        "Frets that fingers travelled, in one time through",
        {"where", "change", "frets", "the plan's", "from", "held", "the plan's grip", "nearer"});
    for (const auto& move : hand.moves) {
        table.row({bar_of_move(move), fmt::format("{} → {}", move.from.symbol(), move.to.symbol()),
                   mean_frets(move.frets), mean_frets(move.plan_frets),
                   move.held_before.shape.text(), move.held.shape.text(), move.planned.shape.text(),
                   move.nearer ? nearer_words(*move.nearer) : "-"});
    }
    return table.markup();
}

}  // namespace

PagePart hand_part(const practice::Report& report, Hand hand) {
    if (!report.hand || report.hand->moves.empty()) return {};
    const auto& against = *report.hand;
    PagePart part{"hand", "Your hand beside the plan", hand_sentence(against), "", "", ""};
    part.picture = paragraph_markup("", part.says);
    std::string pairs;
    for (const auto& move : moves_to_show(against)) {
        part.says += fmt::format(" {}: held {}, {} {}.", move_name(move), move.held.shape.text(),
                                 better_name(move), better_grip(move).shape.text());
        pairs += pair_of(move, report.heard.fretboard.strings(), hand);
    }
    if (!pairs.empty()) part.picture += "<div class=\"pairs\">\n" + pairs + "</div>\n";
    part.table = moves_table(against);
    return part;
}

}  // namespace compline::report
