#include "odd_takes.hpp"

#include "command.hpp"
#include "take_input.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/chart/difference.hpp>
#include <compline/files/file_io.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::app {

namespace {

std::string in_words(const std::string& chords) { return chords.empty() ? "no bar" : chords; }

}  // namespace

void OddTake::say_other_bars(const chart::Form& form, const practice::ScoreRequest& request) const {
    if (!take.info || !request.passage) return;
    const auto played = practice::bars_said(*take.info, form);
    const auto asked = *request.passage;
    if (played.from <= asked.from && asked.to <= played.to) return;
    say(
        fmt::format("the take says that bars {}-{} were played; it is scored as if {}-{} had been, "
                    "from its start on",
                    played.from, played.to, asked.from, asked.to));
}

void OddTake::say_no_delay(const practice::ScoreRequest& request) const {
    if (take.info || request.delays) return;
    if (request.pickup.find("cycles") != std::string::npos) return;
    say(fmt::format(
        "{}: no delay of a MIDI pickup is taken off; if it came through one, ask for it: "
        "--midi-pickup cycles=1.5",
        files::name_of(path)));
}

void OddTake::say_no_tones(const practice::ScoreRequest& request) const {
    if (!take.info || take.info->heard != practice::HeardBy::sound) return;
    std::vector<std::string> asked;
    if (request.strictness) asked.emplace_back("--strictness");
    if (!request.pickup.empty()) asked.emplace_back("--midi-pickup");
    if (request.fretboard) asked.emplace_back("what is said of the guitar");
    if (asked.empty()) return;
    say(fmt::format("{}: heard by sound, time alone is judged; without effect: {}",
                    files::name_of(path), text::listed(asked)));
}

void OddTake::say_other_chart(const chart::Form& form) const {
    if (!take.info || take.info->chart_hash == chart::chart_hash(form.chart)) return;
    const auto name = files::name_of(path);
    if (take.info->version == 1) {
        say(fmt::format("{}: the changes in {} are not those the take was played to", name,
                        spoken_name(chart)));
        return;
    }
    constexpr std::size_t most_named = 3;
    const auto own = form_of(take, path, "");
    const auto bars = chart::differences(own, form);
    for (std::size_t i = 0; i < std::min(bars.size(), most_named); ++i) {
        const bool chords = bars[i].one != bars[i].other;
        say(fmt::format("{}: bar {} was played to {}; {} has {}", name, bars[i].bar,
                        in_words(bars[i].one), spoken_name(chart),
                        chords ? in_words(bars[i].other) : "other beats, kicks or another feel"));
    }
    if (bars.size() > most_named) {
        say(fmt::format("{}: {} bars more differ", name, bars.size() - most_named));
    }
}

}  // namespace compline::app
