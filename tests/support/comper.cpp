#include "support/comper.hpp"

#include <compline/listen/listener.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace compline::tests {

guitar::Shape shape(std::string_view text) {
    const bool hyphens = text.find('-') != std::string_view::npos;
    guitar::Shape shape;
    for (int string = 6; string >= 1; --string) {
        const auto end = hyphens ? std::min(text.find('-'), text.size()) : std::size_t{1};
        const auto fret = text.substr(0, end);
        if (fret != "x")
            shape.frets[static_cast<std::size_t>(string - 1)] = std::stoi(std::string(fret));
        text.remove_prefix(std::min(end + (hyphens ? 1 : 0), text.size()));
    }
    return shape;
}

chart::Form form_of(const std::string& bars, const std::string& key, int beats) {
    const auto yaml =
        fmt::format("title: A test\nkey: {}\nmeter: {}/4\ntempo: 120\nsections:\n  A: |\n    {}\n",
                    key, beats, bars);
    return chart::unroll(chart::read_chart(yaml, "test"));
}

chart::Form form_of(const std::vector<std::pair<std::string, std::string>>& sections,
                    const std::string& order, const std::string& key) {
    auto yaml =
        fmt::format("title: A test\nkey: {}\ntempo: 120\nform: [{}]\nsections:\n", key, order);
    for (const auto& [name, bars] : sections) yaml += fmt::format("  {}: |\n    {}\n", name, bars);
    return chart::unroll(chart::read_chart(yaml, "test"));
}

roadmap::RoadMap map_of(const chart::Form& form, double tempo, double swing, int times_through) {
    auto asked = roadmap::Asked::of(form.whole(), times_through);
    asked.tempo = time::Bpm(tempo);
    asked.swing = roadmap::AskedSwing{swing};
    return {form, asked};
}

time::Seconds tolerance_of(const roadmap::RoadMap& map) {
    return assess::auto_tolerance(map.tempo(), map.swing());
}

std::string higher(std::string_view grip, int frets) {
    auto moved = shape(grip);
    for (auto& fret : moved.frets) {
        if (fret) *fret += frets;
    }
    return moved.text();
}

Comper::Comper(const std::string& bars, double tempo, const std::string& key, int beats)
    : Comper(form_of(bars, key, beats), tempo) {}

Comper::Comper(chart::Form form, double tempo) : form_(std::move(form)), passage_(form_.whole()) {
    asked_.tempo = time::Bpm(tempo);
    asked_.swing = roadmap::AskedSwing{1};
}

Comper& Comper::swing(double ratio) {
    asked_.swing = roadmap::AskedSwing{ratio};
    return *this;
}

Comper& Comper::times(int times_through) {
    times_ = times_through;
    return *this;
}

Comper& Comper::passage(int from, int to) {
    passage_ = {from, to};
    return *this;
}

time::Ticks Comper::written(int bar, double beat) const {
    return form_.chart.meter.bar() * (bar - 1) + time::Ticks(std::llround((beat - 1) * 960));
}

Comper& Comper::by_sound() {
    heard_by_ = listen::HeardBy::sound;
    return *this;
}

Comper& Comper::interrupted(int bar, double beat) {
    interruptions_.push_back(map().time_of(written(bar, beat)));
    return *this;
}

Comper& Comper::cable_out(int from_bar, double from_beat, int to_bar, double to_beat) {
    unheard_.push_back(
        {map().time_of(written(from_bar, from_beat)), map().time_of(written(to_bar, to_beat))});
    return *this;
}

Comper& Comper::silent(int from, int to) {
    silences_.push_back({from, to});
    return *this;
}

Comper& Comper::until(int bar, double beat) {
    end_ = map().time_of(written(bar, beat));
    return *this;
}

Comper& Comper::strum(int bar, double beat, std::string_view grip, double late, double beats) {
    simulate::ScriptedStrum strum;
    strum.at = written(bar, beat);
    strum.lateness = time::from_milliseconds(late);
    strum.shape = shape(grip);
    strum.length = asked_.tempo->beat() * beats;
    strum.per_string = time::from_milliseconds(per_string_ms_);
    script_.push_back(strum);
    return *this;
}

Comper& Comper::note(int bar, double beat, int string, int fret, double late, double beats) {
    std::string grip = "x-x-x-x-x-x";
    grip.replace(static_cast<std::size_t>(6 - string) * 2, 1, std::to_string(fret));
    return strum(bar, beat, grip, late, beats);
}

Comper& Comper::spread(double ms_per_string) {
    per_string_ms_ = ms_per_string;
    return *this;
}

Comper& Comper::slid() {
    slides_.push_back(script_.size() - 1);
    return *this;
}

std::vector<listen::Note> Comper::notes() const {
    const auto board = guitar::Fretboard::standard();
    const auto map = this->map();
    listen::PickupSettings ears;
    ears.strings = listen::Strings{};
    auto notes =
        listen::hear(simulate::perform(script_, map, board), ears, time::Seconds(1e6)).notes;
    for (const auto slide : slides_) {
        const auto at = map.time_of(script_[slide].at) + script_[slide].lateness;
        for (auto& note : notes) {
            if (time::abs(note.on - at) < time::Seconds(0.001)) note.slid = true;
        }
    }
    return notes;
}

roadmap::RoadMap Comper::map() const {
    auto asked = asked_;
    asked.way = chart::Way::of(passage_, times_);
    const auto bars = passage_.bars() * times_;
    std::vector<roadmap::Decision> decided;
    for (const auto& silence : silences_) {
        decided.push_back({silence.from, roadmap::LaysOut{roadmap::everybody}});
        if (silence.to < bars)
            decided.push_back({silence.to + 1, roadmap::LaysOut{roadmap::everybody, false}});
    }
    return {form_, asked, decided};
}

assess::Assessment Comper::judged(const assess::Settings& settings) const {
    assess::Performance heard;
    heard.notes = notes();
    heard.interruptions = interruptions_;
    heard.unheard = unheard_;
    heard.heard_by = heard_by_;
    if (end_) heard.end = *end_;
    return assess::assess(map(), heard, settings);
}

assess::Change Comper::change(std::size_t n, const assess::Settings& settings) const {
    return judged(settings).changes.at(n - 1);
}

std::string Comper::verdicts(const assess::Settings& settings) const {
    std::string text;
    for (const auto& change : judged(settings).changes) {
        text += fmt::format("{}{}", text.empty() ? "" : " ", assess::name_of(change.verdict));
        if (change.tones != assess::Tones::right && change.tones != assess::Tones::none) {
            text += fmt::format("/{}", assess::name_of(change.tones));
        }
    }
    return text;
}

assess::Settings with_rhythm(std::string_view rhythm) {
    assess::Settings settings;
    settings.rhythm = assess::read_rhythm(rhythm, time::Meter(4));
    return settings;
}

}  // namespace compline::tests
