#include "support/catch.hpp"

#include <compline/text/numbers.hpp>
#include <compline/text/printable.hpp>
#include <compline/yaml/map_reader.hpp>
#include <compline/yaml/text_lines.hpp>

#include <fmt/format.h>

#include <string>
#include <vector>

using namespace compline;

namespace {

int read_age(std::string_view text) {
    if (const auto age = text::read_count(text)) return *age;
    throw text::BadInput("", text::quoted(text) + " is no age", "write years, such as 7");
}

/// What is wrong with a map that knows `name` and `age`, a line each.
std::vector<std::string> problems_of(const std::string& text) {
    const yaml::SourceText source(text);
    yaml::ProblemList problems(source);
    const auto tree = yaml::read_tree(source, problems);
    const yaml::FileReading reading{source, problems, tree.complete};
    const yaml::MapReader map(*tree.root, "cat", reading);
    map.check_keys({"name", "age"}, {{"years", "age"}});
    (void)map.require("name", "name: Minka");
    (void)map.value_of(map.find("age"), read_age);
    std::vector<std::string> said;
    for (const auto& problem : problems.in_order()) {
        said.push_back(fmt::format("{}:{} {}", problem.line, problem.column, problem.what));
    }
    return said;
}

using Said = std::vector<std::string>;

/// Where a byte of the text of key `a` stands.
std::string place_in_text(const std::string& text, std::size_t byte) {
    const yaml::SourceText source(text);
    yaml::ProblemList problems(source);
    const auto tree = yaml::read_tree(source, problems);
    const auto offset = yaml::offset_in_text(tree.root->entries.front().value, byte, source);
    const auto place = source.place(offset);
    return fmt::format("{}:{}", place.line, place.column);
}

}  // namespace

TEST_CASE("a map of any file is read with its places, and every problem is told") {
    CHECK(problems_of("name: Minka\nage: 7\n").empty());
    CHECK(problems_of("name: Minka\nage: old\n") ==
          Said{"2:6 \"old\" is no age: write years, such as 7"});
    CHECK(problems_of("age: 7\nnam: Minka\n") ==
          Said{"1:1 the cat has no \"name\": add a line such as `name: Minka`",
               "2:1 \"nam\" is not a key of a cat: did you mean name?"});
    CHECK(problems_of("name: A\nyears: 7\n") == Said{"2:1 years is now age: write age:"});
    CHECK(problems_of("name: A\nname: B\n") ==
          Said{"2:1 \"name\" stands here a second time: the first is in line 1, keep one of them"});
    CHECK(problems_of("name: A\nage: [7]\n") == Said{"2:6 a list where one value was expected"});
    CHECK(problems_of("name: A\nage: 7 # years\n").empty());
    CHECK(problems_of("name: A\nage: 7 #2\n") ==
          Said{"2:8 YAML takes the rest of this line for a comment: put the value in quotes, or a "
               "blank after the # of a comment"});
}

TEST_CASE("a place in a text is the one in the file, however YAML has it written") {
    CHECK(place_in_text("a: some words\n", 5) == "1:9");
    CHECK(place_in_text("a: 'some words'\n", 5) == "1:10");
    CHECK(place_in_text("a: |\n  one\n  two\n", 5) == "3:4");
    CHECK(place_in_text("a: \"some\\twords\"\n", 5) == "1:4");  // an escape: the quotes' place
}
