#pragma once

#include <compline/chart/manner.hpp>
#include <compline/chart/rhythm.hpp>
#include <compline/harmony/chord.hpp>
#include <compline/time/meter.hpp>
#include <compline/time/swing.hpp>
#include <compline/time/units.hpp>
#include <compline/yaml/bad_file.hpp>

#include <filesystem>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace compline::chart {

// A chart as written: sections of bars, and the form that puts the sections in order.

/// Limits of a chart; a file beyond them is refused with the limit in the message.
inline constexpr double slowest_bpm = 30;
inline constexpr double fastest_bpm = 400;
inline constexpr double brushes_in_triplets = 75;      ///< bpm; see swing_of()
inline constexpr std::string_view coda_name = "Coda";  ///< the section behind `to coda`
inline constexpr int most_bars = 2000;                 ///< of the unrolled form
inline constexpr std::size_t most_bytes = 1 << 20;     ///< of the file

struct Key {
    harmony::Spelling tonic;
    bool minor = false;
    [[nodiscard]] std::string name(
        harmony::Accidentals style = harmony::Accidentals::symbols) const;
    bool operator==(const Key&) const = default;
};

/// A chord and how long it lasts in its bar. No chord: N.C. (nobody plays changes there).
struct Slot {
    time::Ticks start;  ///< from the bar line
    time::Ticks length;
    std::optional<harmony::Chord> chord;
    bool optional = false;  ///< may be left out: written in parentheses
    bool operator==(const Slot&) const = default;
};

struct WrittenBar {
    std::vector<Slot> slots;         ///< fill the bar without a gap, in order
    std::vector<time::Ticks> kicks;  ///< marked by the whole band; from the bar line, ascending
    time::Ticks hold;                ///< a fermata: how long the last chord is held beyond the bar
    bool operator==(const WrittenBar&) const = default;
};

/// The last bars of a section, where they differ from one time to the next.
struct Ending {
    std::vector<int> numbers;  ///< the times in a row that take it, from 1, ascending; one at least
    std::vector<WrittenBar> bars;
    bool operator==(const Ending&) const = default;
};

/// How fast the band feels the bars: half_time: drums, bass and swing as if the beat were twice as
/// long; double_time: half as long. The chords keep their bars.
enum class TimeFeel { as_written, half_time, double_time };

struct Section {
    std::string name;  ///< rehearsal letter
    std::vector<WrittenBar> bars;
    AskedManner manner;           ///< what the section asks for beyond the chart
    std::vector<Ending> endings;  ///< in order of their first numbers; none: it always ends alike
    std::optional<Key> key;       ///< none: the chart's; so are these
    std::optional<time::Meter> meter;
    std::optional<time::Bpm> tempo;
    TimeFeel time_feel = TimeFeel::as_written;
    bool rubato = false;           ///< out of time: nobody judges, the band waits
    std::optional<Rhythm> rhythm;  ///< what the comper means to play there
    bool operator==(const Section&) const = default;
};

/// A section's place in the form.
struct FormPart {
    std::string section;
    std::optional<int> ending;  ///< none: by how many times in a row it has come
    bool operator==(const FormPart&) const = default;
};

/// What is played once before bar 1, in the last beats of the count-in. Its bar has no number.
struct LeadIn {
    time::Ticks length;       ///< of a bar at most
    std::vector<Slot> slots;  ///< fill it, in order
    bool operator==(const LeadIn&) const = default;
};

/// Signs that send players elsewhere, as read_passage() reads them; empty: the chart has none.
struct Signs {
    std::string segno;    ///< a passage; D.S. goes back to its first bar
    std::string to_coda;  ///< after its last bar, on the way out, the section Coda follows
    std::string fine;     ///< after its last bar D.C. or D.S. al fine end
    bool operator==(const Signs&) const = default;
};

/// A voicing that the chart asks for: of a chord, in a bar, or of a chord in a bar.
struct Pin {
    std::string bars;                       ///< as read_passage() reads it; empty: everywhere
    std::optional<harmony::Chord> chord;    ///< none: every chord of those bars
    std::vector<std::optional<int>> frets;  ///< from the lowest string to string 1; none: muted
    bool operator==(const Pin&) const = default;
};

/// Words that stand over bars: "drums break". They are for who reads; nobody plays them.
struct CueWords {
    std::string bars;  ///< as read_passage() reads it; they stand over the first
    std::string words;
    bool operator==(const CueWords&) const = default;
};

struct Chart {
    std::string title;
    Key key;
    time::Meter meter{4};
    time::Bpm tempo{120};
    AskedManner manner;                 ///< of the whole chart; no feel asked for is swing
    std::optional<double> swing_ratio;  ///< none: `auto`, by tempo
    std::vector<FormPart> form;         ///< in playing order
    std::vector<Section> sections;      ///< in the order of the file
    std::optional<LeadIn> lead_in;
    std::optional<Rhythm> rhythm;  ///< what the comper means to play; none: free
    Signs signs;
    std::string road_map;                ///< what is played, see road_map_text.hpp; empty: none
    std::vector<Pin> voicings;           ///< in the order of the file
    std::vector<CueWords> cues;          ///< so are these
    std::optional<Key> written_in = {};  ///< none: in this key; see transpose.hpp

    [[nodiscard]] Feel feel() const { return manner.feel.value_or(Feel::swing); }

    /// Of the chart's own manner at a tempo: see swing_of().
    [[nodiscard]] time::Swing swing_at(time::Bpm bpm) const;

    bool operator==(const Chart&) const = default;
};

/// The swing of a manner that is asked for at a tempo: straight and bossa in even eighths, the rest
/// by the ratio written. Where that is none (`auto`), brushes below `brushes_in_triplets` play 2:1:
/// so slowly they think in triplets (common practice, no source), and what drummers do was measured
/// from 122 bpm on. Everything else goes by what drummers do at that tempo.
[[nodiscard]] time::Swing swing_of(const AskedManner& asked, std::optional<double> ratio,
                                   time::Bpm bpm);

/// A chart that cannot be read.
class ChartError : public yaml::BadFile {
  public:
    using BadFile::BadFile;
};

/// Reads a chart from YAML text; `file` is the name used in messages. Throws ChartError.
[[nodiscard]] Chart read_chart(std::string_view yaml, const std::string& file);

/// The text of a chart file, as read_chart() takes it. Throws ChartError as load_chart() does.
[[nodiscard]] std::string load_chart_text(const std::filesystem::path& path);

/// Reads a chart file. Throws ChartError, also for a file that is missing, a folder, or too large
/// (line and column 0, not printed).
[[nodiscard]] Chart load_chart(const std::filesystem::path& path);

}  // namespace compline::chart
