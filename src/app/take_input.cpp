#include "take_input.hpp"

#include "command.hpp"

#include <compline/files/file_io.hpp>
#include <compline/midi/smf.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

namespace compline::app {

namespace {

constexpr std::size_t largest_take = std::size_t{16} << 20U;  // bytes: days of comping

}  // namespace

practice::Take load_take(const std::string& path, practice::TakeTexts texts) {
    const auto bytes = files::load_bytes(path, largest_take);
    midi::ReadFile read;
    practice::Take take;
    text::read_at(files::name_of(path), [&] {
        if (bytes.empty()) throw BadInput("the file is empty");
        read = midi::read_smf(bytes);
        take = practice::read_take(read.file, texts);
        if (!read.cut_at || take.info) return;
        throw text::bad_byte(*read.cut_at, "the file ends in the middle of a track");
    });
    if (read.cut_at) {
        say(fmt::format("{}: the take was cut short; it is read up to byte {}",
                        files::name_of(path), *read.cut_at));
    }
    if (take.messages.empty())
        say(fmt::format("{}: there are no notes in it", files::name_of(path)));
    return take;
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
