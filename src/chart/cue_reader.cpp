#include "cue_reader.hpp"

#include "values.hpp"

#include <compline/text/bad_input.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/utf8.hpp>
#include <compline/yaml/map_reader.hpp>

#include <fmt/format.h>

#include <string>

namespace compline::chart {

namespace {

using Kind = yaml::TreeNode::Kind;

constexpr std::size_t longest_cue = 40;

std::string read_words(std::string_view text) {
    const auto count = text::count_code_points(text);
    if (count == 0 || count > longest_cue || text::quoted(text) != fmt::format("\"{}\"", text)) {
        throw text::BadInput(
            fmt::format("{} is not what stands over a bar: write a few words, at "
                        "most {} characters",
                        text::quoted(text), longest_cue));
    }
    return std::string(text);
}

}  // namespace

std::vector<CueWords> read_cues(const yaml::TreeNode& map, const Form* form,
                                const yaml::FileReading& reading) {
    if (map.kind == Kind::refused) return {};
    if (map.kind != Kind::map) {
        reading.problems.add(map.offset,
                             fmt::format("{} where words over bars were expected: write bars and "
                                         "words, such as {{\"A:1\": drums break}}",
                                         yaml::kind_name(map)));
        return {};
    }
    yaml::refuse_duplicate_keys(map, reading);
    std::vector<CueWords> cues;
    const yaml::MapReader reader(map, "chart", reading);
    for (const auto& [key, value] : map.entries) {
        const auto words = reader.value_of(&value, read_words);
        if (!words || key.kind != Kind::text) continue;
        try {
            if (form != nullptr) (void)read_passage(*form, key.text);
            cues.push_back({key.text, *words});
        } catch (const text::BadInput& error) {
            reading.problems.add(key.offset, error.what());
        }
    }
    return cues;
}

}  // namespace compline::chart
