#include "voicing_options.hpp"

#include <compline/guitar/planning.hpp>
#include <compline/midi/file_io.hpp>
#include <compline/report/voicing_page.hpp>
#include <compline/report/voicings.hpp>

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <new>
#include <stdexcept>
#include <system_error>

namespace compline::app {

namespace {

constexpr int most_alternatives = 20;

struct Options {
    std::string chart;
    std::string bars;
    std::string tempo;
    std::string alternatives;
    std::string html;
    std::string svg;
    std::string paper;
    bool json = false;
    bool guide_tones = false;
    bool left_handed = false;
    bool replace = false;
    VoicingOptions voicings;
};

bool same_file(const std::string& a, const std::string& b) {
    std::error_code unknown;  // one of them is not there
    return a == b || std::filesystem::equivalent(a, b, unknown);
}

void refuse_taken(const Options& options, const char* option, const std::string& path) {
    if (path.empty()) return;
    if (same_file(path, options.chart)) {
        throw BadInput(fmt::format("{} {}: that is the chart: give another name", option, path));
    }
    std::error_code unknown;  // then writing says why
    if (!options.replace && std::filesystem::exists(path, unknown)) {
        throw BadInput(fmt::format("{} is there already: give another name, or --replace", path));
    }
}

void refuse_files(const Options& options) {
    refuse_taken(options, "--html", options.html);
    refuse_taken(options, "--svg", options.svg);
    if (!options.html.empty() && same_file(options.html, options.svg)) {
        throw BadInput(fmt::format("--html and --svg both name {}", options.html));
    }
    if (options.guide_tones && !(options.html.empty() && options.svg.empty())) {
        throw BadInput(
            "--guide-tones is told in words and JSON; a page of the line is made with --style "
            "guide-tones");
    }
}

report::PageWishes read_page(const Options& options) {
    report::PageWishes wishes;
    if (options.left_handed) wishes.hand = report::Hand::left;
    if (options.paper.empty()) return wishes;
    if (options.html.empty() && options.svg.empty()) {
        throw BadInput("--paper is for a page: give --html or --svg too");
    }
    if (options.paper == "letter") {
        wishes.paper = report::Paper::letter;
    } else if (options.paper != "a4") {
        throw BadInput(fmt::format("--paper {}: expected a4 or letter", options.paper));
    }
    return wishes;
}

/// How far planning is, for a player who waits at a terminal for more than a second.
class WaitingLine {
  public:
    WaitingLine() = default;
    ~WaitingLine() {
        if (shown_ >= 0) say_as_is("\r                \r");
    }
    WaitingLine(const WaitingLine&) = delete;
    WaitingLine& operator=(const WaitingLine&) = delete;

    void show(std::int64_t done, std::int64_t all) {
        if (!is_terminal_ || Clock::now() - begun_ < std::chrono::seconds(1)) return;
        const auto percent = 100 * done / std::max<std::int64_t>(all, 1);
        if (percent == shown_) return;
        say_as_is(fmt::format("\rplanning: {:3} %", percent));
        shown_ = percent;
    }

  private:
    using Clock = std::chrono::steady_clock;

    bool is_terminal_ = ::isatty(STDERR_FILENO) != 0;
    Clock::time_point begun_ = Clock::now();
    std::int64_t shown_ = -1;
};

report::Voicings make_plans(const Options& options) {
    report::Voicings voicings;
    voicings.form = load_form(options.chart);
    const auto& form = voicings.form;
    const auto passage = read_bars(form, options.bars).value_or(form.whole());
    const auto tempo = read_tempo(options.tempo);
    const auto asked = read_voicings(options.voicings);
    const int others =
        options.alternatives.empty()
            ? 0
            : read_count("--alternatives", options.alternatives, 1, most_alternatives);
    voicings.wishes = asked.wishes;
    try {
        const auto bpm = tempo ? time::Bpm(*tempo) : form.chart.tempo;
        const auto& [fretboard, wishes] = asked;
        WaitingLine line;
        voicings.plans = guitar::plan_voicings(
            form, passage, bpm, fretboard, wishes, others + 1,
            [&](std::int64_t done, std::int64_t all) { line.show(done, all); });
        if (options.guide_tones) {
            voicings.guide_tones =
                guitar::plan_voicings(form, passage, bpm, fretboard, guitar::guide_wishes(wishes))
                    .front();
        }
    } catch (const guitar::PlanningError& error) {
        throw BadInput(fmt::format("{}: {}", options.chart, error.what()));
    } catch (const std::bad_alloc&) {
        // What was kept is free again by now, so that there is room to say so.
        throw std::runtime_error(fmt::format("{}: out of memory while planning: ask for {}",
                                             options.chart,
                                             guitar::less_to_plan(asked.wishes, others + 1)));
    }
    return voicings;
}

std::string bars_words(const report::Voicings& voicings) {
    const auto passage = voicings.plans.front().passage;
    return passage.bars() == 1 ? fmt::format("bar {}", passage.from)
                               : fmt::format("bars {}-{}", passage.from, passage.to);
}

void save_page(const Options& options, const std::string& path, const std::string& page,
               const report::Voicings& voicings) {
    if (path.empty()) return;
    midi::save_text(path, page, options.replace ? midi::Existing::replace : midi::Existing::keep);
    if (options.json) return;  // stdout is for the JSON alone
    fmt::print("{}: voicings for {} of {}, {} change{}\n", printable(path), bars_words(voicings),
               printable(voicings.form.chart.title), voicings.plans.front().voicings.size(),
               voicings.plans.front().voicings.size() == 1 ? "" : "s");
}

void plan(const Options& options) {
    const auto page = read_page(options);
    refuse_files(options);  // before the work of planning
    const auto voicings = make_plans(options);
    if (!options.html.empty()) {
        save_page(options, options.html, report::voicings_html(voicings, page), voicings);
    }
    if (!options.svg.empty()) {
        save_page(options, options.svg, report::voicings_svg(voicings, page), voicings);
    }
    if (options.json) {
        fmt::print("{}", report::voicings_json(voicings));
    } else if (options.html.empty() && options.svg.empty()) {
        fmt::print("{}", report::voicings_text(voicings, page.hand));
    }
}

}  // namespace

Command plan_command() {
    const auto options = std::make_shared<Options>();
    const std::vector<Option> what = {
        needed({"CHART", "", "Chart file", &options->chart}),
        {"--bars", "BARS",
         "What to plan: 9-12, or B:1-4 in the first B; played over and over.\n"
         "Default: the whole form",
         &options->bars},
        {"--tempo", "BPM",
         "Quarter notes a minute, 30 to 400: the faster, the less the hand may\n"
         "jump. Default: the chart's",
         &options->tempo},
        {"--alternatives", "N",
         "Other plans beside the best, 1 to 20, and where they differ. Default: none",
         &options->alternatives},
        {"--guide-tones", "",
         "Before the voicings the line of thirds and sevenths through the form, on\n"
         "two strings, to be played alone. Default: left out",
         &options->guide_tones},
        {"--json", "", "The plans as JSON. Default: in words", &options->json},
        {"--html", "FILE",
         "Write a page for the music stand, to be looked at or printed, in place\n"
         "of the words. Default: no file",
         &options->html},
        {"--svg", "FILE",
         "The same page as an SVG file; several pages stand below one another.\n"
         "Default: no file",
         &options->svg},
        {"--paper", "PAPER", "a4 or letter. Default: a4", &options->paper},
        {"--left-handed", "", "Diagrams for a left-handed player. Default: right-handed",
         &options->left_handed},
        {"--replace", "", "Write over a file that is there. Default: it is kept",
         &options->replace}};
    return {"plan", "Plan voicings through a tune, and write a page for the music stand",
            joined({what, options_of(options->voicings)}), [options] {
                plan(*options);
                return Status::done;
            }};
}

}  // namespace compline::app
