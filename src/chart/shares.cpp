#include "shares.hpp"

#include <compline/text/words.hpp>

namespace compline::chart {

std::vector<int> beats_of_signs(time::Meter meter, std::size_t signs) {
    const auto beats = static_cast<std::size_t>(meter.beats());
    if (beats == 5 && signs == 2) return {3, 2};
    if (signs == 0 || signs > beats || beats % signs != 0) return {};
    return std::vector<int>(signs, static_cast<int>(beats / signs));
}

std::string counts_that_fit(time::Meter meter) {
    std::vector<std::string> words;
    for (int n = 1; n <= meter.beats(); ++n) {
        const bool fits = !beats_of_signs(meter, static_cast<std::size_t>(n)).empty();
        if (fits) words.push_back(std::to_string(n));
    }
    return text::listed(words, "or");
}

}  // namespace compline::chart
