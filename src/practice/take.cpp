#include <compline/assess/assessment.hpp>
#include <compline/chart/chart_hash.hpp>
#include <compline/chart/pins.hpp>
#include <compline/chart/transpose.hpp>
#include <compline/midi/stream_reader.hpp>
#include <compline/practice/take.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/phrase.hpp>

#include <string_view>
#include <utility>

namespace compline::practice {

using time::Seconds;

namespace {

[[noreturn]] midi::Message damaged_pedal() {
    throw text::BadInput("the take's text", "what came from the pedal is damaged",
                         "it is one MIDI message");
}

bool begins_with(const std::string& text, std::string_view with) {
    return text.compare(0, with.size(), with) == 0;
}

/// "compline:pedal 176 64 127": the bytes of a whole message.
midi::Message read_pedal_message(const std::string& text) {
    const text::Phrase bytes(std::string_view(text).substr(std::string_view(pedal_text).size()));
    midi::StreamReader reader;
    std::optional<midi::Message> message;
    for (const auto& word : bytes.words()) {
        const auto byte = text::read_count(word.text);
        if (!byte || *byte > 0xFF || message) return damaged_pedal();
        message = reader.push(static_cast<std::uint8_t>(*byte));
    }
    return message ? *message : damaged_pedal();
}

/// What the take says of itself, a text event at a time.
void take_in(const midi::Recording::Text& text, Take& take) {
    if (!take.info) take.info = read_info(text.text);
    if (!take.info) return;
    if (begins_with(text.text, decision_text)) {
        take.info->decided.push_back({text.at, read_decision(text.text)});
    }
    if (begins_with(text.text, pedal_text)) {
        take.pedal.push_back({text.at, read_pedal_message(text.text)});
    }
    if (begins_with(text.text, end_text)) {
        take.info->ended = true;
        take.info->machine = read_end(text.text);
    }
}

}  // namespace

std::vector<roadmap::Decision> TakeInfo::decisions() const {
    std::vector<roadmap::Decision> decisions;
    decisions.reserve(decided.size());
    for (const auto& timed : decided) decisions.push_back(timed.decision);
    return decisions;
}

bool operator==(const TakeInfo& a, const TakeInfo& b) {
    return a.version == b.version && to_text(a) == to_text(b) && a.decided == b.decided &&
           a.ended == b.ended && a.machine == b.machine;
}

Take read_take(const midi::File& file, TakeTexts texts) {
    const auto recording = midi::flatten(file);
    Take take;
    Seconds zero(0);
    for (const auto& text : recording.texts) {
        if (text.type == midi::meta::marker && text.text == start_marker && !take.marked) {
            zero = text.at;
            take.marked = true;
        }
        if (text.type != midi::meta::text) continue;
        if (texts == TakeTexts::read) take_in(text, take);
        if (text.text == interruption_text) take.interruptions.push_back(text.at);
        if (text.text == cable_out_text) take.cable.push_back({text.at, true});
        if (text.text == cable_in_text) take.cable.push_back({text.at, false});
    }
    take.messages = recording.messages;
    for (auto& timed : take.messages) timed.at = timed.at - zero;
    for (auto& at : take.interruptions) at = at - zero;
    for (auto& event : take.cable) event.at = event.at - zero;
    for (auto& timed : take.pedal) timed.at = timed.at - zero;
    if (take.info) {
        for (auto& decided : take.info->decided) decided.at = decided.at - zero;
    }
    take.end = recording.length - zero;
    return take;
}

TakeInfo info_of(const roadmap::RoadMap& map, std::string chart_text) {
    TakeInfo info;
    info.chart_text = std::move(chart_text);
    info.chart_hash = chart::chart_hash(map.form().chart);
    info.asked = map.settled();
    const auto& chart = map.form().chart;
    if (chart.written_in) info.key = chart.key.name(harmony::Accidentals::letters);
    return info;
}

namespace {

chart::Form in_key(chart::Chart chart, const std::string& name) {
    const auto key = text::read_at("its key", [&] { return chart::read_key_for(chart.key, name); });
    return chart::unroll(chart::transposed(std::move(chart), key, chart::highest_fret).chart);
}

}  // namespace

chart::Form form_of(const TakeInfo& info, const std::string& file) {
    auto chart = chart::read_chart(info.chart_text, file);
    return info.key.empty() ? chart::unroll(std::move(chart)) : in_key(std::move(chart), info.key);
}

chart::Form in_key_of(const TakeInfo& info, chart::Form form) {
    const bool minor = !info.key.empty() && info.key.back() == 'm';
    if (info.key.empty() || minor != form.chart.key.minor) return form;
    return in_key(std::move(form.chart), info.key);
}

roadmap::RoadMap map_of(const TakeInfo& info, const chart::Form& form) {
    return text::read_at("the take",
                         [&] { return roadmap::RoadMap(form, info.asked, info.decisions()); });
}

chart::Passage bars_said(const TakeInfo& info, const chart::Form& form) {
    try {
        return map_of(info, form).way().reach();
    } catch (const text::BadInput&) {
        return info.asked.way.reach();
    }
}

roadmap::RoadMap as_far_as_played(const roadmap::RoadMap& meant, bool ended, Seconds last_heard) {
    if (ended && !meant.goes_on()) return meant;
    return meant.first(assess::times_through_in(last_heard, meant));
}

}  // namespace compline::practice
