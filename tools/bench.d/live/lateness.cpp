#include "benches.hpp"
#include "trial.hpp"

#include <fmt/format.h>

#include <atomic>
#include <cstdio>
#include <thread>

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

void measure(const Source& source, int period, bool busy) {
    // Patient: after lost cycles the player and the program would count different frames.
    const outside::JackServer server({period, 48000, period == 64, true});
    std::unique_ptr<BusyCore> other_work;
    if (busy) other_work = std::make_unique<BusyCore>();
    Trial trial(source.input, outside::FortyChanges::changes, {"--passes", "1"});
    const auto report = trial.report(time::Seconds(60));
    const auto off = outside::spread(trial.evening().errors(report));
    const double period_ms = period / 48.0;
    const double worst = report.at("machine").at("worst_callback_ms").get<double>();
    fmt::print(
        "| {:<11} | {:>6} | {:<4} | {:>6} | {:>7.3f} | {:>6.3f} | {:>6.3f} | {:>5} | {:>5} | "
        "{:>8.1f} % |\n",
        source.name, period, busy ? "busy" : "idle", off.count, off.mean, off.deviation,
        off.farthest, report.at("xruns").get<int>(), report.at("dropped_events").get<int>(),
        100 * worst / period_ms);
    std::fflush(stdout);
}

}  // namespace

void measure_lateness(bool quick) {
    fmt::print(
        "\nForty strums a run at exact frames, spread evenly over the period: measured lateness "
        "less\n"
        "the true one, in ms. Calibration takes off the mean. At 64 frames jackd has real-time\n"
        "priority. The last column is the longest callback of the run, the system's interruptions\n"
        "included, as a share of the period.\n\n"
        "| source      | frames | core | judged |    mean |     SD |    max | xruns | drops |    "
        "callback |\n"
        "|-------------|-------:|------|-------:|--------:|-------:|-------:|------:|------:|------"
        "-----:|\n");
    for (const bool busy : {false, true}) {
        for (const int period : {64, 128, 256, 1024}) {
            if (quick && (busy || period != 256)) continue;
            measure({"JACK port", "JACK:"}, period, busy);
            measure({"RtMidi/JACK", "RtMidi/JACK:"}, period, busy);
        }
    }
}

}  // namespace compline::bench
