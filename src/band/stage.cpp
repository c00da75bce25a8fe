#include <compline/band/place.hpp>

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>

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
    throw BandError(fmt::format("\"{}\" is nobody in the band: write {}", name, chairs));
}

/// What a list of "who=how much" says, one at a time.
struct Wish {
    std::string_view who;
    std::string_view how_much;
};

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
    return text;
}

std::vector<Wish> wishes_in(std::string_view text, std::string_view example) {
    std::vector<Wish> wishes;
    while (true) {
        const auto comma = std::min(text.find(','), text.size());
        const auto item = trimmed(text.substr(0, comma));
        const auto equals = item.find('=');
        if (equals == std::string_view::npos) {
            throw BandError(fmt::format("\"{}\" does not say who and how much: write such as {}",
                                        item, example));
        }
        wishes.push_back({trimmed(item.substr(0, equals)), trimmed(item.substr(equals + 1))});
        if (comma == text.size()) return wishes;
        text.remove_prefix(comma + 1);
    }
}

double number(const Wish& wish, double least, double most, std::string_view unit) {
    auto text = wish.how_much;
    if (text.size() > 1 && text[0] == '+' && text[1] != '-') text.remove_prefix(1);
    double value = 0;
    const auto* const end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, value);
    const bool good = read.ec == std::errc() && read.ptr == end && std::isfinite(value);
    if (!good || value < least || value > most) {
        throw BandError(fmt::format("\"{}\" for {}: write {} from {:g} to {:g}", wish.how_much,
                                    wish.who, unit, least, most));
    }
    return value;
}

}  // namespace

std::string_view name_of(Chair chair) { return names[static_cast<std::size_t>(chair)]; }

void read_placement(std::string_view text, Stage& stage) {
    const double most = furthest_behind.milliseconds();
    for (const auto& wish : wishes_in(text, "bass=+8,ride=-4")) {
        const auto behind = time::from_milliseconds(number(wish, -most, most, "milliseconds"));
        for (const auto chair : chairs_named(wish.who)) {
            if (chair == Chair::count) {
                throw BandError("the count stands on the beat: it is what all else is laid beside");
            }
            stage.seat(chair).behind = behind;
        }
    }
}

void read_mix(std::string_view text, Stage& stage) {
    for (const auto& wish : wishes_in(text, "drums=-6,bass=0,count=3")) {
        const bool off = wish.how_much == "off";
        const double gain =
            off ? 0.0 : std::pow(10.0, number(wish, -60, 12, "off, or decibels") / 20.0);
        for (const auto chair : chairs_named(wish.who)) {
            stage.seat(chair).gain = static_cast<float>(gain);
        }
    }
}

void read_pan(std::string_view text, Stage& stage) {
    for (const auto& wish : wishes_in(text, "bass=-0.5,drums=0.5")) {
        const auto pan = static_cast<float>(number(wish, -1, 1, "a number (-1 is left, 1 right)"));
        for (const auto chair : chairs_named(wish.who)) stage.seat(chair).pan = pan;
    }
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
