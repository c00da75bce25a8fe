#pragma once

#include <compline/chart/form.hpp>
#include <compline/practice/take.hpp>

#include <cstddef>
#include <optional>
#include <string>

namespace compline::app {

/// A take from a file, and the byte behind which it was cut short, if it was.
struct LoadedTake {
    practice::Take take;
    std::optional<std::size_t> cut_at;
    std::string fingerprint;  ///< of the file's bytes: 16 hexadecimal digits
};
/// Throws text::BadInput, files::FileError.
[[nodiscard]] LoadedTake read_take_file(const std::string& path, practice::TakeTexts texts);

/// A take from a file; what is odd about it (cut short, without notes) is said. Throws
/// text::BadInput, files::FileError.
[[nodiscard]] practice::Take load_take(const std::string& path, practice::TakeTexts texts);

/// The chart that a take carries. Throws chart::ChartError, and text::BadInput for a take that
/// carries none; `instead`: what to do then.
[[nodiscard]] chart::Form form_of(const practice::Take& take, const std::string& path,
                                  const std::string& instead);

}  // namespace compline::app
