#include "section_reader.hpp"

#include "bar_reader.hpp"
#include "endings_reader.hpp"
#include "lines_of_bars.hpp"
#include "shares.hpp"
#include "values.hpp"

#include <compline/chart/form.hpp>
#include <compline/chart/read_manner.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/phrase.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>
#include <compline/yaml/map_reader.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <utility>

namespace compline::chart {

namespace {

using Kind = yaml::TreeNode::Kind;

bool is_settled(const yaml::TreeNode& node) { return node.kind == Kind::refused; }

std::optional<std::string> read_name(const yaml::TreeNode& key, const yaml::FileReading& reading) {
    if (is_settled(key)) return std::nullopt;
    if (key.kind != Kind::text) {
        reading.problems.add(key.offset, fmt::format("{} cannot name a section: write a name such "
                                                     "as A or Intro 2",
                                                     yaml::kind_name(key)));
        return std::nullopt;
    }
    try {
        return read_section_name(key.text);
    } catch (const text::BadInput& error) {
        reading.problems.add(key.offset, error.what());
        return std::nullopt;
    }
}

std::string no_bars(const std::string& name) {
    return fmt::format(
        "section {} has no bars: write its chords between bar lines, such as "
        "F6 | D7 | Gm7 | C7",
        text::quoted(name));
}

/// What `feel` of a section may say beside or instead of a feel.
struct SectionFeel {
    std::optional<Feel> feel;
    TimeFeel time_feel = TimeFeel::as_written;
};

/// A section knows two words more.
Feel read_feel(std::string_view word) {
    try {
        return read_feel_name(word);
    } catch (const text::BadInput&) {
        throw text::BadInput(
            "",
            fmt::format("{} is not a feel{}", text::quoted(word),
                        text::did_you_mean(word, {"swing", "straight", "bossa", "ballad",
                                                  "half-time", "double-time"})),
            "write swing, straight, bossa or ballad, and half-time or double-time beside it or "
            "alone");
    }
}

SectionFeel read_section_feel(std::string_view text) {
    const text::Phrase phrase(text);
    SectionFeel read;
    for (const auto& word : phrase.words()) {
        const bool half = text::same_but_for_capitals(word.text, "half-time");
        const bool twice = text::same_but_for_capitals(word.text, "double-time");
        if ((half || twice) && read.time_feel == TimeFeel::as_written) {
            read.time_feel = half ? TimeFeel::half_time : TimeFeel::double_time;
        } else if (!half && !twice && !read.feel) {
            read.feel = read_feel(word.text);
        } else {
            throw text::BadInput(
                fmt::format("{} is too much for one section: write a feel, "
                            "half-time or double-time, or both such as "
                            "\"bossa half-time\"",
                            text::quoted(text)));
        }
    }
    if (phrase.words().empty()) (void)read_feel(text);
    return read;
}

struct SectionTempo {
    std::optional<time::Bpm> bpm;  ///< none: out of time
};

auto rhythm_of_bars(time::Meter meter) {
    return [meter](std::string_view text) { return read_rhythm(text, meter); };
}

SectionTempo read_section_tempo(std::string_view text) {
    if (text::same_but_for_capitals(text, "rubato")) return {};
    return {read_tempo(text)};
}

/// Reads a section's value: bars, or a map with keys of its own and the bars among them.
class SectionReader {
  public:
    SectionReader(BarReader& bars, std::optional<time::Meter> meter,
                  const yaml::FileReading& reading)
        : bars_(bars), meter_(meter), reading_(reading) {}

    [[nodiscard]] Section read(const yaml::TreeNode& key, const yaml::TreeNode& value) {
        Section section;
        if (value.kind != Kind::map) {
            section.bars = read_bars(key, value);
            return section;
        }
        const yaml::MapReader map(value, "section", reading_);
        map.check_keys({"key", "meter", "tempo", "feel", "drums", "bass", "phrasing", "rhythm",
                        "bars", "endings"});
        read_own(map, section);
        const auto* const bars = map.require("bars", "bars: F6 | D7 | Gm7 | C7");
        if (bars != nullptr) section.bars = read_bars(key, *bars);
        if (const auto* const endings = map.find("endings")) {
            section.endings = EndingsReader(bars_, section.bars, reading_).read(*endings);
        }
        return section;
    }

  private:
    void read_own(const yaml::MapReader& map, Section& section) {
        section.manner = read_manner_but_feel(map);
        const auto feel = map.value_of(map.find("feel"), read_section_feel);
        section.manner.feel = feel.value_or(SectionFeel{}).feel;
        section.time_feel = feel.value_or(SectionFeel{}).time_feel;
        section.key = map.value_of(map.find("key"), read_key);
        const auto tempo = map.value_of(map.find("tempo"), read_section_tempo);
        section.rubato = tempo && !tempo->bpm;
        section.tempo = tempo ? tempo->bpm : std::nullopt;
        if (const auto* const node = map.find("meter")) {
            section.meter = map.value_of(node, read_meter);
            meter_ = section.meter;
        }
        check_time_feel(map, section.time_feel);
        if (meter_) section.rhythm = map.value_of(map.find("rhythm"), rhythm_of_bars(*meter_));
    }

    void check_time_feel(const yaml::MapReader& map, TimeFeel time_feel) const {
        if (time_feel == TimeFeel::as_written || !meter_ || felt(*meter_, time_feel)) return;
        reading_.problems.add(map.find("feel")->offset,
                              fmt::format("a bar of {} cannot be felt so: half-time needs an even "
                                          "number of beats, neither is for 6/8, 9/8 or 12/8",
                                          meter_name(*meter_)));
    }

    [[nodiscard]] std::vector<WrittenBar> read_bars(const yaml::TreeNode& key,
                                                    const yaml::TreeNode& node) {
        const auto before = reading_.problems.count();
        auto bars = bars_.read_section(lines_of_bars(node, key.offset, reading_), meter_);
        // A section without bars may have been complained about already, or have some further on.
        const bool excused = !reading_.complete || key.kind != Kind::text || is_settled(node) ||
                             reading_.problems.count() != before;
        if (bars.empty() && !excused) reading_.problems.add(key.offset, no_bars(key.text));
        return bars;
    }

    BarReader& bars_;
    std::optional<time::Meter> meter_;
    const yaml::FileReading& reading_;
};

bool has(const Sections& sections, const std::string& name) {
    return std::any_of(sections.list.begin(), sections.list.end(),
                       [&](const Section& s) { return s.name == name; });
}

}  // namespace

Sections read_sections(const yaml::TreeNode& map, std::optional<time::Meter> meter,
                       const yaml::FileReading& reading) {
    Sections sections{{}, reading.complete};
    if (map.kind != Kind::map) {
        sections.all_known = false;
        if (!is_settled(map)) {
            reading.problems.add(map.offset,
                                 fmt::format("{} where the sections were expected: write each as a "
                                             "name and its bars, such as `A: F6 | D7 | Gm7 | C7`",
                                             yaml::kind_name(map)));
        }
        return sections;
    }
    if (map.entries.empty() && reading.complete) {
        reading.problems.add(map.offset,
                             "there is no section: write one such as "
                             "`A: F6 | D7 | Gm7 | C7`");
    }
    yaml::refuse_duplicate_keys(map, reading);
    BarReader bars(reading.problems);
    for (const auto& [key, value] : map.entries) {
        const auto name = read_name(key, reading);
        auto section = SectionReader(bars, meter, reading).read(key, value);
        sections.all_known = sections.all_known && name;
        if (!name || has(sections, *name)) continue;
        section.name = *name;
        sections.list.push_back(std::move(section));
    }
    return sections;
}

}  // namespace compline::chart
