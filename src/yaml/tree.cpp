#include "tree_builder.hpp"

#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>
#include <compline/yaml/tree.hpp>

#include <fmt/format.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <array>
#include <sstream>
#include <string_view>

namespace compline::yaml {

namespace {

struct Advice {
    std::string_view parser_says;
    std::string_view we_say;
};

/// What a player most likely did when the parser complains so.
const std::array<Advice, 10> advices = {{
    {YAML::ErrorMsg::MAP_VALUE,
     "a \":\" where none is expected: put a text that holds one in quotes, and start the keys of "
     "one map in one column"},
    {YAML::ErrorMsg::MAP_KEY,
     "a key where none is expected: start the keys of one map in one column"},
    {YAML::ErrorMsg::END_OF_MAP,
     "this line does not go on with the map before it: each line is `key: value`, and the keys of "
     "one map start in one column"},
    {YAML::ErrorMsg::END_OF_SEQ,
     "this line does not go on with the list before it: each item starts with `- ` in one column"},
    {YAML::ErrorMsg::BLOCK_ENTRY,
     "a list item where none is expected: put the list on lines of its own"},
    {YAML::ErrorMsg::CHAR_IN_BLOCK,
     "nothing may follow the | that begins a block scalar: start the bars on the next line, or put "
     "a line that starts with a bar line in quotes"},
    {YAML::ErrorMsg::UNKNOWN_TOKEN,
     "a value cannot start with this character: put the value in quotes"},
    {YAML::ErrorMsg::EOF_IN_SCALAR, "the file ends inside quotes: close them"},
    {YAML::ErrorMsg::UNKNOWN_ANCHOR, "a YAML alias (*): write out what it stands for"},
    {YAML::ErrorMsg::DOC_IN_SCALAR, "--- or ... inside quotes: close the quotes before it"},
}};

std::string advice_for(const std::string& parser_says) {
    for (const auto& advice : advices) {
        // yaml-cpp 0.8 puts names behind some of its words.
        if (parser_says.starts_with(advice.parser_says)) return std::string(advice.we_say);
    }
    if (parser_says.starts_with(YAML::ErrorMsg::INVALID_ESCAPE)) {
        return "a \\ in double quotes begins an escape, and this is none: use single quotes";
    }
    return text::printable(parser_says);
}

void report(const YAML::Exception& error, const TreeBuilder& builder, ProblemList& problems) {
    const bool unclosed = error.msg == YAML::ErrorMsg::END_OF_SEQ_FLOW ||
                          error.msg == YAML::ErrorMsg::END_OF_MAP_FLOW;
    const auto bracket = builder.open_bracket();
    if (unclosed && bracket) {
        problems.end_with(*bracket,
                          "this is not YAML: the bracket opened here is not closed, or a "
                          "comma is missing in it");
        return;
    }
    const auto offset = error.mark.is_null() ? 0 : static_cast<std::size_t>(error.mark.pos);
    const bool alias = error.msg.starts_with(YAML::ErrorMsg::UNKNOWN_ANCHOR);
    problems.end_with(offset, (alias ? "" : "this is not YAML: ") + advice_for(error.msg));
}

}  // namespace

std::string kind_name(const TreeNode& node) {
    switch (node.kind) {
        case TreeNode::Kind::text:
            return "a text";
        case TreeNode::Kind::list:
            return "a list";
        case TreeNode::Kind::map:
            return "a map of keys";
        default:
            return "nothing";
    }
}

Tree read_tree(const SourceText& source, ProblemList& problems) {
    TreeBuilder builder(source, problems);
    try {
        std::istringstream text(source.readable());
        YAML::Parser parser(text);
        while (parser.HandleNextDocument(builder)) {
        }
        return {builder.take_root(), true};
    } catch (const YAML::Exception& error) {
        report(error, builder, problems);
    } catch (const StopReading& stop) {
        problems.end_with(stop.offset, stop.what);
    }
    const bool whole = builder.has_whole_document();
    return {whole ? builder.take_root() : builder.take_what_is_whole(), whole};
}

}  // namespace compline::yaml
