#include "take_script.hpp"

#include <compline/midi/file_io.hpp>
#include <compline/midi/smf.hpp>

#include <fmt/format.h>

namespace compline::jack {

namespace {

midi::File load_whole(const std::filesystem::path& path) {
    try {
        auto read = midi::read_smf(midi::load_bytes(path));
        if (!read.cut_at) return std::move(read.file);
        throw TakeError(fmt::format("{}: byte {}: the file ends in the middle of a track",
                                    path.string(), *read.cut_at));
    } catch (const midi::FileError& error) {
        throw TakeError(error.what());
    } catch (const midi::SmfError& error) {
        throw TakeError(fmt::format("{}: {}", path.string(), error.what()));
    }
}

time::Seconds lead_of(const midi::File& file) {
    for (const auto& text : midi::flatten(file).texts) {
        if (text.type == midi::meta::marker && text.text == practice::start_marker) return text.at;
    }
    return {};
}

}  // namespace

LoadedTake load_take(const std::filesystem::path& path) {
    const auto file = load_whole(path);
    try {
        LoadedTake loaded{practice::read_take(file), lead_of(file)};
        if (!loaded.take.messages.empty()) return loaded;
    } catch (const midi::SmfError& error) {
        throw TakeError(fmt::format("{}: {}", path.string(), error.what()));
    }
    throw TakeError(fmt::format("{}: there is nothing in it to play", path.string()));
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
