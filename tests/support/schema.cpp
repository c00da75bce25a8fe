#include "support/schema.hpp"

#include "support/temporary_folder.hpp"

#include <compline/files/file_io.hpp>

namespace compline::tests {

CommandResult check_schema(const std::vector<std::string>& reports, const std::string& schema) {
    const std::filesystem::path source(COMPLINE_SOURCE_DIR);
    const TemporaryFolder folder;
    std::string line = "/usr/bin/python3 " +
                       shell_quote((source / "tests/report/check_schema.py").string()) + " " +
                       shell_quote((source / "src/report" / schema).string());
    for (const std::string& report : reports) {
        const auto number = std::to_string(&report - reports.data() + 1);
        const auto file = folder.file("report " + number + ".json");
        files::save_text(file, report, files::Existing::keep);
        line += " " + shell_quote(file.string());
    }
    return run(line);
}

}  // namespace compline::tests
