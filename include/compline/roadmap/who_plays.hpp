#pragma once

namespace compline::roadmap {

/// Those of the band that may play or lay out. A click stands for the drums.
struct WhoPlays {
    bool drums = false;
    bool bass = false;
    bool melody = false;
    bool guitar = false;

    [[nodiscard]] bool anybody() const { return drums || bass || melody || guitar; }
    [[nodiscard]] WhoPlays without(const WhoPlays& others) const {
        return {drums && !others.drums, bass && !others.bass, melody && !others.melody,
                guitar && !others.guitar};
    }
    [[nodiscard]] WhoPlays with(const WhoPlays& others) const {
        return {drums || others.drums, bass || others.bass, melody || others.melody,
                guitar || others.guitar};
    }
    bool operator==(const WhoPlays&) const = default;
};

inline constexpr WhoPlays everybody{true, true, true, true};

}  // namespace compline::roadmap
