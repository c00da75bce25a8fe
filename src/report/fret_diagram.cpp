#include "fret_window.hpp"

#include <compline/report/fret_diagram.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace compline::report {

namespace {

const std::string no_label(3, ' ');

/// From the left edge to the right one.
std::vector<int> strings_across(int strings, Hand hand) {
    std::vector<int> across;
    across.reserve(static_cast<std::size_t>(strings));
    for (int i = 0; i < strings; ++i) across.push_back(hand == Hand::right ? strings - i : i + 1);
    return across;
}

/// What stands above the strings: muted, open.
std::string marks(const guitar::Shape& shape, const std::vector<int>& across) {
    std::string line;
    for (const int string : across) {
        const auto& fret = shape.on(string);
        if (!line.empty()) line += ' ';
        line += !fret ? 'x' : *fret == 0 ? 'o' : ' ';
    }
    return line;
}

std::string upper_edge(std::size_t strings, bool nut) {
    std::string line = nut ? "╒" : "┌";
    for (std::size_t i = 1; i < strings; ++i) {
        const bool last = i + 1 == strings;
        line += nut ? (last ? "═╕" : "═╤") : (last ? "─┐" : "─┬");
    }
    return line;
}

/// One fret: a finger's number where it frets, a heavy line where it lies across.
class FretLine {
  public:
    FretLine(const guitar::Grip& grip, int fret) : grip_(grip) {
        for (const auto& hold : grip.holds()) {
            if (hold.fret == fret && hold.is_barre()) barre_ = hold;
        }
        fret_ = fret;
    }

    [[nodiscard]] std::string text(const std::vector<int>& across) const {
        std::string line = at(across.front());
        for (std::size_t i = 1; i < across.size(); ++i) {
            line += lies_on(across[i - 1]) && lies_on(across[i]) ? "━" : " ";
            line += at(across[i]);
        }
        return line;
    }

  private:
    [[nodiscard]] bool lies_on(int string) const {
        return barre_ && barre_->high <= string && string <= barre_->low;
    }
    [[nodiscard]] std::string at(int string) const {
        if (grip_.shape.on(string) == fret_) {
            const auto name = name_of(grip_.on(string));
            return name.empty() ? "●" : std::string(name);
        }
        return lies_on(string) ? "┿" : "│";
    }

    const guitar::Grip& grip_;
    int fret_ = 0;
    std::optional<guitar::Grip::Hold> barre_;
};

}  // namespace

std::vector<std::string> fret_diagram(const guitar::Grip& grip, int frets, Hand hand) {
    const auto across = strings_across(grip.shape.strings, hand);
    const auto window = window_of(grip.shape);
    std::vector<std::string> lines = {no_label + marks(grip.shape, across),
                                      no_label + upper_edge(across.size(), window.at_nut())};
    for (int i = 0; i < std::max(frets, window.frets); ++i) {
        const int fret = window.first + i;
        const bool labelled = i == 0 && !window.at_nut();
        lines.push_back((labelled ? fmt::format("{:>2} ", fret) : no_label) +
                        FretLine(grip, fret).text(across));
    }
    return lines;
}

}  // namespace compline::report
