#include <compline/practice/round_trip.hpp>

#include <fmt/format.h>

namespace compline::practice {

namespace {

double milliseconds(const RoundTrip& found, double frames) {
    return 1000 * frames / found.rate.hz();
}

std::string why_nothing(const RoundTrip& found) {
    return fmt::format(
        "None of {} clicks came back.\n"
        "Is the cable in the output that plays, and in the input that was named?\n"
        "Turn that output and the input's gain up a little, and try again.\n",
        found.clicks);
}

std::string why_too_soft(const RoundTrip& found) {
    return fmt::format(
        "The clicks come back too soft: {:.0f} dB of full scale, {} of {} heard.\n"
        "Turn the input's gain up a little, or the output, and try again.\n",
        found.level_db, found.heard, found.clicks);
}

std::string why_clipped() {
    return "The clicks come back so loud that the input is overloaded.\n"
           "Turn the input's gain down (an output is louder than a guitar), and try again.\n";
}

std::string why_too_late() {
    return fmt::format(
        "The clicks come back more than {:.0f} ms late: that is no cable alone.\n"
        "Is an effect, a recording program or something without a wire in between?\n"
        "Take it out, and try again.\n",
        ClickTrain::listened_for.milliseconds());
}

std::string why_unsteady(const RoundTrip& found) {
    if (found.farthest_frames <= steady_within) {
        return fmt::format(
            "Only {} of {} clicks came back: sound was lost on the way.\n"
            "Is the plug loose? Else choose a larger buffer, and try again.\n",
            found.heard, found.clicks);
    }
    return fmt::format(
        "The clicks come back unevenly: one of {} by {:.1f} frames ({:.2f} ms) beside\n"
        "the middle. Sound was lost, or the clock of the input is another one.\n"
        "End other programs, choose a larger buffer, use one interface for both.\n",
        found.heard, found.farthest_frames, milliseconds(found, found.farthest_frames));
}

std::string why_echoes(const RoundTrip& found) {
    const auto second = found.second.value_or(SecondArrival{});
    return fmt::format(
        "Each click comes back more than once: again {:.1f} ms {}, {:.0f} dB {}.\n"
        "Turn off direct monitoring, and every program that plays the input to the\n"
        "output: besides, a loop can feed back and be loud at once.\n",
        milliseconds(found, std::abs(second.after_frames)),
        second.after_frames < 0 ? "before" : "later", std::abs(second.db),
        second.db > 0 ? "louder" : "softer");
}

}  // namespace

std::string in_words(const RoundTrip& found) {
    if (found.fault) {
        switch (*found.fault) {
            case WireFault::nothing_heard:
                return why_nothing(found);
            case WireFault::too_soft:
                return why_too_soft(found);
            case WireFault::clipped:
                return why_clipped();
            case WireFault::too_late:
                return why_too_late();
            case WireFault::unsteady:
                return why_unsteady(found);
            case WireFault::echoes:
                return why_echoes(found);
        }
    }
    return fmt::format(
        "Round trip: {:.1f} frames at {} a second, which is {:.2f} ms.\n"
        "{} of {} clicks came back, none more than {:.1f} frames from that.\n",
        found.frames, found.rate.hz(), found.delay().milliseconds(), found.heard, found.clicks,
        found.farthest_frames);
}

std::string before_the_wire() {
    return "Before you plug the cable in: headphones off your ears, the amplifier down,\n"
           "the input's gain low, direct monitoring off. An output led back into an input\n"
           "can feed back and be loud at once. The clicks begin soft.\n";
}

}  // namespace compline::practice
