#include "command.hpp"
#include "demo_chart.hpp"

#include <compline/band/place.hpp>
#include <compline/files/file_io.hpp>
#include <compline/guitar/voicing_plan.hpp>
#include <compline/practice/scoring.hpp>
#include <compline/report/report.hpp>
#include <compline/report/take_page.hpp>
#include <compline/report/voicing_page.hpp>
#include <compline/simulate/played.hpp>
#include <compline/sound/render.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <memory>
#include <set>
#include <stdexcept>
#include <string>
#include <string_view>
#include <system_error>
#include <tuple>
#include <utility>

namespace compline::app {

namespace {

constexpr time::SampleRate rate{48000};
constexpr int count_in_bars = 2;

struct DemoOptions {
    std::string folder = "compline-demo";
    int seed = 7;
    bool replace = false;
};

using BeatPlayed = std::tuple<int, int, time::BeatOfBar>;  // time through, bar, beat

/// The five mistakes that are made on purpose, one of each kind. A finger a fret off first: that
/// is plain in the fewest places.
constexpr std::array<simulate::Deed, 5> mistakes = {
    simulate::Deed::stuck_finger, simulate::Deed::wrong_fret, simulate::Deed::missed,
    simulate::Deed::missing_seventh, simulate::Deed::late};

/// What the judge should say of a planted mistake.
bool is_found(simulate::Deed planted, const assess::Change& change) {
    using simulate::Deed;
    switch (planted) {
        case Deed::late:
            return change.verdict == assess::Verdict::late;
        case Deed::missed:
            return change.verdict == assess::Verdict::missed;
        case Deed::missing_seventh:
            return change.tones == assess::Tones::incomplete;
        case Deed::wrong_fret:
            return change.wrong.size() == 1 && !change.wrong.front().stuck_finger;
        case Deed::stuck_finger:
            return change.wrong.size() == 1 && change.wrong.front().stuck_finger;
        default:
            return false;
    }
}

/// The changes on which a mistake was made on purpose.
std::vector<simulate::PlayedChange> planted_in(const simulate::PlayedTune& played) {
    std::vector<simulate::PlayedChange> planted;
    for (const auto& change : played.changes) {
        if (change.deed && simulate::is_mistake(*change.deed)) planted.push_back(change);
    }
    return planted;
}

/// Compares what was planted with what was reported; prints what does not agree.
Status compare(const simulate::PlayedTune& played, const practice::Report& report) {
    const auto& assessment = report.assessment;
    std::set<BeatPlayed> planted;
    std::size_t found = 0;
    for (const auto& mistake : planted_in(played)) {
        planted.insert({mistake.time_through, mistake.bar, mistake.beat});
        const auto change = std::find_if(assessment.changes.begin(), assessment.changes.end(),
                                         [&](const assess::Change& c) {
                                             return c.time_through == mistake.time_through &&
                                                    c.bar == mistake.bar && c.beat == mistake.beat;
                                         });
        const bool seen = change != assessment.changes.end() && is_found(*mistake.deed, *change);
        found += seen ? 1 : 0;
        if (!seen) fmt::print("NOT FOUND: {}\n", mistake.words);
    }
    std::size_t invented = 0;
    for (const auto& change : assessment.changes) {
        if (change.cost() <= 0 || planted.contains({change.time_through, change.bar, change.beat}))
            continue;
        ++invented;
        for (const auto& line : report::problems_of(change, true, report.map)) {
            fmt::print("NOT PLANTED: {}\n", line);
        }
    }
    fmt::print("\nFound {} of {} planted mistakes, reported {} that were not there.\n", found,
               planted.size(), invented);
    const bool all = found == planted.size() && invented == 0;
    return all && found == mistakes.size() ? Status::done : Status::could_not;
}

void print_plan(const simulate::PlayedTune& played) {
    fmt::print(
        "A simulated guitarist comps by a plan of voicings and makes five mistakes on purpose:\n");
    for (const auto& mistake : planted_in(played)) {
        fmt::print(
            "  {} time, bar {}{}: {}\n", mistake.time_through == 1 ? "1st" : "2nd", mistake.bar,
            mistake.beat == time::BeatOfBar(1) ? ""
                                               : fmt::format(" beat {:g}", mistake.beat.number()),
            mistake.words);
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
void write_wav(const std::filesystem::path& path, const roadmap::RoadMap& map,
               const std::vector<listen::Note>& notes, files::Existing existing) {
    band::Stage left;
    left.width = 0;
    left.centre = -1;
    const band::Players players;
    auto cues = band::place(band::arrange(map, players), map, rate,
                            time::nearest_frame(map.lead(), rate), left, time::Frames(0));
    const auto guitar = guitar_cues(notes, map.lead());
    cues.insert(cues.end(), guitar.begin(), guitar.end());
    std::stable_sort(cues.begin(), cues.end(),
                     [](const sound::Cue& a, const sound::Cue& b) { return a.at < b.at; });
    const sound::Bank bank(rate, sound::Bank::Guitar::with);
    const sound::Excerpt excerpt{time::Frames(0), sound::end_of(cues, bank, time::Frames(0))};
    sound::WavFormat format;
    format.existing = existing;
    (void)sound::render_wav(cues, bank, excerpt, path, format);
}

practice::Take record(const roadmap::RoadMap& map, const simulate::PlayedTune& played) {
    practice::Take take;
    take.messages = simulate::perform(played.script, map, guitar::Fretboard::standard());
    auto info = practice::info_of(map, demo_chart);
    info.program = program;
    info.ended = true;
    take.info = info;
    take.end = map.time_of(map.end());
    return take;
}

/// A comper in time who plays the Charleston by the plan, pushes now and then, and errs five times.
simulate::PlayedTune practise(const roadmap::RoadMap& map, const guitar::VoicingPlan& voicings,
                              std::uint64_t seed) {
    simulate::Habits habits;
    habits.voicings = &voicings;
    habits.scatter = time::Seconds(0.009);
    habits.overlap = time::Seconds(0);
    habits.once.assign(mistakes.begin(), mistakes.end());
    habits.rate(simulate::Deed::push) = 0.12;
    return simulate::play(map, habits, seed);
}

roadmap::RoadMap road_map_of(const chart::Form& form) {
    constexpr int times_through = 2;
    roadmap::Asked asked;
    asked.way = chart::Way::through(form, form.whole(), times_through);
    asked.count_in_bars = count_in_bars;
    return {form, asked};
}

void make_folder(const std::filesystem::path& folder) {
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (!error) return;
    throw std::runtime_error(
        fmt::format("{}: the folder cannot be made: {}", files::name_of(folder), error.message()));
}

constexpr const char* take_name = "take.mid";
constexpr const char* report_name = "report.json";
constexpr const char* page_name = "voicings.html";
constexpr const char* report_page_name = "report.html";
constexpr const char* wav_name = "demo.wav";

/// What the demo writes goes where nothing is, or the same already; over other files only when
/// asked, and never through a link, behind which may be anything.
class DemoFolder {
  public:
    DemoFolder(std::filesystem::path folder, bool replace)
        : folder_(std::move(folder)),
          existing_(replace ? files::Existing::replace : files::Existing::same) {
        for (const auto* name :
             {demo_chart_name, take_name, report_name, page_name, report_page_name, wav_name}) {
            refuse_no_file(name);
        }
    }

    [[nodiscard]] std::filesystem::path file(const std::string& name) const {
        return folder_ / name;
    }
    [[nodiscard]] std::string words() const { return folder_.string(); }
    [[nodiscard]] files::Existing existing() const { return existing_; }

    /// Throws BadInput when there are other bytes than these under that name.
    template <typename Bytes>
    void refuse_other(const std::string& name, const Bytes& bytes) const {
        std::error_code error;
        const auto size = std::filesystem::file_size(file(name), error);
        if (error || existing_ == files::Existing::replace) return;
        const std::string wanted(bytes.begin(), bytes.end());
        if (size != wanted.size() || files::load_text(file(name)) != wanted) refuse(name);
    }

    /// Throws BadInput when there is another file.
    [[noreturn]] void refuse(const std::string& name) const {
        throw BadInput(fmt::format("{} is there already: give another --folder, or --replace",
                                   files::name_of(file(name))));
    }

  private:
    void refuse_no_file(const std::string& name) const {
        std::error_code none;
        const auto found = std::filesystem::symlink_status(file(name), none);
        if (!std::filesystem::exists(found) || std::filesystem::is_regular_file(found)) return;
        throw BadInput(fmt::format("{} is {}: give another --folder", files::name_of(file(name)),
                                   std::filesystem::is_symlink(found)     ? "a link, not a file"
                                   : std::filesystem::is_directory(found) ? "a folder, not a file"
                                                                          : "no ordinary file"));
    }

    std::filesystem::path folder_;
    files::Existing existing_;
};

Status demo(const DemoOptions& options) {
    const auto map = road_map_of(chart::unroll(chart::read_chart(demo_chart, demo_chart_name)));
    const auto& form = map.form();
    const auto seed = static_cast<std::uint64_t>(options.seed);
    const DemoFolder place(options.folder, options.replace);
    const std::string_view chart_text = demo_chart;
    place.refuse_other(demo_chart_name, chart_text);
    make_folder(options.folder);
    report::Voicings voicings;
    voicings.form = form;
    voicings.wishes.strings = {6, 5, 4, 3};  // full and low, beside a bass that walks
    voicings.plans = guitar::plan_voicings(form, form.whole(), form.chart.tempo,
                                           guitar::Fretboard::standard(), voicings.wishes);
    const auto played = practise(map, voicings.plans.front(), seed);

    const auto file = practice::to_file(record(map, played), map);
    // The report is made from the file's own bytes, as `score` would.
    const auto bytes = midi::write_smf(file);
    const auto take = practice::read_take(midi::read_smf(bytes).file);
    auto report = practice::hear_and_judge(form, take, {});
    report.chart_file = place.file(demo_chart_name).string();
    report.program = version;
    report.take = take_name;
    const auto json = report::to_json(report);
    const auto page = report::voicings_html(voicings, {});
    place.refuse_other(take_name, bytes);
    place.refuse_other(report_name, json);
    place.refuse_other(page_name, page);
    const auto report_page = report::take_html(report);
    place.refuse_other(report_page_name, report_page);
    const auto heard = listen::hear(take.messages, {}, take.end);
    try {
        write_wav(place.file(wav_name), map, heard.notes, place.existing());
    } catch (const files::AlreadyThere&) {
        place.refuse(wav_name);
    }
    files::save_text(place.file(demo_chart_name), chart_text, place.existing());
    files::save_bytes(place.file(take_name), bytes, place.existing());
    files::save_text(place.file(report_name), json, place.existing());
    files::save_text(place.file(page_name), page, place.existing());
    files::save_text(place.file(report_page_name), report_page, place.existing());

    print_plan(played);
    fmt::print("\n{}", report::to_text(report));
    const Status status = compare(played, report);
    fmt::print(
        "In {}: demo.wav (band left, guitarist right), take.mid, report.json, the chart and\n"
        "voicings.html, the guitarist's plan as a page for the music stand.\n"
        "Score it yourself: compline score {} --chart {}\n"
        "The report as a page to look at, on a screen or printed, is in\n{}\n",
        files::name_of(place.words()), files::name_of(place.file(take_name)),
        files::name_of(place.file(demo_chart_name)), files::name_of(place.file(report_page_name)));
    return status;
}

}  // namespace

ProgramCommand demo_command() {
    const auto options = std::make_shared<DemoOptions>();
    return {"demo",
            "A simulated guitarist practises a blues, and is judged",
            {{"--folder", "FOLDER", "Where sound, take and report go.", "compline-demo",
              file_name(&options->folder)},
             {"--seed", "N", "Another number, another performance; 0 to 1000000.", "7",
              whole_number(0, 1000000, &options->seed)},
             {"--replace", "", "Overwrite an older demo.", "what is there already is kept",
              flag(&options->replace)}},
            [options] { return demo(*options); }};
}

}  // namespace compline::app
