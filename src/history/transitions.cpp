#include "transitions.hpp"

#include <algorithm>
#include <set>

namespace compline::history {

namespace {

void add_place(Transitions& transitions, const PlaceEvenings& rows, Sounding& sounding) {
    TransitionRows* into = nullptr;
    const std::string* key = nullptr;
    for (const auto* row : rows) {
        // A place has the same chords each evening; they sound otherwise in another key.
        if (key == nullptr || *key != row->key) {
            key = &row->key;
            const auto* const from = sounding.of(row->from, row->key);
            const auto* const to = sounding.of(row->to, row->key);
            into = from && to ? &transitions[{from->sound, to->sound}] : nullptr;
            if (into && into->rows.empty()) {
                into->from = from->name;
                into->to = to->name;
            }
        }
        if (into) into->rows.push_back(row);
    }
}

}  // namespace

void add_transitions(Transitions& transitions, const TuneHistory& tune, const std::string& since) {
    Sounding sounding(tune.tune);
    for (const auto& rows : rows_by_place(tune, since)) {
        if (!rows.front()->from.empty()) add_place(transitions, rows, sounding);
    }
}

TransitionStory transition_story(const TransitionRows& transition, const std::string& lately) {
    const auto& rows = transition.rows;
    TransitionStory story;
    story.from = transition.from;
    story.to = transition.to;
    std::set<int> bars;
    for (const auto* row : rows) bars.insert(row->bar);
    story.bars.assign(bars.begin(), bars.end());
    story.evenings = evenings_of(rows);
    story.sums = sums_of(rows);
    story.lately = sums_of(rows, lately);
    story.trend = trend_of(by_evening(rows));
    return story;
}

std::vector<TransitionStory> weak_transitions(const TuneHistory& tune, const std::string& since,
                                              const std::string& lately) {
    Transitions played;
    add_transitions(played, tune, std::max(since, lately));
    std::vector<Transitions::key_type> sounds;
    std::vector<PlaceEvenings> rows;
    for (auto& [sound, transition] : played) {
        sort_by_date(transition.rows);
        sounds.push_back(sound);
        rows.push_back(transition.rows);
    }
    auto weakest = weakest_first(rows);
    if (weakest.size() > most_told) weakest.resize(most_told);
    Transitions all;
    if (!weakest.empty()) add_transitions(all, tune, since);
    std::vector<TransitionStory> stories;
    for (const auto i : weakest) {
        auto& transition = all.at(sounds[i]);
        sort_by_date(transition.rows);
        stories.push_back(transition_story(transition, lately));
    }
    return stories;
}

}  // namespace compline::history
