#include "measure.d/pickup_study.hpp"

#include "simulate/rough_pickup_parts.hpp"

#include <compline/listen/onset_matching.hpp>
#include <compline/listen/strum.hpp>
#include <compline/simulate/chance.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

namespace compline::measure {

namespace {

using time::Seconds;

constexpr double slowest = 80;
constexpr double fastest = 240;
/// A note made by a fault is heard where the fault was.
constexpr Seconds same_moment{0.003};
constexpr Seconds nearby{0.100};
constexpr Seconds shown{0.250};

listen::Heard hear(const StudyTake& take, const PickupStudyRequest& request) {
    auto settings = simulate::listening_to(take.roughness);
    settings.cleaning = request.cleaning;
    if (request.finds_strings) settings.strings.reset();
    const auto& messages = take.rough.messages;
    const Seconds end = messages.empty() ? Seconds(0) : messages.back().at + Seconds(1);
    return listen::hear(messages, settings, end);
}

assess::Assessment judge(const StudyTake& take, const std::vector<listen::Note>& notes) {
    assess::Performance performance;
    performance.notes = notes;
    performance.fretboard = take.roughness.fretboard;
    return assess::assess(take.map, performance, {});
}

std::vector<Seconds> strum_onsets(const std::vector<listen::Note>& notes) {
    std::vector<Seconds> onsets;
    for (const auto& strum : listen::group_strums(notes)) onsets.push_back(strum.first());
    return onsets;
}

void count_strums(PickupFigures& figures, const std::vector<listen::Note>& truth,
                  const std::vector<listen::Note>& heard) {
    const auto played = strum_onsets(truth);
    const auto said = strum_onsets(heard);
    const auto score = listen::match_onsets(played, said);
    const double matched = score.recall * static_cast<double>(played.size());
    figures.strums += Found{static_cast<int>(played.size()), static_cast<int>(said.size()),
                            static_cast<int>(std::lround(matched))};
}

bool made_by(const simulate::FaultDone& fault, const listen::Note& note) {
    return fault.string == note.string && fault.note == note.note &&
           time::abs(fault.at - note.on) <= same_moment;
}

/// The fault that explains a slip best: that made the note, else any one beside it.
std::optional<simulate::Fault> explanation(const simulate::RoughTake& rough,
                                           const listen::Note& note) {
    std::optional<simulate::Fault> beside;
    for (const auto& fault : rough.faults) {
        if (made_by(fault, note)) return fault.fault;
        if (fault.string == note.string && time::abs(fault.at - note.on) <= nearby) {
            beside = fault.fault;
        }
    }
    return beside;
}

Slip slip(const StudyTake& take, const listen::Note& note, bool extra) {
    Slip slip;
    slip.chart = take.map.form().chart.title;
    slip.tempo = take.map.tempo().count();
    slip.seed = take.seed;
    slip.extra = extra;
    slip.note = note;
    slip.fault = explanation(take.rough, note);
    for (const auto& timed : take.rough.messages) {
        if (time::abs(timed.at - note.on) > shown) continue;
        const bool there = note.string && timed.message.channel() ==
                                              simulate::channel_of(take.roughness, *note.string);
        if (there || !note.string) slip.messages.push_back(timed);
    }
    return slip;
}

void count_tones(PickupFigures& figures, const StudyTake& take,
                 const std::vector<listen::Note>& truth, const std::vector<listen::Note>& heard,
                 std::size_t most_slips) {
    const auto matching = match_notes(truth, heard);
    const auto add = [&](const listen::Note& note, const Found& found, bool slipped) {
        // A note on no string is wrong on all of them; it is counted with string 6.
        const int string = std::clamp(note.string.value_or(6), 1, 6);
        figures.strings.at(static_cast<std::size_t>(string - 1)) += found;
        if (slipped && figures.slips.size() < most_slips) {
            figures.slips.push_back(slip(take, note, found.heard > 0));
        }
    };
    for (std::size_t i = 0; i < truth.size(); ++i) {
        const bool matched = matching.heard_as[i].has_value();
        add(truth[i], {1, 0, matched ? 1 : 0}, !matched);
    }
    for (std::size_t i = 0; i < heard.size(); ++i) {
        add(heard[i], {0, 1, 0}, matching.extra[i]);
    }
}

void compare(PickupFigures& figures, const assess::Change& clean, const assess::Change& rough) {
    ++figures.changes;
    if (clean.verdict != rough.verdict) ++figures.verdicts_changed;
    if (clean.tones == assess::Tones::right) {
        ++figures.right_clean;
        if (rough.tones == assess::Tones::wrong) ++figures.false_wrong;
        if (rough.tones == assess::Tones::incomplete) ++figures.false_incomplete;
    }
    if (!clean.lateness && !rough.lateness) return;
    if (clean.lateness && rough.lateness && clean.beats_in == rough.beats_in) {
        figures.lateness_errors_ms.push_back((*rough.lateness - *clean.lateness).milliseconds());
    } else {
        ++figures.elsewhere;
    }
}

void count_changes(PickupFigures& figures, const StudyTake& take,
                   const std::vector<listen::Note>& heard) {
    listen::PickupSettings settings;
    settings.strings = listen::Strings{};
    settings.fretboard = take.roughness.fretboard;
    const auto played = listen::hear(take.clean, settings, Seconds(1e4));
    const auto clean = judge(take, played.notes);
    const auto rough = judge(take, heard);
    assert(clean.changes.size() == rough.changes.size());
    for (std::size_t i = 0; i < clean.changes.size(); ++i) {
        compare(figures, clean.changes[i], rough.changes[i]);
    }
}

void add_up(listen::Cleaned& all, const listen::Cleaned& one) {
    all.ghosts += one.ghosts;
    all.double_triggers += one.double_triggers;
    all.flickers += one.flickers;
    all.lift_offs += one.lift_offs;
    all.frets_passed += one.frets_passed;
    all.unended += one.unended;
    all.impossible += one.impossible;
}

/// Real notes that look like a lifted finger: the open string struck or pulled softly as a fretted
/// note ends, where the string is left alone for long enough after it.
void pull_off(std::vector<midi::TimedMessage>& clean, const guitar::Fretboard& fretboard,
              double share, std::uint64_t seed) {
    constexpr Seconds room{0.350};
    simulate::Chance chance(seed * 31 + 7);
    auto played = simulate::read_clean(clean, fretboard);
    std::vector<Seconds> next(static_cast<std::size_t>(fretboard.strings()) + 1, Seconds(1e9));
    std::reverse(played.begin(), played.end());
    for (const auto& note : played) {
        const bool pulled = chance.uniform() < share;
        const double part = 0.45 + 0.55 * chance.uniform();
        const Seconds after = simulate::between_ms(chance, 0, 30);
        const Seconds length = simulate::between_ms(chance, 100, 300);
        auto& next_on = next[static_cast<std::size_t>(note.string)];
        const int open = fretboard.open(note.string).number();
        if (pulled && note.key != open && next_on - note.off > room) {
            const int velocity = std::max(1, static_cast<int>(note.velocity * part));
            const Seconds on = note.off + after;
            clean.push_back({on, midi::note_on(note.string, open, velocity)});
            clean.push_back({on + length, midi::note_off(note.string, open)});
        }
        next_on = note.on;
    }
    std::stable_sort(clean.begin(), clean.end(), [](const auto& a, const auto& b) {
        if (a.at != b.at) return a.at < b.at;
        return a.message.ends_note() && b.message.starts_note();
    });
}

/// Of the true notes, whether each is heard.
std::vector<bool> heard_or_not(const StudyTake& take, const std::vector<listen::Note>& heard) {
    std::vector<bool> found;
    for (const auto& as : match_notes(take.rough.audible(), heard).heard_as) {
        found.push_back(as.has_value());
    }
    return found;
}

void count_rule(RuleFigures& figures, const StudyTake& take, const PickupStudyRequest& on,
                const PickupStudyRequest& off, simulate::Fault fault) {
    const auto heard = hear(take, on).notes;
    const auto with = heard_or_not(take, heard);
    const auto without = heard_or_not(take, hear(take, off).notes);
    for (std::size_t i = 0; i < with.size(); ++i) {
        ++figures.played;
        if (without[i] && !with[i]) ++figures.false_drops;
    }
    const auto extra = match_notes(take.rough.audible(), heard).extra;
    for (const auto& done : take.rough.faults) {
        if (done.fault != fault) continue;
        ++figures.faults;
        for (std::size_t i = 0; i < heard.size(); ++i) {
            if (!extra[i] || !made_by(done, heard[i])) continue;
            ++figures.false_keeps;
            break;
        }
    }
}

/// In every manner of comping, one seed after the other.
simulate::Habits habits_of(bool deeds, std::uint64_t seed) {
    simulate::Habits habits;
    habits.comping = static_cast<simulate::Comping>(seed % simulate::comping_count);
    habits.scatter = Seconds(0.009);
    if (deeds) habits.rates.fill(0.05);
    return habits;
}

}  // namespace

StudyTake study_take(const std::vector<chart::Form>& forms, const PickupStudyRequest& request,
                     int n) {
    const std::uint64_t seed = request.seed + static_cast<std::uint64_t>(n);
    simulate::Chance chance(~seed);
    const auto& form = forms[chance.below(forms.size())];
    auto asked = roadmap::Asked::of(form.whole(), 1);
    asked.tempo = time::Bpm(slowest + std::floor((fastest - slowest + 1) * chance.uniform()));
    auto roughness = request.roughness;
    if (chance.uniform() >= request.sliding_takes) roughness.slides = 0;
    const roadmap::RoadMap map(form, std::move(asked));
    auto played = simulate::play(map, habits_of(request.deeds, seed), seed);
    auto clean = simulate::perform(played.script, map, roughness.fretboard);
    if (request.pull_offs > 0) pull_off(clean, roughness.fretboard, request.pull_offs, seed);
    auto rough = simulate::roughen(clean, roughness, seed);
    return {map, seed, std::move(played), std::move(clean), roughness, std::move(rough)};
}

PickupFigures study_pickup(const std::vector<chart::Form>& forms,
                           const PickupStudyRequest& request) {
    PickupFigures figures;
    for (int n = 0; n < request.takes; ++n) {
        const auto take = study_take(forms, request, n);
        const auto heard = hear(take, request);
        const auto truth = take.rough.audible();
        ++figures.takes;
        count_strums(figures, truth, heard.notes);
        count_tones(figures, take, truth, heard.notes, request.most_slips);
        count_changes(figures, take, heard.notes);
        add_up(figures.cleaned, heard.cleaned);
        for (std::size_t i = 0; i < figures.faults.size(); ++i) {
            figures.faults.at(i) += take.rough.counts.at(i);
        }
    }
    return figures;
}

RuleFigures study_rule(const std::vector<chart::Form>& forms, const PickupStudyRequest& request,
                       simulate::Fault fault, const listen::Cleaning& off) {
    RuleFigures figures;
    auto without = request;
    without.cleaning = off;
    for (int n = 0; n < request.takes; ++n) {
        count_rule(figures, study_take(forms, request, n), request, without, fault);
    }
    return figures;
}

}  // namespace compline::measure
