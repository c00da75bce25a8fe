#include "smf_rules.hpp"

namespace compline::midi {

bool division_is_valid(int division, int frames_per_second) {
    switch (frames_per_second) {
        case 0:
            return division >= 1 && division <= 32767;
        case 24:
        case 25:
        case 29:
        case 30:
            return division >= 1 && division <= 255;
        default:
            return false;
    }
}

int microseconds_a_quarter(const MetaEvent& tempo) {
    if (tempo.data.size() != 3) return 0;
    int microseconds = 0;
    for (const char c : tempo.data)
        microseconds = microseconds * 256 + static_cast<std::uint8_t>(c);
    return microseconds;
}

}  // namespace compline::midi
