#pragma once

#include <compline/practice/round_trip.hpp>

#include <vector>

namespace compline::tests {

/// A cable from an output back into an input, and what may be wrong with it: what an input records
/// while a train of clicks is played.
struct Wire {
    double delay = 300;  ///< frames, with a fraction: band-limited (a windowed sinc)
    double gain = 1;     ///< negative: turned over
    double echo_after = 0;
    double echo_gain = 0;  ///< against the first arrival
    double hum_hz = 0;
    double hum_db = -40;
    double hiss_db = -200;
    int lost_after_click = 1000;  ///< behind this one (from 0) all comes ...
    double lost_frames = 0;       ///< ... so much sooner
    std::vector<float> beside;    ///< what else is in the input

    [[nodiscard]] std::vector<float> recorded(const practice::ClickTrain& train) const;
};

}  // namespace compline::tests
