#include <compline/chart/chart.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <utility>

namespace compline::chart {

std::string Key::name(harmony::Accidentals style) const {
    return tonic.name(style) + (minor ? "m" : "");
}

time::Swing Chart::swing_at(time::Bpm bpm) const { return swing_of(manner, swing_ratio, bpm); }

time::Swing swing_of(const AskedManner& asked, std::optional<double> ratio, time::Bpm bpm) {
    const Feel feel = asked.feel.value_or(Feel::swing);
    if (feel == Feel::straight || feel == Feel::bossa) return time::Swing::straight();
    if (ratio) return time::Swing(*ratio);
    // Drums that nobody asked for are brushes at these tempi: band::manner_of().
    const bool brushes = asked.drums.value_or(Drums::brushes) == Drums::brushes;
    return brushes && bpm.count() < brushes_in_triplets ? time::Swing(2.0) : time::Swing::at(bpm);
}

}  // namespace compline::chart
