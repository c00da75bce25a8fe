#include <compline/roadmap/click.hpp>
#include <compline/roadmap/silence.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/phrase.hpp>
#include <compline/text/printable.hpp>
#include <compline/time/beat_name.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::roadmap {

namespace {

constexpr int most_bars_apart = 16;
constexpr int longest_silence = 64;

/// From 1 to `most`.
std::optional<int> count_up_to(std::string_view text, int most) {
    const auto count = text::read_count(text);
    return count && *count >= 1 && *count <= most ? count : std::nullopt;
}

[[noreturn]] void refuse_click(const text::Phrase& phrase, std::string_view found,
                               time::Meter meter) {
    phrase.refuse(
        found, fmt::format("{} is not where to click", text::quoted(found)),
        fmt::format("write beats of the bar, 1 to {}, with & for the off-beat after, such "
                    "as \"2 4\"; /2 behind the last clicks every second bar only (up to "
                    "/{})",
                    meter.bar() / meter.counted(), most_bars_apart));
}

[[noreturn]] void refuse_silence(const text::Phrase& phrase, std::string_view found) {
    phrase.refuse(
        found, fmt::format("{} is not a silence", text::quoted(found)),
        fmt::format("write how many bars play and how many are silent, 1 to {} each, such "
                    "as 4:4; \"4:4 drums\" leaves the bass playing, \"1:1 times\" counts "
                    "times through",
                    longest_silence));
}

}  // namespace

Click read_click(std::string_view text, time::Meter meter) {
    const text::Phrase phrase(text);
    if (phrase.words().empty()) refuse_click(phrase, text, meter);
    Click click;
    for (const auto& word : phrase.words()) {
        auto beat = word.text;
        const bool last = &word == &phrase.words().back();
        if (const auto slash = beat.find('/'); last && slash != std::string_view::npos) {
            const auto every = count_up_to(beat.substr(slash + 1), most_bars_apart);
            if (!every) refuse_click(phrase, word.text, meter);
            click.every = *every;
            beat = beat.substr(0, slash);
        }
        const auto at = time::find_beat(beat, meter);
        if (!at) refuse_click(phrase, beat, meter);
        click.positions.push_back(*at);
    }
    auto& at = click.positions;
    std::sort(at.begin(), at.end());
    at.erase(std::unique(at.begin(), at.end()), at.end());
    return click;
}

Silence read_silence(std::string_view text) {
    const text::Phrase phrase(text);
    if (phrase.words().empty()) refuse_silence(phrase, text);
    phrase.refuse_repeated();
    const auto first = phrase.words().front().text;
    const auto colon = std::min(first.find(':'), first.size());
    const auto playing = count_up_to(first.substr(0, colon), longest_silence);
    const auto silent =
        count_up_to(first.substr(std::min(colon + 1, first.size())), longest_silence);
    if (!playing || !silent) refuse_silence(phrase, first);
    Silence silence{*playing, *silent};
    for (std::size_t i = 1; i < phrase.words().size(); ++i) {
        const auto word = phrase.words()[i].text;
        if (word == "drums") {
            silence.drums_alone = true;
        } else if (word == "times") {
            silence.times_through = true;
        } else if (word == "choruses" || word == "chorus") {
            phrase.refuse(word, fmt::format("{} is now times", word),
                          fmt::format("write \"{} times\" to count times through", first));
        } else if (word != "bars") {
            refuse_silence(phrase, word);
        }
    }
    return silence;
}

}  // namespace compline::roadmap
