#include <compline/simulate/chance.hpp>
#include <compline/simulate/study.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace compline::simulate {

namespace {

using assess::Change;
using assess::Tones;
using assess::Verdict;
using time::Seconds;
using time::Ticks;

constexpr double slowest = 80;
constexpr double fastest = 240;
constexpr Seconds same_onset{0.001};

constexpr std::array<TempoBand, tempo_band_count> bands = {
    {{80, 119}, {120, 159}, {160, 199}, {200, 240}}};

std::optional<double> share(int part, int whole) {
    if (whole == 0) return std::nullopt;
    return static_cast<double>(part) / whole;
}

/// What the judge says of one change, in the words of deeds.
struct Said {
    std::array<bool, deed_count> deeds{};
    bool early = false;
    bool outside = false;

    explicit Said(const Change& change) {
        says(Deed::late, change.verdict == Verdict::late);
        says(Deed::missed, change.verdict == Verdict::missed);
        says(Deed::push, change.verdict == Verdict::pushed);
        says(Deed::laid_out, change.verdict == Verdict::laid_out);
        says(Deed::later_entry,
             change.verdict == Verdict::on_time && change.beats_in.value_or(0) > 0);
        const auto stuck = std::count_if(change.wrong.begin(), change.wrong.end(),
                                         [](const auto& wrong) { return wrong.stuck_finger; });
        says(Deed::stuck_finger, stuck > 0);
        says(Deed::wrong_third, stuck < static_cast<std::ptrdiff_t>(change.wrong.size()));
        says(Deed::missing_seventh, change.tones == Tones::incomplete);
        says(Deed::passing_chord, change.passing > 0);
        early = change.verdict == Verdict::early;
        outside = change.outside > 0;
    }

    void says(Deed deed, bool so) { deeds[static_cast<std::size_t>(deed)] = so; }
    bool operator[](Deed deed) const { return deeds[static_cast<std::size_t>(deed)]; }
    bool nothing() const {
        return !early && !outside &&
               std::none_of(deeds.begin(), deeds.end(), [](bool b) { return b; });
    }
    /// This, and nothing besides.
    bool only(Deed deed) const {
        return (*this)[deed] && !early && !outside &&
               std::count(deeds.begin(), deeds.end(), true) == 1;
    }
};

/// The strum that was meant is the one that was judged.
bool landed_as_played(const Chorus& chorus, const PlayedChange& played, const Change& change) {
    if (!played.landing) return !change.lateness;
    if (!change.lateness || !change.beats_in) return false;
    const Ticks in(
        std::llround(*change.beats_in * static_cast<double>(time::quarter_note.count())));
    const Seconds landed = chorus.groove.time_of(played.at + in) + *change.lateness;
    return time::abs(landed - *played.landing) < same_onset;
}

bool tones_as_played(const PlayedChange& played, const Change& change) {
    if (played.foreign)
        return change.wrong.size() == 1 && change.wrong.front().note == *played.foreign;
    if (played.left_out) return change.missing == std::vector{*played.left_out};
    return change.wrong.empty() && change.missing.empty();
}

/// The deed is recognised as what it is, or rightly nothing is said of it.
bool is_recognised(const Chorus& chorus, const PlayedChange& played, const Change& change) {
    const Said said(change);
    if (!landed_as_played(chorus, played, change) || !tones_as_played(played, change)) return false;
    if (!played.deed) return said.nothing();
    switch (*played.deed) {
        case Deed::lead_in:
        case Deed::approach:
        case Deed::fill:
        case Deed::dead_strum:
            return said.nothing();
        case Deed::passing_chord:
            return said.only(Deed::passing_chord) && change.passing == 1;
        default:
            return said.only(*played.deed);
    }
}

std::string described(const Change& change) {
    std::string text(assess::name_of(change.verdict));
    if (change.lateness) text += fmt::format(" {:+.0f} ms", change.lateness->milliseconds());
    if (change.beats_in.value_or(0) != 0)
        text += fmt::format(" from {:g} beats in", *change.beats_in);
    text += fmt::format(", tones {}", assess::name_of(change.tones));
    for (const auto& wrong : change.wrong) {
        text += fmt::format(", {} {}", wrong.stuck_finger ? "stuck" : "foreign",
                            harmony::note_name(wrong.note, wrong.spelling));
    }
    for (const auto& degree : change.missing) text += fmt::format(", no {}", degree.name());
    if (change.passing > 0) text += fmt::format(", {} passing", change.passing);
    if (change.outside > 0) text += fmt::format(", {} outside", change.outside);
    return text;
}

Disagreement disagreement(const ChorusName& name, const PlayedChange& played,
                          const Change& change) {
    std::string done = played.deed ? std::string(name_of(*played.deed)) : "simply played";
    if (!played.words.empty()) done += ": " + played.words;
    return {name.chart, name.tempo,       name.seed, played.bar, played.beat, played.chord.symbol(),
            done,       described(change)};
}

}  // namespace

std::optional<double> Tally::recall() const { return share(found, planted); }
std::optional<double> Tally::precision() const { return share(right, reported); }

Tally& Tally::operator+=(const Tally& other) {
    planted += other.planted;
    found += other.found;
    reported += other.reported;
    right += other.right;
    return *this;
}

TempoBand tempo_band(int n) { return bands[static_cast<std::size_t>(n)]; }

void Confusion::add(const ChorusName& name, const Chorus& chorus,
                    const assess::Assessment& assessment) {
    assert(chorus.changes.size() == assessment.changes.size());
    Tally all;
    for (std::size_t i = 0; i < chorus.changes.size(); ++i) {
        const auto& played = chorus.changes[i];
        const auto& change = assessment.changes[i];
        const Said said(change);
        bool agreed = true;
        const auto count_report = [&](Tally& tally, bool reported, bool done) {
            const Tally one{0, 0, reported ? 1 : 0, reported && done ? 1 : 0};
            tally += one;
            all += one;
            agreed = agreed && (!reported || done);
        };
        // A chord approached from a fret away is a passing chord in the bar before.
        const bool next_approached =
            i + 1 < chorus.changes.size() && chorus.changes[i + 1].deed == Deed::approach;
        for (int n = 0; n < deed_count; ++n) {
            const auto deed = static_cast<Deed>(n);
            const bool done =
                played.deed == deed || (deed == Deed::passing_chord && next_approached);
            count_report(deeds[static_cast<std::size_t>(n)], said[deed], done);
        }
        count_report(early, said.early, false);
        count_report(outside, said.outside, false);

        const bool recognised =
            is_recognised(chorus, played, change) || (next_approached && agreed && !played.deed);
        const Tally one{1, recognised ? 1 : 0, 0, 0};
        (played.deed ? deeds[static_cast<std::size_t>(*played.deed)] : plain) += one;
        if (played.deed) all += one;
        if (!recognised || !agreed) disagreements.push_back(disagreement(name, played, change));
    }
    for (int n = 0; n < tempo_band_count; ++n) {
        if (name.tempo >= tempo_band(n).from && name.tempo < tempo_band(n).to + 1) {
            bands[static_cast<std::size_t>(n)] += all;
        }
    }
}

assess::Assessment judge(const chart::Form& form, const Chorus& chorus) {
    const auto board = guitar::Fretboard::standard();
    const auto heard = listen::hear(perform(chorus.script, chorus.groove, board), {}, Seconds(1e4));
    assess::Performance performance;
    performance.route = chart::Route::of(form.whole(), 1);
    return assess::assess(form, performance, chorus.groove, heard.notes, board, {});
}

Confusion study(const std::vector<chart::Form>& forms, const StudyRequest& request) {
    Confusion confusion;
    for (int n = 0; n < request.choruses; ++n) {
        ChorusRequest chorus_request;
        chorus_request.seed = request.seed + static_cast<std::uint64_t>(n);
        chorus_request.deeds = request.deeds;
        // Other numbers than those of the chorus itself.
        Chance chance(~chorus_request.seed);
        const auto& form = forms[chance.below(forms.size())];
        const double tempo = slowest + std::floor((fastest - slowest + 1) * chance.uniform());
        const time::Bpm bpm(tempo);
        const auto groove = chart::groove_of(form, chart::Route::of(form.whole(), 1), {}, bpm);
        const auto chorus = play_chorus(form, groove, chorus_request);
        confusion.add({form.chart.title, tempo, chorus_request.seed}, chorus, judge(form, chorus));
    }
    return confusion;
}

}  // namespace compline::simulate
