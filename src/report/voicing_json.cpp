#include "json_values.hpp"
#include "voicing_words.hpp"
#include "words.hpp"

#include <compline/report/voicings.hpp>

#include <array>

namespace compline::report {

namespace {

using guitar::PlannedVoicing;
using guitar::VoicingPlan;
using harmony::Accidentals;

constexpr auto letters = Accidentals::letters;

const char* name_of(guitar::RightHand hand) {
    return hand == guitar::RightHand::pick ? "pick" : "fingers";
}

const char* name_of(guitar::LowRoot root) {
    constexpr std::array<const char*, 3> names = {"bottom", "anywhere", "above"};
    return names[static_cast<std::size_t>(root)];
}

const char* name_of(guitar::Act act) {
    constexpr std::array<const char*, 5> names = {"stays", "slides", "moves", "lands", "lifts"};
    return names[static_cast<std::size_t>(act)];
}

Json chart_json(const Voicings& voicings) {
    const auto& chart = voicings.form.chart;
    return {{"title", chart.title},
            {"key", chart.key.name(letters)},
            {"meter", meter_words(chart.meter)},
            {"tempo_bpm", shortest(voicings.plans.front().tempo.count())},
            {"bars", voicings.form.bars.size()}};
}

Json guitar_json(const guitar::Fretboard& fretboard) {
    return {{"tuning", tuning_names(fretboard, letters)},
            {"capo", fretboard.capo()},
            {"frets", fretboard.frets() + fretboard.capo()}};
}

Json wishes_json(const guitar::VoicingWishes& wishes, const guitar::Fretboard& fretboard) {
    const auto strings = wishes.strings.empty()
                             ? guitar::usual_strings(wishes.style, fretboard.strings())
                             : wishes.strings;
    return {{"style", guitar::name_of(wishes.style)},
            {"strings", strings},
            {"right_hand", name_of(wishes.right_hand)},
            {"root", name_of(wishes.low_root)},
            {"open", wishes.open_strings},
            {"thumb", wishes.thumb},
            {"near", or_null(wishes.near_fret)},
            {"position", or_null(wishes.position)},
            {"moving", wishes.long_chords_move},
            {"strictness", harmony::name_of(wishes.strictness)}};
}

/// Names of notes as one voicing's chord spells them.
std::string note_name(harmony::MidiNote note, const harmony::Palette& palette) {
    return harmony::note_name(note, palette.name(note.pitch_class()), letters);
}

Json finger_json(guitar::Finger finger) {
    if (finger == guitar::Finger::none) return nullptr;
    return guitar::name_of(finger);
}

Json notes_json(const guitar::Fretboard& fretboard, const PlannedVoicing& voicing) {
    Json notes = Json::array();
    for (const auto& place : voicing.grip.shape.places()) {
        const auto note = fretboard.note(place);
        notes.push_back({{"name", note_name(note, voicing.palette)},
                         {"string", place.string},
                         {"fret", place.fret},
                         {"finger", finger_json(voicing.grip.on(place.string))},
                         {"degree", degree_in(voicing.palette, note.pitch_class()).name(letters)}});
    }
    return notes;
}

Json string_json(int string) {
    if (string == 0) return nullptr;
    return string;
}

Json move_json(const guitar::Move& move, const PlannedVoicing& from, const PlannedVoicing& to) {
    const auto voice_json = [&](const guitar::VoiceMove& voice) -> Json {
        return {{"from", note_name(voice.from, from.palette)},
                {"to", note_name(voice.to, to.palette)},
                {"semitones", voice.semitones()}};
    };
    Json json = {{"from_bar", from.change.bar},  {"from_beat", shortest(from.change.beat.number())},
                 {"fingers", Json::array()},     {"voices", Json::array()},
                 {"top", voice_json(move.top)},  {"hand", move.hand},
                 {"whole_grip", move.whole_grip}};
    for (const auto& finger : move.fingers) {
        json["fingers"].push_back({{"finger", guitar::name_of(finger.finger)},
                                   {"act", name_of(finger.act)},
                                   {"from_string", string_json(finger.from_string)},
                                   {"to_string", string_json(finger.to_string)},
                                   {"frets", finger.frets}});
    }
    for (const auto& voice : move.voices) json["voices"].push_back(voice_json(voice));
    return json;
}

/// The name of the shape that is held behind a capo; null without one.
Json shape_name_json(const PlannedVoicing& voicing, const Voicings& of) {
    const auto shape = shape_behind_capo(voicing.change.to, of.form.bar(voicing.change.bar),
                                         of.plans.front().fretboard);
    return shape ? Json(shape->symbol(letters)) : Json(nullptr);
}

Json voicing_json(const Voicings& of, const VoicingPlan& plan, std::size_t i) {
    const auto& voicing = plan.voicings[i];
    const auto& before = plan.voicings[i == 0 ? plan.voicings.size() - 1 : i - 1];
    return {{"bar", voicing.change.bar},
            {"beat", shortest(voicing.change.beat.number())},
            {"section", voicing.change.section},
            {"chord", voicing.change.to.symbol(letters)},
            {"shape_name", shape_name_json(voicing, of)},
            {"shape", voicing.grip.shape.text()},
            {"fingers", voicing.grip.finger_text()},
            {"notes", notes_json(plan.fretboard, voicing)},
            {"pinned", voicing.pinned},
            {"goes_on", voicing.goes_on},
            {"sound", voicing.sound},
            {"reach", voicing.reach},
            {"move", move_json(plan.moves[i], before, voicing)}};
}

Json totals_json(const VoicingPlan& plan) {
    const auto totals = totals_of(plan);
    Json widest = nullptr;
    if (totals.widest_at != nullptr) {
        widest = {{"frets", totals.widest_jump},
                  {"bar", totals.widest_at->change.bar},
                  {"beat", shortest(totals.widest_at->change.beat.number())}};
    }
    return {{"changes", totals.changes},
            {"guided", totals.guided},
            {"travel_frets", totals.travel},
            {"semitones_a_voice", rounded(totals.semitones)},
            {"widest_jump", widest}};
}

Json plan_json(const Voicings& of, const VoicingPlan& plan) {
    Json json = {{"cost", plan.cost()}, {"voicings", Json::array()}};
    for (std::size_t i = 0; i < plan.voicings.size(); ++i) {
        json["voicings"].push_back(voicing_json(of, plan, i));
    }
    json["totals"] = totals_json(plan);
    return json;
}

}  // namespace

std::string voicings_json(const Voicings& voicings) {
    const auto& best = voicings.plans.front();
    Json json;
    json["schema"] = "compline.voicings/1";
    json["chart"] = chart_json(voicings);
    json["passage"] = {{"from_bar", best.passage.from}, {"to_bar", best.passage.to}};
    json["guitar"] = guitar_json(best.fretboard);
    json["wishes"] = wishes_json(voicings.wishes, best.fretboard);
    json["plans"] = Json::array();
    for (const auto& plan : voicings.plans) json["plans"].push_back(plan_json(voicings, plan));
    if (voicings.guide_tones) json["guide_tones"] = plan_json(voicings, *voicings.guide_tones);
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace compline::report
