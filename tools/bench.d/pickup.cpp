#include "pickup.hpp"

#include "benches.hpp"
#include "measure.d/pickup_study.hpp"

#include <fmt/format.h>

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::bench {

namespace {

using listen::Cleaning;
using measure::PickupFigures;
using measure::PickupStudyRequest;
using simulate::Fault;
using simulate::Wear;

struct Named {
    std::string name;
    PickupFigures figures;
};

PickupStudyRequest request_of(Wear wear, int takes, std::uint64_t seed) {
    PickupStudyRequest request;
    request.takes = takes;
    request.seed = seed;
    request.roughness = simulate::roughness_of(wear);
    return request;
}

std::vector<Named> all_rows(const std::vector<chart::Form>& forms, int takes, std::uint64_t seed,
                            int slips) {
    std::vector<Named> rows;
    for (int n = 0; n < simulate::wear_count; ++n) {
        const auto wear = static_cast<Wear>(n);
        auto request = request_of(wear, takes, seed);
        if (wear == Wear::moderate) request.most_slips = static_cast<std::size_t>(slips);
        rows.push_back({std::string(name_of(wear)), study_pickup(forms, request)});
    }
    auto moderate = request_of(Wear::moderate, takes, seed);
    moderate.sliding_takes = 0;
    rows.push_back({"moderate, no slides", study_pickup(forms, moderate)});
    moderate.sliding_takes = 1;
    rows.push_back({"moderate, slides in all", study_pickup(forms, moderate)});
    moderate.roughness.slides_as = simulate::SlidesAs::notes;
    rows.push_back({"... sent as notes", study_pickup(forms, moderate)});
    moderate = request_of(Wear::moderate, takes, seed);
    moderate.deeds = true;
    rows.push_back({"moderate, with mistakes", study_pickup(forms, moderate)});
    moderate.deeds = false;
    moderate.finds_strings = true;
    rows.push_back({"moderate, strings not given", study_pickup(forms, moderate)});
    return rows;
}

void print_strums_and_changes(const std::vector<Named>& rows) {
    fmt::print(
        "| pickup                     | strum F | tones: precision |  recall | changes | elsewhere "
        "| "
        "bias ms |  SD ms | p95 ms | other verdict | false wrong |\n"
        "|{:-<28}|{:->8}:|{:->17}:|{:->8}:|{:->8}:|{:->10}:|{:->8}:|{:->7}:|{:->7}:|{:->14}:|{:->"
        "12}:|\n",
        "", "", "", "", "", "", "", "", "", "", "");
    for (const auto& [name, it] : rows) {
        fmt::print(
            "| {:<26} | {:>7.4f} | {:>16.4f} | {:>7.4f} | {:>7} | {:>9} | {:>+7.2f} | {:>6.2f} | "
            "{:>6.2f} | {:>13} | {:>9.2f} % |\n",
            name, it.strums.f_measure(), it.tones().precision(), it.tones().recall(), it.changes,
            it.elsewhere, it.bias_ms(), it.sd_ms(), it.p95_ms(), it.verdicts_changed,
            100 * it.false_wrong_rate());
    }
}

void print_strings(const std::vector<Named>& rows) {
    fmt::print("\nTones by string: precision / recall\n\n| pickup                     |");
    for (int string = 1; string <= 6; ++string) fmt::print("        {}        |", string);
    fmt::print("\n|{:-<28}|", "");
    for (int string = 1; string <= 6; ++string) fmt::print("{:->16}:|", "");
    fmt::print("\n");
    for (const auto& [name, it] : rows) {
        fmt::print("| {:<26} |", name);
        for (const auto& string : it.strings) {
            fmt::print(" {:.4f} / {:.4f} |", string.precision(), string.recall());
        }
        fmt::print("\n");
    }
}

void print_faults(const std::vector<Named>& rows) {
    fmt::print("\nFaults done / mended\n");
    for (const auto& [name, it] : rows) {
        fmt::print("  {}:", name);
        for (int n = 0; n < simulate::fault_count; ++n) {
            const int done = it.faults.at(static_cast<std::size_t>(n));
            if (done > 0) fmt::print(" {} {};", name_of(static_cast<Fault>(n)), done);
        }
        const auto& mended = it.cleaned;
        fmt::print(
            " mended: ghosts {}, double triggers {}, flickers {}, lift-offs {}, frets passed {}, "
            "unended {}, impossible {}\n",
            mended.ghosts, mended.double_triggers, mended.flickers, mended.lift_offs,
            mended.frets_passed, mended.unended, mended.impossible);
    }
}

/// What makes rules drop real notes: loud and soft strings in one strum, dead strums, fills, and
/// open strings played softly as a finger leaves them.
PickupStudyRequest lively(int takes, std::uint64_t seed) {
    auto request = request_of(Wear::moderate, takes, seed);
    request.roughness.velocity_sd = 20;
    request.deeds = true;
    request.pull_offs = 0.1;
    return request;
}

/// A cleaning rule, its threshold, and what it is for.
struct Rule {
    std::string_view name;
    Fault fault;
    std::vector<double> thresholds;
    std::function<void(Cleaning&, double)> set;
    std::function<void(Cleaning&)> turn_off;
};

std::vector<Rule> rules() {
    const auto ms = [](double x) { return time::from_milliseconds(x); };
    const time::Seconds off{0};
    return {
        {"ghost, ms",
         Fault::ghost,
         {20, 30, 40, 45, 50, 60, 70, 80},
         [=](Cleaning& c, double x) { c.ghost = ms(x); },
         [=](Cleaning& c) { c.ghost = off; }},
        {"double trigger, ms",
         Fault::double_trigger,
         {20, 30, 40, 50, 60, 80, 100, 120},
         [=](Cleaning& c, double x) { c.double_trigger = ms(x); },
         [=](Cleaning& c) { c.double_trigger = off; }},
        {"flicker, ms",
         Fault::flicker,
         {20, 30, 40, 50, 60, 80, 100},
         [=](Cleaning& c, double x) { c.flicker = ms(x); },
         [=](Cleaning& c) { c.flicker = off; }},
        {"lift-off loudness",
         Fault::lift_off,
         {0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9},
         [=](Cleaning& c, double x) { c.lift_off_loudness = x; },
         [=](Cleaning& c) { c.lift_off = off; }},
    };
}

void print_rules(const std::vector<chart::Form>& forms, int takes, std::uint64_t seed) {
    fmt::print(
        "\nCleaning rules at moderate rates, played with loud and soft strings in one strum (SD "
        "20), "
        "dead strums, fills and pull-offs: true notes that only the rule drops, and what it is for "
        "that is kept\n\n"
        "| rule               | threshold | played | false drops | faults | false keeps |\n"
        "|{:-<20}|{:->10}:|{:->7}:|{:->12}:|{:->7}:|{:->12}:|\n",
        "", "", "", "", "", "");
    for (const auto& rule : rules()) {
        for (const double threshold : rule.thresholds) {
            auto request = lively(takes, seed);
            Cleaning off;
            rule.turn_off(off);
            rule.set(request.cleaning, threshold);
            const auto it = study_rule(forms, request, rule.fault, off);
            fmt::print("| {:<18} | {:>9g} | {:>6} | {:>11} | {:>6} | {:>11} |\n", rule.name,
                       threshold, it.played, it.false_drops, it.faults, it.false_keeps);
        }
    }
}

std::string spoken(const midi::TimedMessage& timed) {
    const auto& message = timed.message;
    const double at = timed.at.milliseconds();
    if (message.starts_note()) {
        return fmt::format("{:.1f} on {} v{}", at, message.data1, message.data2);
    }
    if (message.ends_note()) return fmt::format("{:.1f} off {}", at, message.data1);
    if (message.kind() == midi::Message::Kind::pitch_bend) {
        return fmt::format("{:.1f} bend {}", at, message.bend());
    }
    return fmt::format("{:.1f} {:02X} {} {}", at, message.status, message.data1, message.data2);
}

void print_slips(const PickupFigures& figures) {
    for (const auto& slip : figures.slips) {
        fmt::print("\n{} {} on string {} at {:.1f} ms{}, {}; {}, {:g} bpm, seed {}\n",
                   slip.extra ? "invented" : "missed", slip.note.note.number(),
                   slip.note.string.value_or(0), slip.note.on.milliseconds(),
                   slip.note.slid ? " (slid)" : "",
                   slip.fault ? name_of(*slip.fault) : "no fault near", slip.chart, slip.tempo,
                   slip.seed);
        for (const auto& timed : slip.messages) fmt::print("    {}\n", spoken(timed));
    }
}

}  // namespace

void print_pickup(int takes, std::uint64_t seed, int slips) {
    const auto forms = demo_forms();
    fmt::print(
        "{} choruses of the demo charts at 80 to 240 bpm, seeds from {} on, through a rough "
        "pickup\n\n",
        takes, seed);
    const auto rows = all_rows(forms, takes, seed, slips);
    print_strums_and_changes(rows);
    print_strings(rows);
    print_faults(rows);
    print_rules(forms, takes, seed);
    for (const auto& row : rows) print_slips(row.figures);
}

}  // namespace compline::bench
