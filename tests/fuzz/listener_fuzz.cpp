// Any messages at any times in order, by any settings: the listener gives notes in order, each one
// possible, which fall into strums without one lost, and which the judge can judge.
#include <compline/assess/assessment.hpp>
#include <compline/chart/chart.hpp>
#include <compline/chart/form.hpp>
#include <compline/listen/listener.hpp>
#include <compline/listen/strum.hpp>
#include <compline/roadmap/road_map.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <span>
#include <vector>

using namespace compline;
using time::Seconds;

namespace {

void require(bool condition) {
    if (!condition) std::abort();
}

/// The input as a row of small decisions; past its end all are 0.
class Decisions {
  public:
    explicit Decisions(std::span<const std::uint8_t> bytes) : bytes_(bytes) {}

    [[nodiscard]] bool over() const { return at_ >= bytes_.size(); }
    std::uint8_t byte() { return over() ? std::uint8_t{0} : bytes_[at_++]; }
    /// 0 to limit - 1.
    int below(int limit) { return byte() % limit; }
    bool yes() { return below(2) == 1; }
    /// From 0 to most, in 255 steps.
    double up_to(double most) { return byte() * most / 255; }

  private:
    std::span<const std::uint8_t> bytes_;
    std::size_t at_ = 0;
};

// make_fuzz_seeds.py beside the listener's tests writes these in the same order.

guitar::Fretboard any_fretboard(Decisions& decide) {
    switch (decide.below(4)) {
        case 1:
            return {guitar::read_tuning("D2 A2 D3 G3 A3 D4"), 24, 2};
        case 2:
            return {guitar::read_tuning("G4 C4 E4 A4"), 12};
        case 3:
            return {guitar::read_tuning("F#1 B1 E2 A2 D3 G3 B3 E4"), 24};
        default:
            return guitar::Fretboard::standard();
    }
}

listen::Cleaning any_cleaning(Decisions& decide) {
    if (!decide.yes()) return {};
    listen::Cleaning cleaning;
    cleaning.ghost = Seconds(decide.up_to(0.3));
    cleaning.ghost_loudness = decide.up_to(2);
    cleaning.double_trigger = Seconds(decide.up_to(0.3));
    cleaning.flicker = Seconds(decide.up_to(0.3));
    cleaning.lift_off = Seconds(decide.up_to(0.3));
    cleaning.lift_off_loudness = decide.up_to(2);
    return cleaning;
}

listen::PickupSettings any_settings(Decisions& decide) {
    listen::PickupSettings settings;
    settings.fretboard = any_fretboard(decide);
    if (decide.yes()) settings.strings = listen::Strings{1 + decide.below(11), decide.yes()};
    settings.one_channel = decide.yes();
    settings.bend_range = decide.below(98);
    settings.delay.constant = Seconds(decide.up_to(2) - 1);
    settings.delay.cycles = decide.up_to(20);
    settings.cleaning = any_cleaning(decide);
    return settings;
}

/// From nothing to hours, the short ones finely.
Seconds any_wait(Decisions& decide) {
    const double step = decide.byte();
    return Seconds(step * step * step * step / 1e6);
}

std::vector<midi::TimedMessage> any_messages(Decisions& decide) {
    std::vector<midi::TimedMessage> messages;
    Seconds now(decide.up_to(20) - 5);
    while (!decide.over()) {
        now += any_wait(decide);
        midi::Message message;
        message.status = static_cast<std::uint8_t>(0x80 + decide.below(0x70));
        message.data1 = static_cast<std::uint8_t>(decide.below(0x80));
        if (message.data_bytes() == 2) {
            message.data2 = static_cast<std::uint8_t>(decide.below(0x80));
        }
        messages.push_back({now, message});
    }
    return messages;
}

void check_note(const listen::Note& note, const guitar::Fretboard& fretboard) {
    require(std::isfinite(note.on.count()) && std::isfinite(note.off.count()));
    require(note.on <= note.off);
    require(note.note.number() >= 0 && note.note.number() <= 127);
    require(note.velocity >= 1 && note.velocity <= 127);
    require(note.string || !note.fret);
    if (!note.string) return;
    require(*note.string >= 1 && *note.string <= fretboard.strings());
    require(note.fret == fretboard.fret(*note.string, note.note));
}

void check_notes(const std::vector<listen::Note>& notes, const guitar::Fretboard& fretboard) {
    const listen::Note* before = nullptr;
    for (const auto& note : notes) {
        check_note(note, fretboard);
        if (before != nullptr) {
            require(before->on <= note.on);
            require(before->on < note.on || before->string <= note.string);
        }
        before = &note;
    }
}

/// Every note is in one strum, and they stay in order.
void check_strums(const std::vector<listen::Note>& notes) {
    std::size_t at = 0;
    for (const auto& strum : listen::group_strums(notes)) {
        require(!strum.notes.empty());
        for (const auto& note : strum.notes) {
            require(at < notes.size());
            require(note.on == notes[at].on && note.note == notes[at].note);
            require(note.string == notes[at].string);
            ++at;
        }
    }
    require(at == notes.size());
}

const chart::Form& small_form() {
    static const chart::Form form = chart::unroll(chart::read_chart(
        "title: Four Doors\nkey: C\nmeter: 4/4\ntempo: 120\nfeel: swing\nform: [A]\nsections:\n"
        "  A: |\n    Cmaj7 A7 | Dm7 G7b9 | Cmaj7 | N.C. G7\n",
        "four-doors.yaml"));
    return form;
}

assess::Settings any_rules(Decisions& decide, time::Meter meter) {
    assess::Settings rules;
    constexpr const char* rhythms[] = {"free", "four", "1 2& 4"};
    rules.rhythm = assess::read_rhythm(rhythms[decide.below(3)], meter);
    rules.strictness = static_cast<harmony::Strictness>(decide.below(3));
    if (decide.yes()) rules.tolerance = Seconds(0.001 + decide.up_to(0.199));
    rules.pushes = decide.yes();
    return rules;
}

/// Twice, faster the second time, and two bars of it alone.
const roadmap::RoadMap& small_map() {
    static const roadmap::RoadMap map(small_form(), roadmap::Asked::of(small_form().whole(), 2),
                                      {{3, roadmap::LaysOut{roadmap::everybody}},
                                       {5, roadmap::LaysOut{roadmap::everybody, false}},
                                       {5, roadmap::NewTempo{time::Bpm(180)}}});
    return map;
}

void check_judge(const listen::Heard& heard, const listen::PickupSettings& ears, Seconds end,
                 const assess::Settings& rules) {
    const assess::Performance performance{heard.notes, ears.fretboard, end, {Seconds(3)}};
    const auto judged = assess::assess(small_map(), performance, rules);
    require(judged.totals.changes + judged.totals.uncertain ==
            static_cast<int>(judged.changes.size()));
    for (const auto& change : judged.changes) {
        require(change.cost() >= 0 && change.cost() <= 1.5);
        require(!change.lateness || std::isfinite(change.lateness->count()));
    }
}

}  // namespace

// libFuzzer calls it by this name. NOLINTNEXTLINE(readability-identifier-naming)
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    Decisions decide({data, size});
    const auto ears = any_settings(decide);
    const auto rules = any_rules(decide, small_form().chart.meter);
    const Seconds longer = any_wait(decide);
    const auto messages = any_messages(decide);
    const Seconds end = messages.empty() ? longer : messages.back().at + longer;
    const auto heard = listen::hear(messages, ears, end);
    check_notes(heard.notes, ears.fretboard);
    check_strums(heard.notes);
    check_judge(heard, ears, end, rules);
    return 0;
}
