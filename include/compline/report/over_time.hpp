#pragma once

#include <compline/practice/over_time.hpp>
#include <compline/report/report.hpp>

#include <string>
#include <vector>

namespace compline::report {

/// A tune that is not shown, and the words behind `compline` that show it, as a shell takes them.
struct OtherTune {
    std::string title;
    int takes = 0;
    std::vector<std::string> words;
    bool other_bars = false;  ///< of the title that is shown, by a chart that has other bars
};
/// The first few of them with their lines; nothing where there is none.
[[nodiscard]] std::string in_words(const std::vector<OtherTune>& others);

/// A sentence: how many places got better or worse, since when. Then a table, a row a place and a
/// column an evening, what is to be talked about first: what got worse, what got better, what
/// stayed wrong. What is right as ever is counted, unless all is to be listed. Plain text, no wider
/// than 80 columns; the oldest evenings share a column where they do not fit. Ends with a newline.
[[nodiscard]] std::string to_text(const practice::OverTime& over,
                                  const std::vector<OtherTune>& others,
                                  Listing listing = Listing::one_screen);

/// "schema": "compline.progress/1": all places with their figures of each evening.
[[nodiscard]] std::string to_json(const practice::OverTime& over,
                                  const std::vector<OtherTune>& others);

}  // namespace compline::report
