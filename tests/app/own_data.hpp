#pragma once

#include "support/temporary_folder.hpp"

#include <cstdlib>
#include <filesystem>

namespace compline::tests {

/// A player's own folder of data, which the program is shown while this lives.
class OwnData {
  public:
    OwnData() {
        ::setenv("XDG_DATA_HOME", folder_.path().c_str(), 1);
        std::filesystem::create_directories(takes());
    }
    ~OwnData() { ::unsetenv("XDG_DATA_HOME"); }
    OwnData(const OwnData&) = delete;
    OwnData& operator=(const OwnData&) = delete;

    [[nodiscard]] std::filesystem::path takes() const { return folder_.file("compline") / "takes"; }
    [[nodiscard]] std::filesystem::path history() const {
        return folder_.file("compline") / "history.db";
    }
    [[nodiscard]] const TemporaryFolder& folder() const { return folder_; }

  private:
    TemporaryFolder folder_;
};

}  // namespace compline::tests
