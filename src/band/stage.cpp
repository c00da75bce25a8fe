#include <compline/band/place.hpp>
#include <compline/text/phrase.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <vector>

namespace compline::band {

namespace {

// In the order of their values.
constexpr std::array<std::string_view, chair_count> names{"ride",  "hats", "kick",   "snare",
                                                          "count", "bass", "melody", "guitar"};
constexpr const char* chairs =
    "drums (ride, hats, kick and snare), ride, hats, kick, snare, count, bass, melody or guitar";

std::vector<Chair> chairs_named(std::string_view name) {
    if (name == "drums") return {Chair::ride, Chair::hats, Chair::kick, Chair::snare};
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (names[i] == name) return {static_cast<Chair>(i)};
    }
    return {};
}

/// A list of "who=how much", one at a time; `take` is given the word and whom it names.
template <typename Take>
void read_list(std::string_view text, std::string_view example, Take take) {
    const text::Phrase phrase(text, text::Phrase::Parted::by_commas);
    for (const auto& word : phrase.words()) {
        if (!word.value) {
            phrase.refuse(word,
                          fmt::format("{} does not say who and how much", text::quoted(word.text)),
                          fmt::format("write such as {}", example));
        }
        const auto whom = chairs_named(word.name);
        if (whom.empty()) {
            std::vector<std::string> known(names.begin(), names.end());
            known.emplace_back("drums");
            phrase.refuse(word,
                          fmt::format("{} is nobody in the band{}", text::quoted(word.name),
                                      text::did_you_mean(word.name, known)),
                          fmt::format("write {}", chairs));
        }
        take(phrase, word, whom);
    }
    phrase.refuse_repeated();
}

}  // namespace

std::string_view name_of(Chair chair) { return names[static_cast<std::size_t>(chair)]; }

void read_placement(std::string_view text, Stage& stage) {
    const double most = furthest_behind.milliseconds();
    read_list(text, "bass=+8,ride=-4",
              [&](const text::Phrase& phrase, const text::Word& word, const auto& whom) {
                  const auto behind =
                      time::from_milliseconds(phrase.number(word, -most, most, "milliseconds"));
                  for (const auto chair : whom) {
                      if (chair == Chair::count) {
                          phrase.refuse(word, "the count stands on the beat",
                                        "it is what all else is laid beside");
                      }
                      stage.seat(chair).behind = behind;
                  }
              });
}

void read_mix(std::string_view text, Stage& stage) {
    read_list(text, "drums=-6,bass=0,count=3",
              [&](const text::Phrase& phrase, const text::Word& word, const auto& whom) {
                  const double gain =
                      word.value == "off"
                          ? 0.0
                          : std::pow(10.0, phrase.number(word, -60, 12, "off, or decibels") / 20.0);
                  for (const auto chair : whom) stage.seat(chair).gain = static_cast<float>(gain);
              });
}

void read_pan(std::string_view text, Stage& stage) {
    read_list(text, "bass=-0.5,drums=0.5",
              [&](const text::Phrase& phrase, const text::Word& word, const auto& whom) {
                  const auto pan = static_cast<float>(
                      phrase.number(word, -1, 1, "a number (-1 is left, 1 right)"));
                  for (const auto chair : whom) stage.seat(chair).pan = pan;
              });
}

std::string placement_in_words(const Stage& stage) {
    std::string words;
    for (std::size_t i = 0; i < names.size(); ++i) {
        const double ms = stage.seats[i].behind.milliseconds();
        if (ms == 0) continue;
        words += fmt::format("{}{} {:+g}", words.empty() ? "" : ", ", names[i], ms);
    }
    return words;
}

}  // namespace compline::band
