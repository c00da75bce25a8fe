#include <compline/report/remarks.hpp>
#include <compline/report/time_through_line.hpp>

namespace compline::report {

std::string in_words(practice::Remark remark) {
    using practice::Remark;
    switch (remark) {
        case Remark::off_the_ladder:
            return "you left the loop: the ladder ends here (Home: once more from its beginning)";
        case Remark::rest_from_loop:
            return "ten minutes of one loop: rest your fretting hand. If it hurts, see a doctor";
        case Remark::rest_from_evening:
            return "45 minutes: a good moment to rest your hands. If anything hurts, see a doctor";
    }
    return "";
}

std::string ladder_line(const practice::State& state, int time_through) {
    const auto heard_by = state.lately ? state.lately->heard.heard_by : listen::HeardBy::midi;
    for (const auto& step : state.ladder) {
        if (step.time_through == time_through) return ladder_line(step, state.map, heard_by);
    }
    return "";
}

}  // namespace compline::report
