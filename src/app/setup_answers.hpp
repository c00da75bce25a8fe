#pragma once

#include "command.hpp"

#include <compline/guitar/fretboard.hpp>
#include <compline/settings/settings.hpp>

#include <string>
#include <vector>

namespace compline::app {

/// What a player answers while he sets up, on its way to his settings: nothing is written until all
/// of it is, at once. What is as usual, or as it stands there already, changes nothing.
class SetupAnswers {
  public:
    /// guitar: the one whose own settings are meant; empty: the one that is set, else they hold for
    /// all. Throws BadInput where the settings cannot be read.
    explicit SetupAnswers(std::string guitar);

    /// As it is now: answered, else as it stands in the settings; empty: nowhere.
    [[nodiscard]] std::string now(const std::string& key) const;

    /// Throws BadInput for a value that nobody takes. usual: what holds where nothing is set.
    void set(const std::string& key, const std::string& value, const std::string& usual = "");
    /// As it was.
    void leave(const std::string& key);

    /// By an option, and so not asked.
    void give(const std::string& key, const std::string& value);
    [[nodiscard]] bool is_given(const std::string& key) const;

    /// The neck that is meant now.
    [[nodiscard]] guitar::Fretboard fretboard() const;

    /// What would be written, a line each.
    [[nodiscard]] std::vector<std::string> changes() const;
    /// All of it, or nothing.
    void write();

  private:
    [[nodiscard]] std::string kept(const std::string& key) const;
    [[nodiscard]] bool is_own(const std::string& key) const;

    std::vector<ProgramCommand> commands_;
    settings::KnownKeys keys_;
    settings::AllSettings kept_;
    std::string guitar_;
    bool names_guitar_;  // it is to be the one that is set
    std::vector<settings::Setting> answered_;
    std::vector<std::string> given_;
};

}  // namespace compline::app
