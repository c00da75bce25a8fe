#pragma once

#include <compline/history/judged_take.hpp>
#include <compline/history/tune_history.hpp>

#include <filesystem>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace compline::history {

// What weeks of practice left behind, in one file: an SQLite database in write-ahead mode, forced
// to the disk at each commit. It is a copy: the takes are the truth, and it can be made anew from
// them. Whatever is written is one transaction; what was acknowledged survives a program that is
// killed and a machine that loses its power, and half of it is never there.
//
// Several programs may have it open; one that writes waits for another, five seconds at most.

/// The history cannot be opened, read or written. The text names the file and the reason.
class HistoryError : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

/// The file is no history, or a damaged one: what is asked of it cannot be known.
class DamagedHistory : public HistoryError {
  public:
    using HistoryError::HistoryError;
};

/// How a take stands in it.
struct KnownTake {
    std::string fingerprint;
    std::string folder;
    std::string file;
    std::string player;
    std::string made;
    std::string title;
    int rules = 0;
    bool of_ours = true;
};

struct PlayerSeen {
    std::string name;  ///< empty: not said
    int evenings = 0;
    std::string last;  ///< evening
};

/// Threads: one. Real-time: no: a commit takes milliseconds.
class History {
  public:
    /// Opens the file; makes it, for its owner alone, where it is not there and `make` says so. An
    /// older one is brought up to date. Throws HistoryError; text::BadInput for one that a later
    /// version of the program wrote.
    enum class Make { yes, no };
    explicit History(std::filesystem::path file, Make make = Make::yes);
    ~History();
    History(History&&) noexcept;
    History& operator=(History&&) noexcept;

    /// Puts a take in; one of the same bytes is replaced. On the disk when it returns.
    void enter(const JudgedTake& judged);
    /// Several, in one transaction.
    void enter(const std::vector<JudgedTake>& judged);

    /// In order of when they were made.
    [[nodiscard]] std::vector<KnownTake> takes() const;
    [[nodiscard]] std::optional<KnownTake> find(const std::string& fingerprint) const;
    /// All rows of a take.
    [[nodiscard]] std::optional<JudgedTake> read(const std::string& fingerprint) const;

    /// Removes them for good, their bytes too, and tunes of which nothing is left.
    void forget(const std::vector<std::string>& fingerprints);
    /// ... and the player's homework.
    void forget_player(const std::string& player);

    [[nodiscard]] std::vector<PlayerSeen> players() const;
    /// Tunes of a player, the last played first. Their evenings on `since` and later; empty: all.
    [[nodiscard]] std::vector<TuneHistory> tunes(const std::string& player,
                                                 const std::string& since = "") const;
    /// A tune by its chart (its own key); a chart that changed keeps the evenings on which bars and
    /// chords were the same, place by place. None where it was never played.
    [[nodiscard]] std::optional<TuneHistory> tune(const std::string& player, const KeptChart& chart,
                                                  const std::string& since = "") const;

    std::int64_t set_homework(const Homework& homework, const KeptChart& chart);
    void drop_homework(std::int64_t id);
    [[nodiscard]] std::vector<Homework> homework(const std::string& player) const;
    /// Who has any, by name, whether anything was played or not.
    [[nodiscard]] std::vector<std::string> given_homework() const;

    /// What is wrong with the file, as SQLite says it; empty: nothing.
    [[nodiscard]] std::vector<std::string> check() const;

  private:
    class Store;
    std::unique_ptr<Store> store_;
};

}  // namespace compline::history
