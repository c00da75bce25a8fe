#include "support/command.hpp"

#include "support/catch.hpp"

#include <sys/wait.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <stdexcept>

namespace compline::tests {

namespace {

bool present(bool found, const std::string& what) {
    if (found) return true;
    const char* required = std::getenv("COMPLINE_REQUIRE_DATA");
    if (required != nullptr && std::string(required) == "1") FAIL("not installed: " << what);
    WARN("SKIPPED: not installed: " << what);
    return false;
}

}  // namespace

CommandResult run(const std::string& command) {
    const std::string line = "{ " + command + "\n} 2>&1";
    FILE* pipe = ::popen(line.c_str(), "r");
    if (pipe == nullptr) throw std::runtime_error("no shell for: " + command);
    CommandResult result;
    std::array<char, 4096> block{};
    std::size_t count = 0;
    while ((count = std::fread(block.data(), 1, block.size(), pipe)) > 0) {
        result.output.append(block.data(), count);
    }
    const int status = ::pclose(pipe);
    result.status = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    return result;
}

std::string shell_quote(const std::string& argument) {
    std::string quoted = "'";
    for (const char c : argument) quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return quoted + "'";
}

bool outside_tool(const std::string& name) {
    return present(run("command -v " + shell_quote(name)).status == 0, name);
}

bool outside_python_module(const std::string& module) {
    const auto import = run("/usr/bin/python3 -c " + shell_quote("import " + module));
    return present(import.status == 0, "/usr/bin/python3 with module " + module);
}

}  // namespace compline::tests
