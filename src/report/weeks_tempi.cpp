#include "weeks_tempi.hpp"

#include "picture.hpp"
#include "weeks_words.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace compline::report {

namespace {

void add_sums(history::ChangeSums& to, const history::ChangeSums& sums, int sign) {
    to.of += sign * sums.of;
    to.in_time += sign * sums.in_time;
}

constexpr double bands_width = 400;
constexpr double bands_height = 110;
constexpr double bands_words = 28;
constexpr double widest_pair = 96;
constexpr double band_apart = 96;  ///< "96-100" in 20
constexpr double nine_in_ten = 0.9;

/// A column as high as the share, where there is one.
void share_column(Picture& picture, const Box& room, const history::ChangeSums& sums,
                  const char* what) {
    if (sums.of == 0) return;
    const double height = room.height * sums.share_in_time();
    picture.box({room.x, room.y + room.height - height, room.width, height}, what);
}

std::string bands_picture(const std::vector<TempoBand>& bands) {
    Picture picture(bands_width, bands_height + bands_words);
    const double pair = std::min(bands_width / static_cast<double>(bands.size()), widest_pair);
    const double column = pair / 2 - 3;
    double x = 0;
    double free = 0;
    for (const auto& band : bands) {
        share_column(picture, {x + 2, 0, column, bands_height}, band.whole, "over");
        share_column(picture, {x + pair / 2, 2, column, bands_height - 2}, band.bars, "hollow");
        if (x >= free) {
            picture.words({x + 2, bands_height + 23}, band.name(), "number");
            free = x + band_apart;
        }
        x += pair;
    }
    const double clean = bands_height * (1 - nine_in_ten);
    picture.line({0, clean}, {x, clean}, "wanted");
    picture.line({0, bands_height}, {x, bands_height}, "ground");
    return picture.svg("tempi");
}

std::string column_sign(const char* what) {
    Picture picture(20, 20);
    picture.box({5, 2, 10, 16}, what);
    return picture.svg("sign");
}

std::string of_cell(const history::ChangeSums& sums) {
    return sums.of == 0 ? "-" : fmt::format("{} of {}", sums.in_time, sums.of);
}

}  // namespace

std::string TempoBand::name() const {
    return from == to ? fmt::format("{}", from) : fmt::format("{}-{}", from, to);
}

std::vector<TempoBand> tempo_bands(const std::vector<history::TempoSums>& tempi) {
    constexpr double wide = 1.08;
    std::vector<TempoBand> bands;
    for (const auto& tempo : tempi) {
        if (bands.empty() || tempo.bpm > wide * bands.back().from) {
            bands.emplace_back().from = tempo.bpm;
        }
        auto& band = bands.back();
        band.to = tempo.bpm;
        add_sums(band.whole, tempo.whole, 1);
        add_sums(band.bars, tempo.sums, 1);
        add_sums(band.bars, tempo.whole, -1);
        band.right += tempo.sums.right;
        band.times += tempo.times;
        band.clean += tempo.clean;
    }
    return bands;
}

PagePart weeks_tempi_part(const TuneWeeks& tune) {
    const auto bands = tempo_bands(tune.story.tempi);
    if (bands.size() < 2) return {};
    PageTable table("Changes in time by tempo, over all evenings",
                    {"bpm", "whole tune", "bars of it", "clean times through"});
    for (const auto& band : bands) {
        table.row({band.name(), of_cell(band.whole), of_cell(band.bars),
                   fmt::format("{} of {}", band.clean, band.times)});
    }
    const auto says = fmt::format("Changes in time at {} tempi, from {} to {} bpm.", bands.size(),
                                  bands.front().from, bands.back().to);
    const auto below = key_entry(column_sign("over"), "the whole tune") +
                       key_entry(column_sign("hollow"), "bars of it") +
                       key_entry("", "dashed: nine in ten; below: bpm");
    return {"bytempo", "In time by tempo", says, bands_picture(bands), below, table.markup()};
}

}  // namespace compline::report
