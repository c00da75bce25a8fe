#include "road_map_head.hpp"

#include <compline/text/bad_input.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>

namespace compline::chart {

namespace {

/// Words that would pass for a name, and what is written where they are meant.
struct TradeWord {
    std::string_view word;
    std::string_view advice;
};

constexpr std::string_view al_coda = "the coda is played by al coda, such as head al coda";
constexpr std::string_view pace =
    "how a section is felt is written there, such as B: {feel: half-time, bars: ...}";
constexpr std::string_view signs = "write D.S. al coda, D.C. al fine, or head al coda";
constexpr std::string_view rit = "write rit and over how many last bars as a part, such as rit 4";
constexpr std::string_view a_tempo = "it stands behind a colon, such as head: a tempo";
constexpr std::string_view no_fade =
    "the band does not fade: write how often, or vamp until cue; held ending";
constexpr std::string_view cue = "write vamp until cue, or solo until cue";
constexpr std::string_view fermata = "a fermata stands behind a chord in its bar, such as C6~4";
constexpr std::string_view rubato = "what is out of time is a section with tempo: rubato";

/// Single words, wherever in a name they stand.
constexpr std::array<TradeWord, 34> trade_words{{
    {"coda", al_coda},
    {"segno", signs},
    {"fine", signs},
    {"al", signs},
    {"dal", signs},
    {"D.S", signs},
    {"D.C", signs},
    {"D.S.", signs},
    {"D.C.", signs},
    {"DS", signs},
    {"DC", signs},
    {"half-time", pace},
    {"double-time", pace},
    {"halftime", pace},
    {"doubletime", pace},
    {"rit", rit},
    {"rit.", rit},
    {"ritard", rit},
    {"ritardando", rit},
    {"rall", rit},
    {"rallentando", rit},
    {"accel", rit},
    {"accelerando", rit},
    {"fade", no_fade},
    {"fade-out", no_fade},
    {"fadeout", no_fade},
    {"cue", cue},
    {"until", cue},
    {"fermata", fermata},
    {"rubato", rubato},
    {"tempo", a_tempo},
    {"repeat", "write how often behind it, such as head x2"},
    {"bis", "write how often behind it, such as head x2"},
    {"ending", "write held ending, or name a section's own in the chart: A ending 2"},
}};

constexpr std::array<std::string_view, 9> who_trades{"2s",     "4s", "8s", "twos", "fours",
                                                     "eights", "2",  "4",  "8"};

std::string_view advice_for(std::string_view word) {
    for (const auto& known : trade_words) {
        if (text::same_but_for_capitals(word, known.word)) return known.advice;
    }
    return {};
}

}  // namespace

void refuse_words_of_the_trade(std::string_view road_map, const std::vector<text::Word>& words) {
    const auto refuse = [&](const text::Word& word, std::string_view advice) {
        throw text::bad_character(
            road_map, word.offset,
            fmt::format("{} cannot name a part: {}", text::quoted(word.text), advice));
    };
    // Of D.S. and the like what could be read has been.
    for (const auto& word : words) {
        const bool sign = words.size() == 1 && word.text.size() == 4 && word.text[3] == '.';
        const auto advice = advice_for(word.text);
        if (!advice.empty() && !sign) refuse(word, advice);
    }
    const bool trades = !words.empty() && (text::same_but_for_capitals(words[0].text, "trading") ||
                                           text::same_but_for_capitals(words[0].text, "trade"));
    if (words.size() < 2 || !trades) return;
    const auto known = std::find_if(who_trades.begin(), who_trades.end(), [&](auto name) {
        return text::same_but_for_capitals(words[1].text, name);
    });
    if (known == who_trades.end()) return;
    refuse(words[1],
           "write trading: silent for a time through without the band, or practise with --silence "
           "4:4");
}

}  // namespace compline::chart
