#pragma once

#include "option.hpp"

#include <compline/report/voicing_page.hpp>

#include <optional>

namespace compline::app {

/// The option --paper; `usual`: by the settings, where it is not given.
[[nodiscard]] Option paper_option(std::optional<report::Paper>& paper, report::Paper& usual);

}  // namespace compline::app
