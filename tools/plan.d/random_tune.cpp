#include "random_tune.hpp"

#include <compline/simulate/chance.hpp>

#include <array>
#include <string>
#include <string_view>

namespace compline::plan_rivals {

namespace {

constexpr std::array<std::string_view, 12> roots = {"C",  "Db", "D",  "Eb", "E",  "F",
                                                    "F#", "G",  "Ab", "A",  "Bb", "B"};
constexpr std::array<std::string_view, 24> kinds = {
    "maj7", "m7",    "7",   "m7", "7",    "6", "m6", "7b9",     "m7b5", "dim7", "9",   "13",
    "7#5",  "7sus4", "6/9", "m9", "maj9", "",  "m",  "m(maj7)", "7#11", "alt",  "7#9", "m11"};

class Writer {
  public:
    explicit Writer(std::uint64_t seed) : chance_(seed) {}

    std::string chord() {
        constexpr double by_fourths = 0.6;
        constexpr std::size_t fourth = 5;
        root_ = chance_.uniform() < by_fourths ? (root_ + fourth) % roots.size()
                                               : chance_.below(roots.size());
        return std::string(roots[root_]).append(kinds[chance_.below(kinds.size())]);
    }
    bool one_alone() { return chance_.below(2) == 0; }

  private:
    simulate::Chance chance_;
    std::size_t root_ = 0;
};

}  // namespace

chart::Form random_tune(std::uint64_t seed, int bars, int chords_a_bar) {
    Writer writer(seed);
    std::string text = "title: By Chance\nkey: C\ntempo: 132\nsections:\n  A:\n";
    for (int bar = 0; bar < bars; ++bar) {
        const bool one = chords_a_bar == 0 ? writer.one_alone() : chords_a_bar == 1;
        text.append("    - \"").append(writer.chord());
        if (!one) text.append(" ").append(writer.chord());
        text.append("\"\n");
    }
    return chart::unroll(chart::read_chart(text, "a tune by chance"));
}

}  // namespace compline::plan_rivals
