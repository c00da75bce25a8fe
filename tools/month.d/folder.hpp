#pragma once

#include "calendar.hpp"

#include <cstdint>
#include <filesystem>
#include <set>
#include <string>
#include <vector>

namespace compline::month {

/// What a player's data folder holds: takes by date, and beside them the charts and the truth.
/// Files that are there are never replaced.
class Folder {
  public:
    /// Throws text::BadInput where takes, charts or a truth are there already.
    explicit Folder(std::filesystem::path path);

    /// Another name where one is taken: `when` is moved by a second, as often as need be.
    void find_free_second(Moment& when);
    /// As a program keeps takes: for their owner alone.
    void add_take(const Moment& when, const std::vector<std::uint8_t>& bytes) const;
    /// Once, however often it is asked.
    void copy_chart(const std::filesystem::path& chart);
    void add_truth(const std::string& text) const;

  private:
    std::filesystem::path path_;
    std::set<std::string> taken_;
    std::set<std::string> charts_;
};

}  // namespace compline::month
