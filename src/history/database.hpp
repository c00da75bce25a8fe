#pragma once

#include <compline/time/units.hpp>

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

struct sqlite3;
struct sqlite3_stmt;

namespace compline::history {

// SQLite through its C library, in one small class: what goes wrong is thrown, in words for the
// player, and what is open is closed.

/// A prepared statement: values go in for its question marks, rows come out.
class Statement {
  public:
    Statement(sqlite3* database, std::string file, std::string_view sql);

    /// Begins anew with these values.
    template <typename... Values>
    Statement& with(const Values&... values) {
        begin();
        int at = 0;
        (bind(++at, values), ...);
        return *this;
    }

    /// Whether there is a row, or another one.
    [[nodiscard]] bool next();
    /// To the end; rows are passed over.
    void run();

    /// The columns of the row, from the first on.
    template <typename... Values>
    void read(Values&... values) {
        int at = 0;
        (get(at++, values), ...);
    }

  private:
    void begin();
    void bind(int at, std::int64_t value);
    void bind(int at, int value) { bind(at, std::int64_t{value}); }
    void bind(int at, bool value) { bind(at, std::int64_t{value}); }
    void bind(int at, double value);
    void bind(int at, const std::string& value);
    void bind(int at, const std::optional<double>& value);
    void bind(int at, time::BeatOfBar value) { bind(at, value.number()); }
    void get(int at, std::int64_t& value);
    void get(int at, int& value);
    void get(int at, bool& value);
    void get(int at, double& value);
    void get(int at, std::string& value);
    void get(int at, std::optional<double>& value);
    void get(int at, time::BeatOfBar& value);
    void check(int result) const;

    struct Finalize {
        void operator()(sqlite3_stmt* statement) const noexcept;
    };
    sqlite3* database_;
    std::string file_;
    std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

/// An open database. All calls throw HistoryError, or DamagedHistory where the file is no database
/// or a broken one.
///
/// Threads: one.
class Database {
  public:
    /// Opens a file that is there; where it is empty, a database begins there. Others that have it
    /// open are waited for, five seconds at most.
    explicit Database(const std::filesystem::path& file);

    void run(const std::string& sql);
    [[nodiscard]] Statement statement(std::string_view sql) {
        return {database_.get(), name_, sql};
    }
    /// Of a statement that gives one.
    [[nodiscard]] std::int64_t number(std::string_view sql);
    [[nodiscard]] std::int64_t last_row() const;
    /// As messages call it.
    [[nodiscard]] const std::string& name() const { return name_; }

  private:
    void write_ahead();

    struct Close {
        void operator()(sqlite3* database) const noexcept;
    };
    std::string name_;
    std::unique_ptr<sqlite3, Close> database_;
};

/// All of what is written while it lives, or nothing. It has the right to write from its beginning
/// on, so nobody else's writing comes between.
class Transaction {
  public:
    explicit Transaction(Database& database);
    ~Transaction();
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    /// On the disk when it returns.
    void commit();

  private:
    Database& database_;
    bool over_ = false;
};

/// What was read while it lives is of one moment.
class Snapshot {
  public:
    explicit Snapshot(Database& database);
    ~Snapshot();
    Snapshot(const Snapshot&) = delete;
    Snapshot& operator=(const Snapshot&) = delete;

  private:
    Database& database_;
};

}  // namespace compline::history
