#include <compline/listen/onset_matching.hpp>

namespace compline::listen {

OnsetScore match_onsets(std::span<const time::Seconds> reference,
                        std::span<const time::Seconds> estimated, time::Seconds window) {
    if (reference.empty() || estimated.empty()) return {};
    // On a line, with one window for all, pairing the earliest that can still be paired is a
    // largest matching.
    std::size_t matched = 0;
    std::size_t r = 0;
    std::size_t e = 0;
    while (r < reference.size() && e < estimated.size()) {
        if (time::abs(reference[r] - estimated[e]) <= window) {
            ++matched;
            ++r;
            ++e;
        } else if (reference[r] < estimated[e]) {
            ++r;
        } else {
            ++e;
        }
    }
    OnsetScore score;
    score.precision = static_cast<double>(matched) / static_cast<double>(estimated.size());
    score.recall = static_cast<double>(matched) / static_cast<double>(reference.size());
    if (matched > 0) {
        score.f_measure = 2 * score.precision * score.recall / (score.precision + score.recall);
    }
    return score;
}

}  // namespace compline::listen
