#include "shares.hpp"

#include <compline/chart/write_chart.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::chart {

namespace {

using time::Ticks;

/// A bar on a grid of its finest signs.
class BarPrinter {
  public:
    BarPrinter(const WrittenBar& bar, time::Meter meter)
        : bar_(bar), meter_(meter), cell_(meter.counted()) {}

    [[nodiscard]] std::string text() const {
        auto line = is_one_chord() ? symbol_at(Ticks(0)) : by_the_cell();
        if (bar_.hold > Ticks(0)) line += fmt::format("~{}", bar_.hold / meter_.beat());
        return line;
    }

  private:
    [[nodiscard]] bool is_one_chord() const { return bar_.slots.size() == 1 && bar_.kicks.empty(); }

    [[nodiscard]] std::string by_the_cell() const {
        std::string line;
        for (Ticks at; at < meter_.bar(); at += cell_) {
            line += (at > Ticks(0) ? " " : "") + sign_at(at);
        }
        return line;
    }

    [[nodiscard]] std::string sign_at(Ticks at) const {
        const auto chord = symbol_at(at);
        auto sign = (chord.empty() ? "/" : chord) + (kicks_at(at) ? "!" : "");
        if (meter_.is_compound()) return sign;
        const auto off = symbol_at(at + time::eighth_note);
        const bool kick = kicks_at(at + time::eighth_note);
        if (!off.empty() || kick) sign += "&" + off + (kick ? "!" : "");
        return sign;
    }

    /// Of the chord that begins there; empty where none does.
    [[nodiscard]] std::string symbol_at(Ticks at) const {
        const auto slot = std::find_if(bar_.slots.begin(), bar_.slots.end(),
                                       [&](const Slot& s) { return s.start == at; });
        if (slot == bar_.slots.end()) return "";
        if (slot->optional)
            return fmt::format("({})", slot->chord->symbol(harmony::Accidentals::letters));
        return slot->chord ? slot->chord->symbol(harmony::Accidentals::letters) : "N.C.";
    }

    [[nodiscard]] bool kicks_at(Ticks at) const {
        return std::binary_search(bar_.kicks.begin(), bar_.kicks.end(), at);
    }

    const WrittenBar& bar_;
    time::Meter meter_;
    Ticks cell_;
};

}  // namespace

std::string write_bar(const WrittenBar& bar, time::Meter meter) {
    return BarPrinter(bar, meter).text();
}

}  // namespace compline::chart
