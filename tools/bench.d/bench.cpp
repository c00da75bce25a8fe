// What matters in use, measured: run it by tools/bench. Figures are for README and for comparing
// two versions on one machine; no test looks at them.
#include "bass.hpp"
#include "benches.hpp"
#include "confusion.hpp"
#include "habits.hpp"
#include "musicians.hpp"
#include "offers.hpp"
#include "pickup.hpp"
#include "voicings.hpp"
#include "weeks.hpp"

#include <compline/text/numbers.hpp>

#include <fmt/format.h>

#include <cstdio>
#include <exception>
#include <optional>
#include <string>
#include <string_view>

using namespace compline;

namespace {

int measure_all(bench::Pace pace) {
    std::vector<bench::Row> rows;
    for (const auto part :
         {bench::rendering, bench::soft_synth, bench::blocks, bench::bass_lines,
          bench::voicing_plans, bench::scoring, bench::flood, bench::reading, bench::symbols,
          bench::time_line, bench::large_view, bench::weeks_of_practice}) {
        for (auto& row : part(pace)) rows.push_back(std::move(row));
    }
    bench::print_table(rows);
    return 0;
}

struct Options {
    bool confusion = false;
    bool by_sound = false;
    bool habits = false;
    bool bass = false;
    bool voicings = false;
    bool pickup = false;
    bool musicians = false;
    bool offers = false;
    bool weeks = false;
    int slips = 0;
    std::optional<int> show;
    bool quick = false;
    std::uint64_t seed = 1;
};

template <class Number>
bool read_whole(std::string_view text, Number& number) {
    const auto count = text::read_count(text);
    number = static_cast<Number>(count.value_or(0));
    return count.has_value();
}

/// Nothing: not what the usage says.
std::optional<Options> read_options(int argc, char** argv) {
    Options options;
    for (int i = 1; i < argc; ++i) {
        const std::string_view word(argv[i]);
        const char* const number = i + 1 < argc ? argv[i + 1] : "";
        if (word == "confusion" && i == 1) {
            options.confusion = true;
        } else if (word == "habits" && i == 1) {
            options.habits = true;
        } else if (word == "bass" && i == 1) {
            options.bass = true;
        } else if (word == "voicings" && i == 1) {
            options.voicings = true;
        } else if (word == "pickup" && i == 1) {
            options.pickup = true;
        } else if (word == "musicians" && i == 1) {
            options.musicians = true;
        } else if (word == "offers" && i == 1) {
            options.offers = true;
        } else if (word == "weeks" && i == 1) {
            options.weeks = true;
        } else if (word == "--by-sound" && options.confusion) {
            options.by_sound = true;
        } else if (word == "--quick") {
            options.quick = true;
        } else if (word == "--seed" && (options.confusion || options.habits || options.pickup ||
                                        options.musicians || options.offers || options.weeks)) {
            if (!read_whole(number, options.seed)) return std::nullopt;
            ++i;
        } else if (word == "--show" &&
                   (options.confusion || options.habits || options.musicians || options.offers)) {
            if (!read_whole(number, options.show.emplace())) return std::nullopt;
            ++i;
        } else if (word == "--slips" && options.pickup) {
            if (!read_whole(number, options.slips)) return std::nullopt;
            ++i;
        } else {
            return std::nullopt;
        }
    }
    return options;
}

}  // namespace

int main(int argc, char** argv) {
    const auto options = read_options(argc, argv);
    if (!options) {
        fmt::print(
            stderr,
            "usage: bench [--quick]                       how fast; quick: a few runs of each\n"
            "       bench confusion [--by-sound] [--quick] [--seed N] [--show N]\n"
            "                                             how well the judge judges; by sound: "
            "time alone;\n"
            "                                             quick: 48 takes of 480; show: so many "
            "changes\n"
            "                                             it is wrong about\n"
            "       bench habits [--quick] [--seed N] [--show N]\n"
            "                                             whether habits and being lost are named; "
            "quick: 10\n"
            "                                             takes of each of 50; show: so many of "
            "each "
            "that are not\n"
            "       bench bass [--quick]                  what the bass lines are like; quick: 5 "
            "seeds "
            "of 50\n"
            "       bench voicings                        what plans of voicings save\n"
            "       bench musicians [--quick] [--seed N] [--show N]\n"
            "                                             voicings and bass lines as musicians "
            "count them; quick:\n"
            "                                             40 tunes by chance of 200; show: so many "
            "cases of each\n"
            "       bench offers [--quick] [--seed N] [--show N]\n"
            "                                             what is offered for takes that were "
            "played "
            "to something\n"
            "                                             else; quick: 10 of each kind of 50\n"
            "       bench pickup [--quick] [--seed N] [--slips N]\n"
            "                                             how well a rough pickup is heard; quick: "
            "20 takes of\n"
            "                                             200; slips: show so many errors\n"
            "       bench weeks [--quick] [--seed N]\n"
            "                                             whether the history sees who gets "
            "better; "
            "quick: 100\n"
            "                                             players of 1,000\n"
            "       bench live                            how live practice keeps time\n");
        return 2;
    }
    try {
        if (options->habits) {
            bench::print_habits(options->quick ? 10 : 50, options->seed, options->show.value_or(0));
            return 0;
        }
        if (options->bass) {
            bench::print_bass(options->quick ? 5 : 50);
            return 0;
        }
        if (options->voicings) {
            bench::print_voicings();
            return 0;
        }
        if (options->musicians) {
            bench::print_musicians(options->quick ? 40 : 200, options->seed,
                                   options->show.value_or(0));
            return 0;
        }
        if (options->offers) {
            bench::print_offers(options->quick ? 10 : 50, options->seed, options->show.value_or(0));
            return 0;
        }
        if (options->weeks) {
            bench::print_weeks(options->quick ? 100 : 1000, options->seed);
            return 0;
        }
        if (options->pickup) {
            bench::print_pickup(options->quick ? 20 : 200, options->seed, options->slips);
            return 0;
        }
        if (!options->confusion) {
            return measure_all(options->quick ? bench::Pace::quick : bench::Pace::thorough);
        }
        const auto print = options->by_sound ? bench::print_by_sound : bench::print_confusion;
        print(options->quick ? 48 : 480, options->seed, options->show.value_or(10));
        return 0;
    } catch (const std::exception& error) {
        fmt::print(stderr, "bench: {}\n", error.what());
        return 1;
    }
}
