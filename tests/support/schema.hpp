#pragma once

#include "support/command.hpp"

#include <string>
#include <vector>

namespace compline::tests {

/// Reports, each the text of a JSON file, against a JSON Schema in src/report. Status 0 when all
/// agree, else 1 and what does not. Needs outside_python_module("jsonschema").
CommandResult check_schema(const std::vector<std::string>& reports,
                           const std::string& schema = "report-2.schema.json");

}  // namespace compline::tests
