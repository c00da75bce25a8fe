#include "offer_words.hpp"

#include <compline/chart/transpose.hpp>
#include <compline/text/for_shell.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstdlib>
#include <string_view>

namespace compline::practice {

using time::Seconds;

namespace {

constexpr std::array<std::string_view, 4> kind_names = {"offset", "transpose", "tempo", "chart"};

std::string counted(int n, std::string_view one, std::string_view many) {
    constexpr std::array<const char*, 12> words = {
        "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"};
    if (n == 1) return std::string(one);
    return fmt::format("{} {}", words.at(static_cast<std::size_t>(n) - 2), many);
}

/// "a bar", "two bars", "half a beat", "227 ms".
std::string distance_words(Seconds far, const Report& report) {
    const auto first = report.map.bar(1);
    const auto near = [&](Seconds to) { return time::abs(far - to) < Seconds(0.0015); };
    for (const int bars : {1, 2}) {
        if (near(first.lasts() * bars)) return counted(bars, "a bar", "bars");
    }
    const Seconds beat = first.tempo.beat();
    if (time::abs(far - beat * 0.5) < beat * 0.06) {
        return fmt::format("half a beat ({:.0f} ms)", far.milliseconds());
    }
    return fmt::format("{:.0f} ms", far.milliseconds());
}

std::string start_words(const Guess& guess, const Report& report) {
    const bool later = guess.moved.later > Seconds(0);
    return fmt::format("with bar 1 {} {}", distance_words(time::abs(guess.moved.later), report),
                       later ? "later" : "earlier");
}

std::string key_words(const Guess& guess, const Report& report) {
    const int semitones = guess.moved.semitones;
    const auto key = chart::key_apart(report.map.form().chart.key, semitones);
    return fmt::format("{} {}, in {}", counted(std::abs(semitones), "a semitone", "semitones"),
                       semitones > 0 ? "higher" : "lower", key.name());
}

std::string tempo_words(const Guess& guess) {
    const double faster = guess.moved.faster;
    if (faster == 0.5) return "at half the tempo";
    if (faster == 2) return "at twice the tempo";
    const double percent = std::fabs(faster - 1) * 100;
    return fmt::format("{:.0f} % {}", percent, faster > 1 ? "faster" : "slower");
}

std::string plain(double value) {
    auto text = fmt::format("{:.4f}", value);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

std::string option_of(const Guess& guess, const ScoreRequest& request, const Report& report) {
    if (guess.kind == HintKind::offset) {
        const auto offset = offset_asked(request, guess.moved.later);
        return fmt::format("--offset {:.0f}", offset.milliseconds());
    }
    if (guess.kind == HintKind::tempo) {
        return "--tempo " + plain(tempo_asked(report, guess.moved.faster).count());
    }
    const auto& chart = report.map.form().chart;
    return fmt::format("--transpose {}", semitones_asked(chart, guess.moved.semitones));
}

Hint hint(HintKind kind, const std::string& how, const std::string& option, RightChanges now,
          RightChanges then) {
    const auto words = fmt::format("It fits {}: {} of {} changes are right then, and {} now: {}",
                                   how, then.right, then.of, now.right, option);
    return {kind, words, option, then.right, then.of};
}

}  // namespace

std::string_view name_of(HintKind kind) { return kind_names[static_cast<std::size_t>(kind)]; }

Seconds offset_asked(const ScoreRequest& request, Seconds later) {
    return time::from_milliseconds(std::round((request.offset + later).milliseconds()) + 0.0);
}

time::Bpm tempo_asked(const Report& report, double faster) {
    constexpr Seconds no_matter{0.02};
    const double tempo = report.map.tempo().count() * faster;
    const auto lasts = report.heard.notes.empty() ? Seconds(0) : report.heard.notes.back().on;
    for (const double unit : {1.0, 0.1, 0.01, 0.001}) {
        const time::Bpm round(std::round(tempo / unit) * unit);
        if (lasts * (std::fabs(round.count() - tempo) / tempo) <= no_matter) return round;
    }
    return time::Bpm(std::round(tempo * 1e4) / 1e4);
}

int semitones_asked(const chart::Chart& chart, int higher) {
    const auto& written = chart.written_in.value_or(chart.key);
    const int from = chart.key.tonic.pitch_class() - written.tonic.pitch_class();
    const int semitones = ((from + higher) % 12 + 12) % 12;
    return semitones > 6 ? semitones - 12 : semitones;
}

Hint hint_of(const Guess& guess, const ScoreRequest& request, const Take& take,
             const Report& report, RightChanges now, RightChanges then) {
    const auto option = option_of(guess, request, report);
    if (guess.kind == HintKind::offset) {
        return hint(guess.kind, start_words(guess, report), option, now, then);
    }
    if (guess.kind == HintKind::tempo)
        return hint(guess.kind, tempo_words(guess), option, now, then);
    // By its own chart, in its own key, a take is judged without this option.
    const auto words =
        key_words(guess, report) + (take.info ? ", by its chart's file (--chart)" : "");
    return hint(guess.kind, words, option, now, then);
}

Hint hint_of(const OtherChart& chart, RightChanges now, RightChanges then) {
    const auto& other = chart.form.chart.title;
    return hint(HintKind::chart, text::printable(other), "--chart " + text::for_shell(chart.file),
                now, then);
}

}  // namespace compline::practice
