#include <compline/band/band.hpp>
#include <compline/band/part_writer.hpp>

#include <cassert>

namespace compline::band {

namespace {

using chart::Bass;
using chart::Drums;
using chart::Feel;

constexpr double slow_below = 80;
constexpr double fast_above = 260;

template <typename Event>
void append(std::vector<Event>& to, const std::vector<Event>& more) {
    to.insert(to.end(), more.begin(), more.end());
}

}  // namespace

Manner manner_of(const chart::AskedManner& asked, time::Bpm tempo) {
    const bool fast = tempo.count() > fast_above;
    Manner manner;
    manner.feel = asked.feel.value_or(Feel::swing);
    const bool slow = tempo.count() < slow_below || manner.feel == Feel::ballad;
    const bool bossa = manner.feel == Feel::bossa;
    const Drums drums = slow && !bossa   ? Drums::brushes
                        : fast && !bossa ? Drums::quarters
                                         : Drums::ride;
    manner.drums = asked.drums.value_or(drums);
    manner.bass = asked.bass.value_or(slow ? Bass::two_feel : Bass::walking);
    manner.breathing = asked.phrasing == chart::Phrasing::breathing;
    manner.plain_bass = asked.plain_bass;
    manner.feathered = !fast && manner.drums != Drums::quarters;
    return manner;
}

Part arrange(const roadmap::RoadMap& map, const Players& players) {
    assert(!map.goes_on());
    PartWriter writer(map, players);
    Part part;
    while (const auto time = writer.next()) {
        append(part.strokes, time->strokes);
        append(part.notes, time->notes);
        append(part.melody, time->melody);
        append(part.guitar, time->guitar);
        append(part.kicks, time->kicks);
    }
    return part;
}

}  // namespace compline::band
