#pragma once

#include <compline/yaml/problem_list.hpp>
#include <compline/yaml/source_text.hpp>

namespace compline::yaml {

/// What the readers of a file share.
struct FileReading {
    const SourceText& source;
    ProblemList& problems;
    bool complete = true;  ///< false: an error ended the YAML, so what is absent may be behind it
};

}  // namespace compline::yaml
