#include "accidentals.hpp"
#include "key_wish.hpp"
#include "paper.hpp"
#include "planning.hpp"
#include "played_grips.hpp"
#include "voicing_options.hpp"

#include <compline/files/file_io.hpp>
#include <compline/report/voicing_page.hpp>
#include <compline/report/voicings.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <filesystem>
#include <memory>
#include <system_error>
#include <utility>

namespace compline::app {

namespace {

constexpr int most_alternatives = 20;

struct PlanOptions {
    std::string chart;
    std::string bars;
    KeyWish key;
    std::optional<double> tempo;
    int alternatives = 0;
    std::string html;
    std::string svg;
    std::optional<report::Paper> paper;
    report::Paper usual_paper = report::Paper::a4;
    bool json = false;
    bool guide_tones = false;
    std::string from;  ///< a take
    bool replace = false;
    VoicingOptions voicings;
};

bool same_file(const std::string& a, const std::string& b) {
    std::error_code unknown;  // one of them is not there
    return a == b || std::filesystem::equivalent(a, b, unknown);
}

void refuse_taken(const PlanOptions& options, const char* option, const std::string& path) {
    if (path.empty()) return;
    if (same_file(path, options.chart)) {
        throw BadInput(fmt::format("{} {}: that is the chart: give another name", option,
                                   files::name_of(path)));
    }
    std::error_code unknown;  // then writing says why
    if (!options.replace && std::filesystem::exists(path, unknown)) {
        throw BadInput(fmt::format("{} is there already: give another name, or --replace",
                                   files::name_of(path)));
    }
}

void refuse_files(const PlanOptions& options) {
    refuse_taken(options, "--html", options.html);
    refuse_taken(options, "--svg", options.svg);
    if (!options.html.empty() && same_file(options.html, options.svg)) {
        throw BadInput(fmt::format("--html and --svg both name {}", options.html));
    }
    if (options.guide_tones && !(options.html.empty() && options.svg.empty())) {
        throw BadInput(
            "--guide-tones is shown in words and JSON; a page of the line is made with --style "
            "guide-tones");
    }
}

report::PageWishes read_page(const PlanOptions& options) {
    report::PageWishes wishes;
    if (options.voicings.guitar.left_handed) wishes.hand = report::Hand::left;
    wishes.paper = options.usual_paper;
    if (!options.paper) return wishes;
    if (options.html.empty() && options.svg.empty()) {
        throw BadInput("--paper is for a page: give --html or --svg too");
    }
    wishes.paper = *options.paper;
    return wishes;
}

/// A plan is for the guitar that its grips were played on.
GuitarAndWishes pin_grips_of_take(const PlanOptions& options, chart::Form& form,
                                  chart::Passage passage) {
    const auto report =
        judged_for_grips(options.from, options.chart, form, options.voicings.guitar);
    auto asked = read_voicings_on(report.heard.fretboard, options.voicings);
    pin_played_grips(report, passage, asked.wishes.strictness, form);
    return asked;
}

report::Voicings make_plans(const PlanOptions& options) {
    report::Voicings voicings;
    auto asked = read_voicings(options.voicings);
    auto chart = load_chart(options.chart, options.key, asked.fretboard.frets());
    say_left_out(options.chart, chart);
    voicings.form = std::move(chart.form);
    auto& form = voicings.form;
    const auto passage = read_bars(form, options.bars).value_or(form.all());
    voicings.from_take = !options.from.empty();
    if (voicings.from_take) asked = pin_grips_of_take(options, form, passage);
    voicings.wishes = asked.wishes;
    const auto bpm = options.tempo ? time::Bpm(*options.tempo) : form.chart.tempo;
    const auto place = spoken_name(options.chart);
    voicings.plans = plan_for_player(
        place, {form, passage, bpm, asked.fretboard, asked.wishes, options.alternatives + 1});
    if (options.guide_tones) {
        const auto guides = guitar::guide_wishes(asked.wishes);
        voicings.guide_tones =
            plan_for_player(place, {form, passage, bpm, asked.fretboard, guides, 1}).front();
    }
    return voicings;
}

std::string bars_words(const report::Voicings& voicings) {
    const auto passage = voicings.plans.front().passage;
    return passage.bars() == 1 ? fmt::format("bar {}", passage.from)
                               : fmt::format("bars {}-{}", passage.from, passage.to);
}

void save_page(const PlanOptions& options, const std::string& path, const std::string& page,
               const report::Voicings& voicings) {
    if (path.empty()) return;
    files::save_text(path, page,
                     options.replace ? files::Existing::replace : files::Existing::keep);
    if (options.json) return;  // stdout is for the JSON alone
    fmt::print("{}: voicings for {} of {}, {} change{}\n", files::name_of(path),
               bars_words(voicings), text::printable(voicings.form.chart.title, std::string::npos),
               voicings.plans.front().voicings.size(),
               voicings.plans.front().voicings.size() == 1 ? "" : "s");
}

void plan(const PlanOptions& options) {
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
        print_words(report::voicings_text(voicings, page.hand));
    }
}

}  // namespace

ProgramCommand plan_command() {
    const auto options = std::make_shared<PlanOptions>();
    const std::vector<Option> what = {
        needed({"CHART", "", "Chart file", "", file_name(&options->chart)}),
        {"--bars", "BARS", "What to plan: 9-12, or B:1-4 in the first B; played over and over.\n",
         "the whole form", as_typed(&options->bars)},
        tempo_option(options->tempo,
                     "Quarter notes a minute, 30 to 400: the faster, the less the hand may\n"
                     "jump.",
                     "the chart's"),
        {"--alternatives", "N", "Other plans beside the best, 1 to 20, and where they differ.",
         "none", whole_number(1, most_alternatives, &options->alternatives)},
        {"--guide-tones", "",
         "Before the voicings the line of thirds and sevenths through the form, on\n"
         "two strings, to be played alone.",
         "left out", flag(&options->guide_tones)},
        {"--from", "TAKE",
         "A take of this chart: the grips that you used are held where they are right\n"
         "for the chord, of several the one used most, and the rest is planned around\n"
         "them.",
         "the plan chooses", file_name(&options->from)},
        {"--json", "", "The plans as JSON.", "in words", flag(&options->json)},
        accidentals_option()};
    const std::vector<Option> page = {
        {"--html", "FILE",
         "Write a page for the music stand, to be looked at or printed, in place\n"
         "of the words.",
         "no file", file_name(&options->html)},
        {"--svg", "FILE", "The same page as an SVG file; several pages stand below one another.\n",
         "no file", file_name(&options->svg)},
        paper_option(options->paper, options->usual_paper),
        left_handed_option(options->voicings.guitar),
        {"--replace", "", "Write over a file that is there.", "it is kept",
         flag(&options->replace)}};
    return {"plan", "Plan voicings through a tune, and write a page for the music stand",
            joined({what,
                    options_of(options->key),
                    page,
                    {which_guitar(options->voicings.guitar)},
                    options_of(options->voicings)}),
            [options] {
                plan(*options);
                return Status::done;
            }};
}

}  // namespace compline::app
