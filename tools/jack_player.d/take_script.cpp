#include "take_script.hpp"

#include <compline/files/file_io.hpp>
#include <compline/midi/smf.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

namespace compline::jack {

namespace {

time::Seconds lead_of(const midi::File& file) {
    for (const auto& text : midi::flatten(file).texts) {
        if (text.type == midi::meta::marker && text.text == practice::start_marker) return text.at;
    }
    return {};
}

}  // namespace

LoadedTake load_take(const std::filesystem::path& path) {
    const auto file = midi::load_smf(path);
    return text::read_at(files::name_of(path), [&] {
        LoadedTake loaded{practice::read_take(file), lead_of(file)};
        if (loaded.take.messages.empty()) throw text::BadInput("there is nothing in it to play");
        return loaded;
    });
}

std::vector<ScriptedMessage> script_of(const practice::Take& take, time::Seconds count_in,
                                       time::SampleRate rate) {
    std::vector<ScriptedMessage> script;
    for (const auto& message : take.messages) {
        script.push_back({nearest_frame(count_in + message.at, rate).count(), message.message});
    }
    return script;
}

}  // namespace compline::jack
