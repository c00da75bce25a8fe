#include "benches.hpp"
#include "trial.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cstdio>
#include <string>
#include <thread>
#include <vector>

namespace compline::bench {

namespace {

/// Keeps one core as busy as it can be.
class BusyCore {
  public:
    BusyCore()
        : thread_([this] {
              while (!over_.load(std::memory_order_relaxed)) {
              }
          }) {}
    ~BusyCore() {
        over_ = true;
        thread_.join();
    }
    BusyCore(const BusyCore&) = delete;
    BusyCore& operator=(const BusyCore&) = delete;

  private:
    std::atomic<bool> over_ = false;
    std::thread thread_;
};

struct Source {
    const char* name;
    const char* input;  ///< for --in, before the port's name
};

/// Runs are added up until forty strums were judged for sure, thrice at most: a machine that had
/// other things to do leaves seconds that are uncertain.
void measure(const Source& source, int period, bool busy) {
    constexpr int most_runs = 3;
    std::vector<double> errors;
    double worst_ms = 0;
    int xruns = 0;
    int drops = 0;
    int runs = 0;
    while (runs < most_runs && errors.size() < outside::FortyChanges::changes - 1) {
        // Patient: after lost cycles the player and the program would count different frames.
        const outside::JackServer server({period, 48000, period == 64, true});
        std::unique_ptr<BusyCore> other_work;
        if (busy) other_work = std::make_unique<BusyCore>();
        Trial trial(source.input, outside::FortyChanges::changes, {"--times", "1"});
        const auto report = trial.report(time::Seconds(60));
        const auto more = trial.evening().errors(report);
        errors.insert(errors.end(), more.begin(), more.end());
        worst_ms = std::max(worst_ms, report.at("machine").at("worst_callback_ms").get<double>());
        xruns += report.at("xruns").get<int>();
        drops += report.at("dropped_events").get<int>();
        ++runs;
    }
    const auto off = outside::spread(errors);
    const auto ms = [&](double value) {
        return errors.empty() ? std::string("-") : fmt::format("{:.3f}", value);
    };
    fmt::print(
        "| {:<11} | {:>6} | {:<4} | {:>4} | {:>6} | {:>7} | {:>6} | {:>6} | {:>5} | {:>5} | "
        "{:>8.1f} % |\n",
        source.name, period, busy ? "busy" : "idle", runs, off.count, ms(off.mean),
        ms(off.deviation), ms(off.farthest), xruns, drops, 100 * worst_ms * 48 / period);
    std::fflush(stdout);
}

}  // namespace

void measure_lateness(bool quick) {
    fmt::print(
        "\nForty strums a run at exact frames, spread evenly over the period: measured lateness "
        "less\nthe true one, in ms. Calibration takes off the mean. At 64 frames jackd has "
        "real-time"
        "\npriority. Callback: the longest of all, the system's interruptions included, as a share "
        "of\nthe period.\n\n"
        "| source      | frames | core | runs | judged |    mean |     SD |    max | xruns | drops "
        "| "
        "  callback |\n"
        "|-------------|-------:|------|-----:|-------:|--------:|-------:|-------:|------:|------:"
        "|"
        "-----------:|\n");
    for (const bool busy : {false, true}) {
        for (const int period : {64, 128, 256, 1024}) {
            if (quick && (busy || period != 256)) continue;
            measure({"JACK port", "JACK:"}, period, busy);
            measure({"RtMidi/JACK", "RtMidi/JACK:"}, period, busy);
        }
    }
}

}  // namespace compline::bench
