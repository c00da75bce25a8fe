#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace compline::chart {

// How the band plays a stretch of the tune, in the trade's words. A chart, a section or a chorus
// may ask for any of them; where nobody asks, the tempo decides (band::Manner).

/// swing: by the swing ratio; straight: even eighths; bossa: even eighths over a cross-stick
/// pattern and a root-fifth bass; ballad: slow, brushes stirring, the bass in two.
enum class Feel { swing, straight, bossa, ballad };

/// What the drummer plays: the ride's own rhythm; brushes on the snare; the hi-hat by foot alone,
/// on 2 and 4; the ride in quarter notes; nothing.
enum class Drums { ride, brushes, hats, quarters, off };

/// What the bass plays: a line in quarter notes; two notes a bar; the root where a chord starts;
/// nothing.
enum class Bass { walking, two_feel, roots, off };

/// How the drummer keeps time. even: every bar alike, as a metronome does; breathing: he plays in
/// phrases of four bars, louder and softer, with other rides and light fills. Both are exact in
/// time.
enum class Phrasing { even, breathing };

/// What somebody asks for; none: not asked.
struct AskedManner {
    std::optional<Feel> feel;
    std::optional<Drums> drums;
    std::optional<Bass> bass;
    bool plain_bass = false;  ///< neither skip notes nor dead ones
    std::optional<Phrasing> phrasing = {};
    bool operator==(const AskedManner&) const = default;

    /// What `closer` leaves open stands as it is here: a chorus over a section over the chart. Who
    /// names the bass anew also says whether it is plain.
    [[nodiscard]] AskedManner with(const AskedManner& closer) const {
        return {closer.feel ? closer.feel : feel, closer.drums ? closer.drums : drums,
                closer.bass ? closer.bass : bass, closer.plain_bass || (!closer.bass && plain_bass),
                closer.phrasing ? closer.phrasing : phrasing};
    }
};

[[nodiscard]] std::string_view name_of(Feel feel);
[[nodiscard]] std::string_view name_of(Drums drums);
[[nodiscard]] std::string_view name_of(Bass bass);
[[nodiscard]] std::string_view name_of(Phrasing phrasing);

/// Nothing when it is none of the names; capitals do not count.
[[nodiscard]] std::optional<Feel> find_feel(std::string_view name);
[[nodiscard]] std::optional<Drums> find_drums(std::string_view name);
[[nodiscard]] std::optional<Bass> find_bass(std::string_view name);
[[nodiscard]] std::optional<Phrasing> find_phrasing(std::string_view name);

/// What a manner asks for, in one line: "bossa, two-feel, brushes", "no drums"; empty when nothing.
[[nodiscard]] std::string in_words(const AskedManner& manner);

}  // namespace compline::chart
