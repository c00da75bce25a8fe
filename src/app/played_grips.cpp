#include "played_grips.hpp"

#include "command.hpp"
#include "odd_takes.hpp"
#include "take_input.hpp"

#include <compline/files/file_io.hpp>
#include <compline/practice/grips_used.hpp>
#include <compline/practice/scoring.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <filesystem>

namespace compline::app {

namespace {

using practice::GripsUsed;
using practice::UsedGrip;

std::string times_words(int times) {
    return times == 1 ? "once" : times == 2 ? "twice" : fmt::format("{} times", times);
}

/// "bar 3, G7: 3x34xx, twice, which lacks the 3"
std::string left_out_words(const UsedGrip& used) {
    return fmt::format("left out: bar {}, {}: {}, {}, {}", used.bar, used.chord.symbol(),
                       used.shape.text(), times_words(used.times),
                       used.why_not.empty() ? "another grip is used more" : used.why_not);
}

void say_what_is_used(const std::string& take, const GripsUsed& used) {
    const auto all = used.kept.size() + used.open.size();
    say(fmt::format("{}: {} of {} chords are held as they were played", take, used.kept.size(),
                    all));
    for (const auto& left : used.left_out) say(left_out_words(left));
    if (used.open.empty()) return;
    std::vector<std::string> open;
    for (const auto& place : used.open) {
        open.push_back(fmt::format("bar {} ({})", place.bar, place.chord.symbol()));
    }
    say(fmt::format("planned, since no grip of yours is there: {}", text::listed(open)));
}

void refuse_unknown_frets(const practice::Report& report) {
    if (report.heard.heard_by == listen::HeardBy::sound) {
        throw BadInput("it was heard by sound, which knows no frets: give a take of a MIDI pickup");
    }
    if (report.strings) return;
    throw BadInput(
        "all its strings are on one channel, so that no frets are known: give a take with a "
        "channel for each string");
}

/// Of a take that carries its chart. Another mode is another chart: grips will tell.
void refuse_other_key(const practice::Take& take, const chart::Form& form) {
    if (!take.info || take.info->chart_text.empty()) return;
    const auto played = practice::form_of(*take.info, "its own chart").chart.key;
    const auto& key = form.chart.key;
    if (played.minor != key.minor || played == key) return;
    throw BadInput(fmt::format("it was played in {}: plan in that key too: --key {}", played.name(),
                               played.name(harmony::Accidentals::letters)));
}

}  // namespace

practice::Report judged_for_grips(const std::string& take_path, const std::string& chart,
                                  const chart::Form& form, const GuitarOptions& guitar) {
    const auto take = load_take(take_path, practice::TakeTexts::read);
    return text::read_at(files::name_of(take_path), [&] {
        practice::ScoreRequest request;
        if (guitar.typed() || (!take.info && guitar.asked())) {
            request.fretboard = read_fretboard(guitar);
        }
        refuse_other_key(take, form);
        OddTake{take, take_path, chart}.say_other_chart(form);
        auto report = practice::hear_and_judge(form, take, request);
        refuse_unknown_frets(report);
        report.take = std::filesystem::path(take_path).filename().string();
        return report;
    });
}

void pin_played_grips(const practice::Report& report, chart::Passage passage,
                      harmony::Strictness strictness, chart::Form& form) {
    const auto used = practice::grips_used(report, passage, strictness);
    say_what_is_used(files::name_of(report.take), used);
    for (auto& pin : used.pins()) form.chart.voicings.push_back(std::move(pin));
}

}  // namespace compline::app
