#pragma once

#include "bar_reader.hpp"

#include <compline/chart/chart.hpp>
#include <compline/yaml/file_reading.hpp>
#include <compline/yaml/tree.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace compline::chart {

inline constexpr int most_endings = 100;

/// Reads the endings of a section: `endings: {1: Gm7 C7 | F6 C7, 2: Gm7 C7 | F6}`; several numbers
/// in one key as `1-3` or `1 3`. The numbers begin at 1 and leave none out.
class EndingsReader {
  public:
    EndingsReader(BarReader& bars, const std::vector<WrittenBar>& body,
                  const yaml::FileReading& reading)
        : bars_(bars), body_(body), reading_(reading) {}

    [[nodiscard]] std::vector<Ending> read(const yaml::TreeNode& map);

  private:
    [[nodiscard]] std::vector<int> read_numbers(const yaml::TreeNode& key);
    void check_numbers(std::size_t place) const;

    BarReader& bars_;
    const std::vector<WrittenBar>& body_;
    const yaml::FileReading& reading_;
    std::vector<int> taken_;  ///< numbers of all endings
};

}  // namespace compline::chart
