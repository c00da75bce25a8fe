#include "take_input.hpp"

#include "command.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/files/file_io.hpp>
#include <compline/midi/smf.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <utility>

namespace compline::app {

namespace {

constexpr std::size_t largest_take = std::size_t{16} << 20U;  // bytes: days of comping

std::string fingerprint(const std::vector<std::uint8_t>& bytes) {
    const std::string text(bytes.begin(), bytes.end());
    return fmt::format("{:016x}", chart::fnv1a_64(text));
}

}  // namespace

LoadedTake read_take_file(const std::string& path, practice::TakeTexts texts) {
    const auto bytes = files::load_bytes(path, largest_take);
    return text::read_at(files::name_of(path), [&] {
        if (bytes.empty()) throw BadInput("the file is empty");
        const auto read = midi::read_smf(bytes);
        LoadedTake file{practice::read_take(read.file, texts), read.cut_at, fingerprint(bytes)};
        if (file.cut_at && !file.take.info) {
            throw text::bad_byte(*file.cut_at, "the file ends in the middle of a track");
        }
        return file;
    });
}

practice::Take load_take(const std::string& path, practice::TakeTexts texts) {
    auto [take, cut_at, unasked] = read_take_file(path, texts);
    if (cut_at) {
        say(fmt::format("{}: the take was cut short; it is read up to byte {}",
                        files::name_of(path), *cut_at));
    }
    if (take.messages.empty())
        say(fmt::format("{}: there are no notes in it", files::name_of(path)));
    return std::move(take);
}

chart::Form form_of(const practice::Take& take, const std::string& path,
                    const std::string& instead) {
    const auto name = files::name_of(path);
    if (!take.info) {
        throw BadInput(name, "it carries no chart, as takes of ours do", instead);
    }
    if (take.info->version == 1) {
        throw BadInput(name, "it is a compline.take/1, which carries no chart", instead);
    }
    return text::read_at(name, [&] { return practice::form_of(*take.info, name + ", its chart"); });
}

}  // namespace compline::app
