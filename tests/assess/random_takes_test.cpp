#include "support/catch.hpp"
#include "support/comper.hpp"
#include "support/said.hpp"
#include "support/twelve_bars.hpp"

#include <array>
#include <random>
#include <string>
#include <vector>

using namespace compline;
using tests::Comper;

// Takes in which anything may happen in any bar, at several tempi and in grips of several sizes:
// what is said of each change is what was done with it.

namespace {

constexpr int last_bar = 12;
/// Frets of the roots of twelve_bars on string 6; minor and dominant sevenths take turns.
constexpr std::array roots{10, 4, 2, 8, 6, 12, 11, 7, 3, 9, 5, 1};

std::string grip(int bar, std::size_t size) {
    constexpr std::array minor{"1x11xx", "1x111x", "131111"};
    constexpr std::array dominant{"1x12xx", "1x121x", "131211"};
    const bool is_minor = bar % 2 == 1;
    return tests::higher(is_minor ? minor[size] : dominant[size],
                         roots[static_cast<std::size_t>(bar - 1)] - 1);
}

/// The third is on string 3.
std::string with_wrong_third(int bar, std::size_t size) {
    auto wrong = tests::shape(grip(bar, size));
    *wrong.frets[2] += bar % 2 == 1 ? 1 : -1;
    return wrong.text();
}

/// One bar of a take, to be played in some way.
struct Bar {
    Comper& comper;
    int number;
    std::size_t size;
    std::string own;
    double off;   ///< a steady hand's few milliseconds
    double late;  ///< too late for the beat, and not on the off-beat
};

struct Deed {
    const char* name;
    const char* expected;
    double again_from;  ///< the beat from which the chord may be struck again
    void (*play)(const Bar&);
};

constexpr double never = 9;

const std::vector<Deed> deeds = {
    {"plain", "on_time", 2,
     [](const Bar& bar) { bar.comper.strum(bar.number, 1, bar.own, bar.off, 0.8); }},
    {"late", "late", 3,
     [](const Bar& bar) { bar.comper.strum(bar.number, 1, bar.own, bar.late, 0.6); }},
    {"wrong third", "on_time/wrong", never,
     [](const Bar& bar) {
         bar.comper.strum(bar.number, 1, with_wrong_third(bar.number, bar.size), bar.off, 0.8);
     }},
    {"pushes", "pushed", 2,
     [](const Bar& bar) { bar.comper.strum(bar.number - 1, 4.5, bar.own, bar.off, 1); }},
    {"on 2", "placed", 3,
     [](const Bar& bar) { bar.comper.strum(bar.number, 2, bar.own, bar.off, 0.8); }},
    {"old chord, then on 2", "late", 3,
     [](const Bar& bar) {
         bar.comper.strum(bar.number, 1, grip(bar.number - 1, bar.size), bar.off, 0.8);
         bar.comper.strum(bar.number, 2, bar.own, bar.off, 0.8);
     }},
    {"rests", "laid_out", never, [](const Bar&) {}},
    {"approach", "on_time", 2,
     [](const Bar& bar) {
         bar.comper.strum(bar.number - 1, 4.5, tests::higher(bar.own, 1), bar.off, 0.3);
         bar.comper.strum(bar.number, 1, bar.own, bar.off, 0.8);
     }},
    {"bass note before", "on_time", 2,
     [](const Bar& bar) {
         bar.comper.note(bar.number - 1, 4.5, 6, 3, 0, 0.3);
         bar.comper.strum(bar.number, 1, bar.own, bar.off, 0.8);
     }},
};

/// Each of these is what it says only where the bar before lets it be: an approach from a bar of
/// rest may be that bar's chord, and in bars 6 and 8 all of the old chord is in the new one.
bool is_possible(const std::string& name, const std::string& before, int bar) {
    if (name == "approach") return before != "rests";
    if (name != "old chord, then on 2") return true;
    return bar != 6 && bar != 8 && before != "rests" && before != "wrong third";
}

class Take {
  public:
    explicit Take(unsigned seed)
        : chance_(seed),
          tempo_(std::array{90.0, 120.0, 152.0, 190.0}[below(4)]),
          size_(below(3)),
          repeats_(below(2) == 0),
          comper_(tests::twelve_bars, tempo_) {
        comper_.swing(time::Swing::at(time::Bpm(tempo_)).ratio());
        for (int bar = 1; bar <= last_bar; ++bar) play(bar);
    }

    [[nodiscard]] const Comper& comper() const { return comper_; }
    [[nodiscard]] const Deed& done(int bar) const {
        return *done_.at(static_cast<std::size_t>(bar - 1));
    }

  private:
    std::size_t below(std::size_t n) { return chance_() % n; }

    double late() {
        const double tolerance = tests::tolerance_of(comper_.map()).milliseconds();
        const time::Bpm bpm(tempo_);
        const auto off_beat = bpm.beat() - comper_.map().swing().short_note(bpm);
        const double room = off_beat.milliseconds() - 2 * tolerance - 45;
        return tolerance + 35 + static_cast<double>(below(static_cast<std::size_t>(room)));
    }

    /// Something else than plain in two bars of three, but for the first and the last.
    const Deed& choose(int bar) {
        const auto n = below(deeds.size() + 3);
        const bool plain = bar == 1 || bar == last_bar || n >= deeds.size() ||
                           !is_possible(deeds[n].name, done(bar - 1).name, bar);
        return deeds[plain ? 0 : n];
    }

    void play(int bar) {
        const auto& deed = choose(bar);
        const double off = static_cast<double>(below(17)) - 8;
        const Bar here{comper_, bar, size_, grip(bar, size_), off, late()};
        deed.play(here);
        for (double beat = deed.again_from; repeats_ && beat < 4; ++beat) {
            comper_.strum(bar, beat, here.own, off, 0.7);
        }
        done_.push_back(&deed);
    }

    std::mt19937 chance_;
    double tempo_;
    std::size_t size_;
    bool repeats_;
    Comper comper_;
    std::vector<const Deed*> done_;
};

std::string in_words(const assess::Change& change) {
    std::string text(assess::name_of(change.verdict));
    if (change.tones == assess::Tones::wrong) text += "/wrong";
    if (change.tones == assess::Tones::incomplete) text += "/incomplete";
    return text;
}

}  // namespace

TEST_CASE("whatever happens in a take, each change is what was done with it and no other is") {
    for (unsigned seed = 1; seed <= 300; ++seed) {
        const Take take(seed);
        const auto judged = take.comper().judged();
        REQUIRE(judged.changes.size() == last_bar);
        for (const auto& change : judged.changes) {
            INFO("take " << seed << ", bar " << change.bar << ", " << take.done(change.bar).name
                         << ": " << tests::said(change));
            CHECK(in_words(change) == take.done(change.bar).expected);
        }
    }
}
