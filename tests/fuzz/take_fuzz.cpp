// Any bytes, as a take's file or as one of its texts: the reader says no, or gives what is written
// and read back the same. What a take says was asked for makes a road map, or is refused; each bar
// of that can be had.

#include <compline/chart/form.hpp>
#include <compline/practice/take.hpp>
#include <compline/text/bad_input.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

using namespace compline;
using namespace compline::practice;

namespace {

void require(bool fine) {
    if (!fine) std::abort();
}

/// Twelve bars, as the seeds have them.
const chart::Form& a_form() {
    constexpr const char* chart =
        "title: Six Steps\nkey: F\ntempo: 120\nsections:\n"
        "  A: F7 | Bb7 | Cm7 F7 | D7\n  B: Gm7 | C7 | F7 | D7\nform: [A, B, A]\n";
    static const chart::Form form = chart::unroll(chart::read_chart(chart, "six-steps.yaml"));
    return form;
}

void check_bars(const roadmap::RoadMap& map) {
    constexpr std::int64_t most_asked = 100;
    const auto last = std::min(map.bars().value_or(most_asked), most_asked);
    auto end = map.bar(1).start;
    for (std::int64_t number = 1; number <= last; ++number) {
        const auto bar = map.bar(number);
        require(bar.number == number && bar.start == end && bar.written != nullptr);
        require(map.bar_at(bar.start).number == number);
        const auto begins = map.time_of(bar.start).count();
        require(std::isfinite(begins) && map.time_of(bar.end()).count() > begins);
        end = bar.end();
    }
    if (const auto times = map.times_through()) require(map.first(*times).end() == map.end());
}

void check_info(const TakeInfo& info) {
    if (info.version == 2) {
        auto begun = info;  // what the first text says
        begun.decided.clear();
        begun.ended = false;
        begun.machine.reset();
        require(read_info(to_text(begun)) == begun);
    }
    try {
        check_bars(map_of(info, in_key_of(info, a_form())));
    } catch (const text::BadInput&) {
        // It cannot have been played to this form.
    }
}

void check_file(const std::uint8_t* data, std::size_t size) {
    const auto read = midi::read_smf({data, size});
    const Take notes = read_take(read.file, TakeTexts::ignored);
    require(!notes.info && std::isfinite(notes.end.count()));
    const Take take = read_take(read.file);
    require(take.messages.size() == notes.messages.size() && take.end == notes.end);
    if (take.info) check_info(*take.info);
}

bool begins_with(const std::string& text, const std::string& with) {
    return text.compare(0, with.size(), with) == 0;
}

void check_text(const std::string& text) {
    if (begins_with(text, decision_text)) {
        const auto decision = read_decision(text);
        require(read_decision(to_text(decision)) == decision);
    } else if (begins_with(text, end_text)) {
        const auto machine = read_end(text);
        require(read_end(end_to_text(machine)) == machine);
    } else if (const auto info = read_info(text)) {
        check_info(*info);
    }
}

}  // namespace

// libFuzzer calls it by this name. NOLINTNEXTLINE(readability-identifier-naming)
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string bytes(data, data + size);
    try {
        if (begins_with(bytes, "MThd")) {
            check_file(data, size);
        } else {
            check_text(bytes);
        }
    } catch (const text::BadInput&) {
        // Said no.
    }
    return 0;
}
