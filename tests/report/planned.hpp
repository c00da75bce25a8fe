#pragma once

// Voicing plans made by hand, for the tests of what is said and drawn of them: what a planner would
// choose is another matter.

#include <compline/report/voicings.hpp>
#include <compline/roadmap/road_map.hpp>

#include <optional>
#include <sstream>
#include <string>
#include <vector>

namespace compline::tests {

/// "x 5 7 5 6 x" and "x1312x": frets and fingers from the lowest string on; 0 for no finger.
inline guitar::Grip held(const std::string& frets, const std::string& fingers) {
    std::vector<std::optional<int>> from_lowest;
    std::istringstream in(frets);
    for (std::string word; in >> word;) {
        from_lowest.push_back(word == "x" ? std::nullopt : std::optional<int>(std::stoi(word)));
    }
    guitar::Grip grip;
    grip.shape = guitar::Shape::of(from_lowest);
    for (std::size_t i = 0; i < fingers.size(); ++i) {
        const char c = fingers[fingers.size() - 1 - i];
        grip.fingers.at(i) = c == 'T'               ? guitar::Finger::thumb
                             : c >= '1' && c <= '4' ? static_cast<guitar::Finger>(c - '0')
                                                    : guitar::Finger::none;
    }
    return grip;
}

struct Held {
    std::string frets;
    std::string fingers;
};

/// A plan with these grips, one a change.
inline guitar::VoicingPlan plan_of(
    const chart::Form& form, chart::Passage passage, const std::vector<Held>& grips,
    const guitar::Fretboard& fretboard = guitar::Fretboard::standard()) {
    guitar::VoicingPlan plan;
    plan.fretboard = fretboard;
    plan.passage = passage;
    plan.tempo = form.chart.tempo;
    for (const auto& change : roadmap::RoadMap(form, roadmap::Asked::of(passage, 1)).changes()) {
        guitar::PlannedVoicing voicing{
            change, {change.to, change.around, harmony::Strictness::working}, {}};
        const auto& grip = grips.at(plan.voicings.size());
        voicing.grip = held(grip.frets, grip.fingers);
        voicing.sound = 50;
        voicing.reach = 120;
        plan.voicings.push_back(voicing);
    }
    for (std::size_t i = 0; i < plan.voicings.size(); ++i) {
        const auto& before = plan.voicings[i == 0 ? plan.voicings.size() - 1 : i - 1];
        plan.moves.push_back(guitar::move_between(fretboard, before.grip, plan.voicings[i].grip));
    }
    return plan;
}

inline const Held d_minor{"x 5 7 5 6 x", "x1312x"};
inline const Held g_seventh{"3 x 3 4 x x", "2x34xx"};
inline const Held c_major{"x 3 5 4 5 x", "x1324x"};
inline const Held c_sixth{"8 x 7 9 8 x", "2x143x"};
inline const Held a_seventh{"x 0 2 0 2 x", "x0102x"};
inline const Held high_d{"10 x 10 10 x x", "2x33xx"};
inline const Held high_d_flat{"9 x 9 10 x x", "1x23xx"};

/// Ten bars: an A twice, whose voicings are the same, and a B.
inline chart::Form four_doors() {
    return chart::unroll(
        chart::read_chart("title: Four Doors\n"
                          "key: C\n"
                          "tempo: 120\n"
                          "form: [A, A, B]\n"
                          "sections:\n"
                          "  A: |\n"
                          "    Dm7 | G7 | Cmaj7 | C6 / / A7\n"
                          "  B: |\n"
                          "    Dm7 Db7 | Cmaj7\n",
                          "four-doors.yaml"));
}

/// Of the whole of it: what stays, slides, moves, lands, lifts; a barre, open strings, two digits.
inline guitar::VoicingPlan through_four_doors() {
    const std::vector<Held> a = {d_minor, g_seventh, c_major, c_sixth, a_seventh};
    std::vector<Held> grips = a;
    grips.insert(grips.end(), a.begin(), a.end());
    grips.insert(grips.end(), {high_d, high_d_flat, c_sixth});
    const auto form = four_doors();
    return plan_of(form, form.whole(), grips);
}

/// The plan above, and one beside it that takes the first chords elsewhere.
inline report::Voicings voicings_of_four_doors() {
    report::Voicings voicings;
    voicings.form = four_doors();
    voicings.plans.push_back(through_four_doors());
    const std::vector<Held> a = {high_d, g_seventh, c_major, c_sixth, {"x 0 2 0 2 x", "x0203x"}};
    std::vector<Held> grips = a;
    grips.insert(grips.end(), a.begin(), a.end());
    grips.insert(grips.end(), {high_d, high_d_flat, c_major});
    voicings.plans.push_back(plan_of(voicings.form, voicings.form.whole(), grips));
    voicings.plans.back().voicings.front().sound += 75;
    return voicings;
}

/// A plan with one and the same grip everywhere: for where things stand.
inline report::Voicings all_alike(const chart::Form& form,
                                  std::optional<chart::Passage> passage = std::nullopt) {
    report::Voicings voicings;
    voicings.form = form;
    const std::vector<Held> grips(5000, {"5 x 5 6 8 x", "1x124x"});
    voicings.plans.push_back(plan_of(form, passage.value_or(form.whole()), grips));
    return voicings;
}

inline bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace compline::tests
