#include <compline/practice/time_alone.hpp>

namespace compline::practice {

Report by_time_alone(Report report) {
    if (!judges_tones(report)) return report;
    report.heard.heard_by = listen::HeardBy::sound;
    report.assessment = assess::assess(report.map, report.heard, report.settings);
    report.hints.clear();
    return report;
}

}  // namespace compline::practice
