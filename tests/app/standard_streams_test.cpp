// What the program does when nobody reads what it writes: a standard stream that is closed, full,
// or a pipe whose reader is gone.

#include "app/program.hpp"
#include "app/pseudo_terminal.hpp"
#include "support/catch.hpp"

using namespace compline;
using namespace compline::tests;

namespace {

enum class Ends { done, bad_input };

/// A command and how it ends when all goes well.
struct Case {
    std::vector<std::string> arguments;
    Ends ends;
};

/// A pipe to write to that nobody reads any more.
class BrokenPipe {
  public:
    BrokenPipe() {
        ::close(pipe_.from);
        pipe_.from = -1;
        REQUIRE(pipe_.to < 10);  // a shell knows no others
    }
    /// As a shell names it.
    [[nodiscard]] std::string name() const { return "&" + std::to_string(pipe_.to); }

  private:
    Pipe pipe_;
};

/// The commands that need no device.
class EveryCommand {
  public:
    EveryCommand() {
        const auto take = folder_.file("take.mid").string();
        REQUIRE(run_compline({"render", blues(), take}).status == 0);
        const auto page = folder_.file("page.html").string();
        cases_ = {
            {{"--version"}, Ends::done},
            {{"--help"}, Ends::done},
            {{}, Ends::bad_input},
            {{"sing"}, Ends::bad_input},
            {{"show", blues()}, Ends::done},
            {{"check", blues()}, Ends::done},
            {{"check", blues(), folder_.file("none").string()}, Ends::bad_input},
            {{"plan", blues(), "--bars", "1-2", "--html", page, "--replace"}, Ends::done},
            {{"render", blues(), take, "--replace"}, Ends::done},
            {{"score", take, "--chart", blues()}, Ends::done},
            {{"score", blues(), "--chart", blues(), "--json"}, Ends::bad_input},
            {{"practice", folder_.file("none").string()}, Ends::bad_input},
        };
    }
    [[nodiscard]] const std::vector<Case>& cases() const { return cases_; }

  private:
    TemporaryFolder folder_;
    std::vector<Case> cases_;
};

/// How a shell makes a stream that fails: closed, full, a broken pipe.
std::vector<std::string> failing(int stream, const BrokenPipe& pipe) {
    const auto number = std::to_string(stream);
    return {number + ">&-", number + ">/dev/full", number + ">" + pipe.name()};
}

}  // namespace

TEST_CASE("a stderr that nobody reads changes no result and no status", "[app]") {
    const EveryCommand commands;
    const BrokenPipe pipe;
    for (const auto& [arguments, ends] : commands.cases()) {
        const auto out = run(command_line(arguments) + " 2>/dev/null").output;
        for (const auto& failure : failing(2, pipe)) {
            const auto ran = run(command_line(arguments) + " " + failure);
            INFO(command_line(arguments) << " " << failure << "\n" << ran.output);
            CHECK(ran.status == (ends == Ends::done ? 0 : 2));
            CHECK(ran.output == out);
        }
    }
}

TEST_CASE("results that did not reach stdout are status 1, bad input stays 2", "[app]") {
    const EveryCommand commands;
    const BrokenPipe pipe;
    for (const auto& [arguments, ends] : commands.cases()) {
        for (const auto& failure : failing(1, pipe)) {
            const auto ran = run(command_line(arguments) + " " + failure);
            INFO(command_line(arguments) << " " << failure << "\n" << ran.output);
            CHECK(ran.status == (ends == Ends::done ? 1 : 2));
            CHECK(
                (ends == Ends::bad_input ||
                 contains(ran.output, "the results could not be written to the standard output")));
        }
    }
}

TEST_CASE("all charts are read when stdout is full from the first", "[app]") {
    const TemporaryFolder folder;
    // More lines than wait in memory for a stdout that takes them.
    std::vector<std::string> arguments(100, blues());
    arguments.insert(arguments.begin(), "check");
    arguments.push_back(folder.file("none").string());
    const auto ran = run(command_line(arguments) + " >/dev/full");
    INFO(ran.output);
    CHECK(ran.status == 2);
    CHECK(contains(ran.output, folder.file("none").string()));
}

TEST_CASE("no file gets the number of a stream that was closed", "[app]") {
    const TemporaryFolder folder;
    const auto usual = folder.file("usual.mid").string();
    REQUIRE(run_compline({"render", blues(), usual}).status == 0);
    const auto out = folder.file("out.mid").string();
    CHECK(run(command_line({"render", blues(), out}) + " <&- >&- 2>&-").status == 1);
    CHECK(files::load_bytes(out) == files::load_bytes(usual));
}
