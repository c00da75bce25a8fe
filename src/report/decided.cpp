#include <compline/practice/rows.hpp>
#include <compline/report/decided.hpp>

namespace compline::report {

namespace {

/// The bar that is played; in a pause the last one before it.
roadmap::PlayedBar bar_of(const practice::State& state) {
    return state.map.bar(state.map.place_at(state.now).number);
}

/// In a pause, what the row begins with that was being played; what is out of time itself.
std::optional<int> goes_on_with(const practice::State& state, const roadmap::PlayedBar& bar) {
    if (!state.paused) return std::nullopt;
    if (state.rubato) return state.rubato->from;
    return practice::row_of(state.map.form(), bar.in_form()).from;
}

}  // namespace

Decided decided_in(const practice::State& state) {
    const auto bar = bar_of(state);
    Decided decided;
    decided.tempo = state.tempo;
    // Of players who were not asked to play nothing is said.
    decided.drums_out = bar.on.drums && !state.drums;
    decided.bass_out = bar.on.bass && !state.bass;
    decided.paused = state.paused && !state.over;
    decided.rubato = state.rubato.has_value();
    decided.until_cue = state.until_cue;
    decided.goes_on_with = goes_on_with(state, bar);
    decided.loop = state.loop;
    if (state.refused) decided.refused = in_words(*state.refused);
    return decided;
}

std::string in_words(practice::Refusal refusal) {
    using practice::Refusal;
    switch (refusal) {
        case Refusal::slowest:
            return "no slower";
        case Refusal::fastest:
            return "no faster";
        case Refusal::no_drums:
            return "no drums here";
        case Refusal::no_bass:
            return "no bass here";
        case Refusal::not_looping:
            return "no loop to leave";
        case Refusal::ending:
            return "too near the end";
    }
    return "";
}

}  // namespace compline::report
