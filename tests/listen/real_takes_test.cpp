#include "support/real_takes.hpp"

#include "measure.d/pickup_study.hpp"
#include "support/catch.hpp"
#include "support/outside_data.hpp"

#include <compline/listen/listener.hpp>
#include <compline/listen/onset_matching.hpp>
#include <compline/listen/strum.hpp>
#include <compline/simulate/rough_pickup.hpp>

#include <algorithm>
#include <string>
#include <vector>

// Real takes as MIDI, clean and made rough, are heard as they were annotated.

using namespace compline;
using time::Seconds;

namespace {

constexpr int seeds = 20;

std::vector<midi::TimedMessage> as_midi(const std::vector<listen::Note>& notes) {
    std::vector<midi::TimedMessage> messages;
    for (const auto& note : notes) {
        messages.push_back({note.on, midi::note_on(*note.string, note.note.number(), 80)});
        messages.push_back({note.off, midi::note_off(*note.string, note.note.number())});
    }
    std::stable_sort(messages.begin(), messages.end(), [](const auto& a, const auto& b) {
        if (a.at != b.at) return a.at < b.at;
        return a.message.ends_note() && b.message.starts_note();
    });
    return messages;
}

std::vector<listen::Note> hear(const std::vector<midi::TimedMessage>& messages,
                               const simulate::Roughness& rough) {
    return listen::hear(messages, listening_to(rough), messages.back().at + Seconds(1)).notes;
}

std::vector<listen::Note> hear_rough(const std::vector<listen::Note>& notes, int seed) {
    const auto rough = roughness_of(simulate::Wear::moderate);
    const auto take = roughen(as_midi(notes), rough, static_cast<std::uint64_t>(seed));
    return hear(take.messages, rough);
}

/// A strum is what begins within 60 ms of its first note, and nothing else is known of it.
std::vector<Seconds> plain_strums(const std::vector<listen::Note>& notes) {
    std::vector<Seconds> onsets;
    for (const auto& note : notes) {
        if (onsets.empty() || note.on - onsets.back() > Seconds(0.060)) onsets.push_back(note.on);
    }
    return onsets;
}

double strum_agreement(const std::vector<listen::Note>& truth,
                       const std::vector<listen::Note>& heard) {
    std::vector<Seconds> onsets;
    for (const auto& strum : listen::group_strums(heard)) onsets.push_back(strum.first());
    return listen::match_onsets(plain_strums(truth), onsets).f_measure;
}

double found(const std::vector<listen::Note>& truth, const std::vector<listen::Note>& heard) {
    const auto matching = measure::match_notes(truth, heard);
    const auto missed =
        std::count(matching.heard_as.begin(), matching.heard_as.end(), std::nullopt);
    return 1 - static_cast<double>(missed) / static_cast<double>(truth.size());
}

}  // namespace

TEST_CASE("the strums of real takes are where a plain grouping of their notes has them") {
    for (const char* name : {tests::take_of_single_strings, tests::take_of_voicings}) {
        const auto path = tests::outside_data(name);
        if (!path) return;
        INFO(name);
        const auto notes = tests::annotated_notes(*path);
        CHECK(strum_agreement(notes, hear(as_midi(notes), {})) >= 0.97);
    }
}

TEST_CASE("the tones of real takes are found, and none are invented") {
    for (const char* name : {tests::take_of_single_strings, tests::take_of_voicings}) {
        const auto path = tests::outside_data(name);
        if (!path) return;
        INFO(name);
        const auto notes = tests::annotated_notes(*path);
        const auto heard = hear(as_midi(notes), {});
        CHECK(found(notes, heard) >= 0.97);
        CHECK(heard.size() <= notes.size());
    }
}

TEST_CASE("through a rough pickup the strums and tones of real takes are still found") {
    for (const char* name : {tests::take_of_single_strings, tests::take_of_voicings}) {
        const auto path = tests::outside_data(name);
        if (!path) return;
        const auto notes = tests::annotated_notes(*path);
        for (int seed = 1; seed <= seeds; ++seed) {
            INFO(name << ", seed " << seed);
            const auto heard = hear_rough(notes, seed);
            CHECK(strum_agreement(notes, heard) >= 0.97);
            CHECK(found(notes, heard) >= 0.97);
        }
    }
}

TEST_CASE("through a rough pickup the changes of a real take are judged as through a clean one") {
    const auto path = tests::outside_data(tests::take_of_voicings);
    if (!path) return;
    const auto notes = tests::annotated_notes(*path);
    const auto clean = tests::judge_voicings(hear(as_midi(notes), {}));
    REQUIRE(clean.changes.size() == 16);
    for (int seed = 1; seed <= seeds; ++seed) {
        INFO("seed " << seed);
        const auto rough = tests::judge_voicings(hear_rough(notes, seed));
        REQUIRE(rough.changes.size() == 16);
        int others = 0;
        for (std::size_t i = 0; i < clean.changes.size(); ++i) {
            if (clean.changes[i].verdict != rough.changes[i].verdict) ++others;
        }
        CHECK(others <= 1);
    }
}
