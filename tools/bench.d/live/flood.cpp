#include "../../live.d/flood.hpp"

#include "benches.hpp"
#include "held.hpp"
#include "trial.hpp"

#include <compline/assess/assessment.hpp>
#include <compline/chart/chart.hpp>
#include <compline/files/file_io.hpp>
#include <compline/listen/listener.hpp>
#include <compline/midi/smf.hpp>
#include <compline/practice/take.hpp>

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdio>
#include <stdexcept>
#include <vector>

namespace compline::bench {

namespace {

using outside::FortyChanges;

practice::Take load(const std::filesystem::path& path) {
    return practice::read_take(midi::read_smf(files::load_bytes(path)).file);
}

/// What a judgement of all that was played takes, at its fastest; the program makes one at the end,
/// and with --verdicts one on every beat.
time::Seconds to_judge(const practice::Take& take) {
    const auto form = chart::unroll(chart::read_chart(FortyChanges::chart, "gates.yaml"));
    if (!take.info) throw std::runtime_error("the take says nothing of how it was made");
    const auto played = practice::map_of(*take.info, form);
    const auto map = played.first(assess::times_through_in(take.end, played));
    assess::Performance performance;
    performance.end = take.end;
    time::Seconds fastest(1e9);
    for (int run = 0; run < 5; ++run) {
        const auto began = Clock::now();
        performance.notes = listen::hear(take.messages, {}, take.end).notes;
        const auto judged = assess::assess(map, performance, {});
        if (judged.changes.empty()) throw std::runtime_error("nothing of the flood was judged");
        fastest = std::min(fastest, since(began));
    }
    return fastest;
}

/// Memory once a second from the first click on, in MB, until all is sent.
std::vector<double> watch(Trial& trial, time::Seconds longest) {
    std::vector<double> own;
    const auto began = Clock::now();
    while (!trial.player().all_sent()) {
        if (since(began) > longest) throw std::runtime_error("the flood did not end");
        ::usleep(1'000'000);
        own.push_back(held_by(trial.program().process()).own);
    }
    return own;
}

}  // namespace

void measure_flood(bool quick) {
    const int seconds = quick ? 12 : 60;
    const outside::JackServer server;
    const int changes = seconds * 10 / 3 - 4;  // the count-in is a bar of four
    Trial trial("JACK:", changes, {}, time::Seconds(seconds));
    (void)trial.to_first_click();
    const auto own = watch(trial, time::Seconds(seconds + 30));
    ::usleep(500'000);
    const auto stopped = Clock::now();
    trial.program().signal(SIGINT);
    const auto report = trial.report(time::Seconds(60));
    const auto to_the_end = since(stopped);
    const auto take = load(trial.take());
    const double recording =
        static_cast<double>(take.messages.size() * sizeof(midi::TimedMessage)) / (1024 * 1024);
    fmt::print(
        "\nA flood of {} bends a second and a strum on every beat, for {} s:\n"
        "  {} messages sent ({} found their cycle full), {} in the take; dropped {}, bytes that\n"
        "  made no message {}, interruptions {}\n"
        "  memory {:.1f} MB after 10 s, {:.1f} at the end, {:.1f} at most; the messages alone take "
        "{:.1f}\n"
        "  (twice that while their list grows)\n"
        "  hearing and judging all of it {:.0f} ms, {} changes; from Ctrl-C to the end {:.2f} s\n",
        outside::flood_a_second, seconds, trial.player().sent(), trial.player().unfit(),
        take.messages.size(), report.at("dropped_events").get<int>(),
        report.at("machine").at("garbled_bytes").get<int>(), report.at("xruns").get<int>(),
        own[std::min<std::size_t>(9, own.size() - 1)], own.back(),
        *std::max_element(own.begin(), own.end()), recording, to_judge(take).milliseconds(),
        report.at("changes").size(), to_the_end.count());
    std::fflush(stdout);
}

}  // namespace compline::bench
