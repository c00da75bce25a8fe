#include <compline/guitar/pinning.hpp>
#include <compline/practice/grips_used.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace compline::practice {

namespace {

/// A chord of a bar, all that its places ask for, and what was played for it.
struct ChordOfBar {
    int bar = 1;
    harmony::Chord chord;
    std::vector<harmony::Palette> palettes;  ///< it may come twice in the bar
    std::vector<UsedGrip> grips{};
};

ChordOfBar* find(std::vector<ChordOfBar>& all, int bar, const harmony::Chord& chord) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const ChordOfBar& one) {
        return one.bar == bar && one.chord == chord;
    });
    return found == all.end() ? nullptr : &*found;
}

std::vector<ChordOfBar> chords_of(const chart::Form& form, chart::Passage passage,
                                  harmony::Strictness strictness) {
    std::vector<ChordOfBar> all;
    for (const auto& change : roadmap::RoadMap(form, roadmap::Asked::of(passage, 1)).changes()) {
        const harmony::Palette palette(change.to, change.around, strictness);
        if (auto* known = find(all, change.bar, change.to)) {
            known->palettes.push_back(palette);
        } else {
            all.push_back({change.bar, change.to, {palette}});
        }
    }
    return all;
}

void add(const assess::Change& change, ChordOfBar& to) {
    const auto known = std::find_if(to.grips.begin(), to.grips.end(), [&](const UsedGrip& used) {
        return used.shape == *change.grip;
    });
    if (known == to.grips.end()) {
        to.grips.push_back({change.bar, change.to, *change.grip, 1});
    } else {
        ++known->times;
    }
}

std::string why_not(const guitar::Fretboard& fretboard, const guitar::Shape& shape,
                    const std::vector<harmony::Palette>& palettes) {
    for (const auto& palette : palettes) {
        if (auto why = guitar::why_not_pinned(fretboard, shape, palette)) return *why;
    }
    return "";
}

}  // namespace

std::vector<chart::Pin> GripsUsed::pins() const {
    std::vector<chart::Pin> pins;
    for (const auto& used : kept) {
        chart::Pin pin{fmt::format("{}", used.bar), used.chord, {}};
        for (int string = used.shape.strings; string >= 1; --string) {
            pin.frets.push_back(used.shape.on(string));
        }
        pins.push_back(std::move(pin));
    }
    return pins;
}

GripsUsed grips_used(const Report& report, chart::Passage passage, harmony::Strictness strictness) {
    auto chords = chords_of(report.map.form(), passage, strictness);
    for (const auto& change : report.assessment.changes) {
        const bool counts = change.grip && !change.uncertain && !change.meant;
        if (!counts) continue;
        if (auto* chord = find(chords, change.bar, change.to)) add(change, *chord);
    }
    GripsUsed used;
    for (auto& chord : chords) {
        std::stable_sort(chord.grips.begin(), chord.grips.end(),
                         [](const UsedGrip& a, const UsedGrip& b) { return a.times > b.times; });
        bool kept = false;
        for (auto& grip : chord.grips) {
            grip.why_not = why_not(report.heard.fretboard, grip.shape, chord.palettes);
            const bool keep = !kept && grip.why_not.empty();
            (keep ? used.kept : used.left_out).push_back(grip);
            kept = kept || keep;
        }
        if (!kept) used.open.push_back({chord.bar, chord.chord});
    }
    return used;
}

}  // namespace compline::practice
