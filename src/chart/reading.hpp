#pragma once

#include "problem_list.hpp"
#include "source_text.hpp"

namespace compline::chart {

/// What the parts of the reader share.
struct Reading {
    const SourceText& source;
    ProblemList& problems;
    bool complete = true;  ///< false: an error ended the YAML, so what is absent may be behind it
};

}  // namespace compline::chart
