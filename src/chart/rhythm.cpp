#include <compline/chart/rhythm.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/phrase.hpp>
#include <compline/text/printable.hpp>
#include <compline/time/beat_name.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace compline::chart {

using time::Ticks;

namespace {

constexpr const char* how_to_say_rhythm = "write free, four, or beats such as \"1 2&\"";

Ticks read_beat(const text::Phrase& phrase, const text::Word& word, time::Meter meter) {
    if (const auto at = time::find_beat(word.text, meter)) return *at;
    phrase.refuse(word, fmt::format("{} is not a beat of the bar", text::quoted(word.text)),
                  fmt::format("write 1 to {}, with & for the off-beat after it, such as \"1 2&\"; "
                              "or free, or four",
                              meter.bar() / meter.counted()));
}

}  // namespace

std::string Rhythm::name() const {
    if (kind == Kind::free) return "free";
    if (kind == Kind::four) return "four";
    std::string text;
    for (const Ticks at : positions) {
        text += (text.empty() ? "" : " ") + time::beat_name(at, meter);
    }
    return text;
}

std::vector<Ticks> Rhythm::due_in_bar(time::Meter of) const {
    std::vector<Ticks> beats;
    if (kind == Kind::pattern) {
        // A bar of fewer beats lacks the last ones.
        std::copy_if(positions.begin(), positions.end(), std::back_inserter(beats),
                     [&](Ticks in_bar) { return in_bar < of.bar(); });
    }
    for (int beat = 0; kind == Kind::four && beat < of.beats(); ++beat) {
        beats.push_back(of.beat() * beat);
    }
    return beats;
}

Rhythm read_rhythm(std::string_view text, time::Meter meter) {
    if (text == "free") return {Rhythm::Kind::free, {}, meter};
    if (text == "four") return {Rhythm::Kind::four, {}, meter};
    const text::Phrase phrase(text);
    if (phrase.words().empty()) throw text::BadInput("", "no rhythm", how_to_say_rhythm);
    Rhythm rhythm{Rhythm::Kind::pattern, {}, meter};
    for (const auto& word : phrase.words()) {
        rhythm.positions.push_back(read_beat(phrase, word, meter));
    }
    auto& at = rhythm.positions;
    std::sort(at.begin(), at.end());
    at.erase(std::unique(at.begin(), at.end()), at.end());
    return rhythm;
}

}  // namespace compline::chart
