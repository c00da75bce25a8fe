#pragma once

#include <compline/yaml/file_reading.hpp>
#include <compline/yaml/tree.hpp>

#include <string>
#include <string_view>

namespace compline::settings {

/// A settings file's text, read as YAML.
class SettingsText {
  public:
    /// `yaml` and `file` must outlive this object. Throws SettingsError for one that is too large.
    SettingsText(std::string_view yaml, const std::string& file);

    [[nodiscard]] const yaml::SourceText& source() const { return source_; }
    [[nodiscard]] const yaml::FileReading& reading() const { return reading_; }
    /// Nothing where the file is empty.
    [[nodiscard]] const yaml::TreeNode& root() const { return root_; }

    /// Throws SettingsError where there are any.
    void refuse_problems() const;

  private:
    const std::string& file_;
    yaml::SourceText source_;
    yaml::ProblemList problems_;
    yaml::FileReading reading_;
    yaml::TreeNode root_;
};

}  // namespace compline::settings
