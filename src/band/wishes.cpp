#include <compline/band/band.hpp>
#include <compline/time/beat_name.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

namespace compline::band {

namespace {

constexpr int most_bars_apart = 16;
constexpr int longest_silence = 64;

/// The words of a text, blanks between them.
std::vector<std::string_view> words_of(std::string_view text) {
    std::vector<std::string_view> words;
    while (true) {
        const auto start = text.find_first_not_of(' ');
        if (start == std::string_view::npos) return words;
        text.remove_prefix(start);
        const auto end = std::min(text.find(' '), text.size());
        words.push_back(text.substr(0, end));
        text.remove_prefix(end);
    }
}

/// Digits only, from 1 to `most`.
std::optional<int> read_count(std::string_view text, int most) {
    int count = 0;
    const auto* const end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, count);
    if (read.ec != std::errc() || read.ptr != end || count < 1 || count > most) return std::nullopt;
    return count;
}

[[noreturn]] void refuse_click(std::string_view found, time::Meter meter) {
    throw BandError(
        fmt::format("\"{}\" is not where to click: write beats of the bar, 1 to {}, with & for the "
                    "off-beat after, such as \"2 4\"; /2 behind the last clicks every second bar "
                    "only (up to /{})",
                    found, meter.beats(), most_bars_apart));
}

[[noreturn]] void refuse_silence(std::string_view found) {
    throw BandError(
        fmt::format("\"{}\" is not a silence: write how many bars play and how many are silent, 1 "
                    "to {} each, such as 4:4; \"4:4 drums\" leaves the bass playing, \"1:1 times\" "
                    "counts times through",
                    found, longest_silence));
}

}  // namespace

Click read_click(std::string_view text, time::Meter meter) {
    Click click;
    auto words = words_of(text);
    if (words.empty()) refuse_click(text, meter);
    if (const auto slash = words.back().find('/'); slash != std::string_view::npos) {
        const auto every = read_count(words.back().substr(slash + 1), most_bars_apart);
        if (!every) refuse_click(words.back(), meter);
        click.every = *every;
        words.back() = words.back().substr(0, slash);
    }
    for (const auto word : words) {
        const auto at = time::find_beat(word, meter);
        if (!at) refuse_click(word, meter);
        click.positions.push_back(*at);
    }
    auto& at = click.positions;
    std::sort(at.begin(), at.end());
    at.erase(std::unique(at.begin(), at.end()), at.end());
    return click;
}

Silence read_silence(std::string_view text) {
    Silence silence;
    const auto words = words_of(text);
    if (words.empty()) refuse_silence(text);
    const auto colon = words[0].find(':');
    if (colon == std::string_view::npos) refuse_silence(words[0]);
    const auto playing = read_count(words[0].substr(0, colon), longest_silence);
    const auto silent = read_count(words[0].substr(colon + 1), longest_silence);
    if (!playing || !silent) refuse_silence(words[0]);
    silence.playing = *playing;
    silence.silent = *silent;
    for (std::size_t i = 1; i < words.size(); ++i) {
        if (words[i] == "drums") {
            silence.drums_alone = true;
        } else if (words[i] == "times") {
            silence.times_through = true;
        } else if (words[i] == "choruses" || words[i] == "chorus") {
            throw BandError(fmt::format(
                "{} is now times: write \"{} times\" to count times through", words[i], words[0]));
        } else if (words[i] != "bars") {
            refuse_silence(words[i]);
        }
    }
    return silence;
}

}  // namespace compline::band
