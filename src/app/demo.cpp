#include "command.hpp"
#include "demo_chart.hpp"
#include "scoring.hpp"

#include <compline/band/place.hpp>
#include <compline/chart/chart_hash.hpp>
#include <compline/guitar/voicing_plan.hpp>
#include <compline/midi/file_io.hpp>
#include <compline/report/voicing_page.hpp>
#include <compline/simulate/rehearsal.hpp>
#include <compline/sound/render.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <set>
#include <stdexcept>
#include <system_error>
#include <tuple>

namespace compline::app {

namespace {

constexpr time::SampleRate rate{48000};
constexpr int count_in_bars = 2;

struct Options {
    std::string folder = "compline-demo";
    std::string seed = "7";
};

using Place = std::tuple<int, int, double>;  // time through, bar, beat

/// What the judge should say of a planted mistake.
bool is_found(const simulate::PlantedMistake& planted, const assess::Change& change) {
    using simulate::Mistake;
    switch (planted.kind) {
        case Mistake::late:
            return change.verdict == assess::Verdict::late;
        case Mistake::missed:
            return change.verdict == assess::Verdict::missed;
        case Mistake::missing_tone:
            return change.tones == assess::Tones::incomplete;
        case Mistake::wrong_tone:
            return change.wrong.size() == 1 && !change.wrong.front().stuck_finger;
        case Mistake::stuck_finger:
            return change.wrong.size() == 1 && change.wrong.front().stuck_finger;
    }
    return false;
}

/// Compares what was planted with what was reported; prints what does not agree.
Status compare(const simulate::Rehearsal& rehearsal, const assess::Assessment& assessment) {
    std::set<Place> planted;
    std::size_t found = 0;
    for (const auto& mistake : rehearsal.mistakes) {
        planted.insert({mistake.pass, mistake.bar, mistake.beat});
        const auto change = std::find_if(
            assessment.changes.begin(), assessment.changes.end(), [&](const assess::Change& c) {
                return c.pass == mistake.pass && c.bar == mistake.bar && c.beat == mistake.beat;
            });
        const bool seen = change != assessment.changes.end() && is_found(mistake, *change);
        found += seen ? 1 : 0;
        if (!seen) fmt::print("NOT FOUND: {}\n", mistake.words);
    }
    std::size_t invented = 0;
    for (const auto& change : assessment.changes) {
        if (change.cost() <= 0 || planted.contains({change.pass, change.bar, change.beat}))
            continue;
        ++invented;
        for (const auto& line : report::problems_of(change, true)) {
            fmt::print("NOT PLANTED: {}\n", line);
        }
    }
    fmt::print("\nFound {} of {} planted mistakes, reported {} that were not there.\n", found,
               rehearsal.mistakes.size(), invented);
    const bool all = found == rehearsal.mistakes.size() && invented == 0;
    return all && found == 5 ? Status::done : Status::could_not;
}

void print_plan(const simulate::Rehearsal& rehearsal) {
    fmt::print(
        "A simulated guitarist comps by a plan of voicings and makes five mistakes on purpose:\n");
    for (const auto& mistake : rehearsal.mistakes) {
        fmt::print("  {} time, bar {}{}: {}\n", mistake.pass == 1 ? "1st" : "2nd", mistake.bar,
                   mistake.beat == 1 ? "" : fmt::format(" beat {:g}", mistake.beat), mistake.words);
    }
}

std::vector<sound::Cue> guitar_cues(const std::vector<listen::Note>& notes, time::Seconds lead) {
    constexpr float right = 1.0F;
    std::vector<sound::Cue> cues;
    for (const auto& note : notes) {
        sound::Cue cue;
        cue.at = time::nearest_frame(note.on + lead, rate);
        cue.stop = time::nearest_frame(note.off + lead, rate);
        cue.sound = sound::guitar(note.note);
        cue.gain = band::gain_of(note.velocity);
        cue.pan = right;
        cues.push_back(cue);
    }
    return cues;
}

/// Band on the left, guitarist on the right: one can be turned down.
void write_wav(const std::filesystem::path& path, const chart::Form& form, int times_through,
               const time::Groove& groove, const std::vector<listen::Note>& notes,
               time::Seconds lead) {
    const auto setup = band::Setup::of(form.whole(), times_through, count_in_bars);
    band::Stage left;
    left.width = 0;
    left.centre = -1;
    auto cues = band::place(band::arrange(form, setup, groove.timeline.tempo()), groove, rate,
                            time::nearest_frame(lead, rate), left, time::Frames(0));
    const auto guitar = guitar_cues(notes, lead);
    cues.insert(cues.end(), guitar.begin(), guitar.end());
    std::stable_sort(cues.begin(), cues.end(),
                     [](const sound::Cue& a, const sound::Cue& b) { return a.at < b.at; });
    const sound::Bank bank(rate, sound::Bank::Guitar::with);
    const sound::Stretch stretch{time::Frames(0), sound::end_of(cues, bank, time::Frames(0))};
    sound::WavFormat format;
    format.existing = midi::Existing::replace;
    (void)sound::render_wav(cues, bank, stretch, path, format);
}

practice::Take record(const chart::Form& form, const simulate::Rehearsal& rehearsal,
                      const time::Groove& groove, int times_through) {
    practice::Take take;
    take.messages = simulate::perform(rehearsal.script, groove, guitar::Fretboard::standard());
    practice::TakeInfo info;
    info.chart_hash = chart::chart_hash(form.chart);
    info.tempo_bpm = groove.timeline.tempo().count();
    info.route = chart::Route::of(form.whole(), times_through);
    take.info = info;
    take.end = groove.time_of(form.length() * times_through);
    return take;
}

void make_folder(const std::filesystem::path& folder) {
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (!error) return;
    throw std::runtime_error(
        fmt::format("{}: the folder cannot be made: {}", folder.string(), error.message()));
}

Status demo(const Options& options) {
    constexpr int times_through = 2;
    const auto form = chart::unroll(chart::read_chart(demo_chart, demo_chart_name));
    const auto groove = groove_of(form, std::nullopt);
    simulate::RehearsalRequest request;
    request.times_through = times_through;
    request.seed = static_cast<std::uint64_t>(read_count("--seed", options.seed, 0, 1000000));
    const std::filesystem::path folder(options.folder);
    make_folder(folder);
    report::Voicings voicings{form, {}, {}};
    voicings.wishes.strings = {6, 5, 4, 3};  // full and low, beside a bass that walks
    voicings.plans = guitar::plan_voicings(form, form.whole(), form.chart.tempo,
                                           guitar::Fretboard::standard(), voicings.wishes);
    request.voicings = &voicings.plans.front();
    const auto rehearsal = simulate::rehearse(form, groove, request);
    print_plan(rehearsal);

    const auto lead = groove.timeline.time_of(form.chart.meter.bar() * count_in_bars);
    const auto file = practice::to_file(record(form, rehearsal, groove, times_through),
                                        groove.timeline.tempo(), form.chart.meter, lead);
    // The report is made from the file's own bytes, as `score` would.
    const auto bytes = midi::write_smf(file);
    const auto take = practice::read_take(midi::read_smf(bytes).file);
    auto report = score(form, take, {});
    report.chart_file = (folder / demo_chart_name).string();
    fmt::print("\n{}", report::to_text(report));
    const Status status = compare(rehearsal, report.assessment);

    midi::save_text(folder / demo_chart_name, demo_chart, midi::Existing::replace);
    midi::save_bytes(folder / "take.mid", bytes, midi::Existing::replace);
    midi::save_text(folder / "report.json", report::to_json(report), midi::Existing::replace);
    midi::save_text(folder / "voicings.html", report::voicings_html(voicings, {}),
                    midi::Existing::replace);
    const auto heard = listen::hear(take.messages, {}, take.end);
    write_wav(folder / "demo.wav", form, times_through, groove, heard.notes, lead);
    fmt::print(
        "In {}: demo.wav (band left, guitarist right), take.mid, report.json, the chart and\n"
        "voicings.html, the guitarist's plan as a page for the music stand.\n"
        "Score it yourself: compline score {} --chart {}\n",
        printable(folder.string()), printable((folder / "take.mid").string()),
        printable((folder / demo_chart_name).string()));
    return status;
}

}  // namespace

Command demo_command() {
    const auto options = std::make_shared<Options>();
    return {"demo",
            "A simulated guitarist practises a blues, and is judged",
            {{"--folder", "FOLDER",
              "Where sound, take and report go; an older demo there is replaced.\n"
              "Default: compline-demo",
              &options->folder},
             {"--seed", "N", "Another number, another performance; 0 to 1000000. Default: 7",
              &options->seed}},
            [options] { return demo(*options); }};
}

}  // namespace compline::app
