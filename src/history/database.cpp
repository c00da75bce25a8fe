#include "database.hpp"

#include <compline/files/file_io.hpp>
#include <compline/history/history.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>
#include <sqlite3.h>

#include <exception>

namespace compline::history {

namespace {

constexpr int patience_ms = 5000;

/// What SQLite says, in words for the player.
std::string reason_of(int result, const char* said) {
    switch (result & 0xff) {  // without its details
        case SQLITE_FULL:
            return "the disk is full";
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            return "another program has been writing to it for five seconds";
        case SQLITE_READONLY:
        case SQLITE_PERM:
        case SQLITE_CANTOPEN:
            return "it cannot be opened for writing: look at who owns it";
        case SQLITE_IOERR:
            return "the disk does not do what it should";
        default:
            return text::printable(said);
    }
}

[[noreturn]] void refuse(const std::string& file, int result, const char* said) {
    const int kind = result & 0xff;
    if (kind == SQLITE_NOTADB || kind == SQLITE_CORRUPT) {
        throw DamagedHistory(fmt::format("{}: this is no history, or a damaged one ({})", file,
                                         text::printable(said)));
    }
    throw HistoryError(fmt::format("{}: {}", file, reason_of(result, said)));
}

}  // namespace

Statement::Statement(sqlite3* database, std::string file, std::string_view sql)
    : database_(database), file_(std::move(file)) {
    sqlite3_stmt* statement = nullptr;
    const int result =
        sqlite3_prepare_v2(database, sql.data(), static_cast<int>(sql.size()), &statement, nullptr);
    statement_.reset(statement);
    check(result);
}

void Statement::Finalize::operator()(sqlite3_stmt* statement) const noexcept {
    sqlite3_finalize(statement);
}

void Statement::check(int result) const {
    if (result == SQLITE_OK || result == SQLITE_ROW || result == SQLITE_DONE) return;
    refuse(file_, result, sqlite3_errmsg(database_));
}

void Statement::begin() {
    sqlite3_reset(statement_.get());  // what failed before was told before
    check(sqlite3_clear_bindings(statement_.get()));
}

bool Statement::next() {
    const int result = sqlite3_step(statement_.get());
    check(result);
    return result == SQLITE_ROW;
}

void Statement::run() {
    while (next()) {
    }
    sqlite3_reset(statement_.get());
}

void Statement::bind(int at, std::int64_t value) {
    check(sqlite3_bind_int64(statement_.get(), at, value));
}

void Statement::bind(int at, double value) {
    check(sqlite3_bind_double(statement_.get(), at, value));
}

void Statement::bind(int at, const std::string& value) {
    // Not copied: the statement runs before what it was given goes.
    check(sqlite3_bind_text(statement_.get(), at, value.data(), static_cast<int>(value.size()),
                            SQLITE_STATIC));
}

void Statement::bind(int at, const std::optional<double>& value) {
    if (value) bind(at, *value);  // without one it stays NULL
}

void Statement::get(int at, std::int64_t& value) {
    value = sqlite3_column_int64(statement_.get(), at);
}

void Statement::get(int at, int& value) { value = sqlite3_column_int(statement_.get(), at); }

void Statement::get(int at, bool& value) { value = sqlite3_column_int(statement_.get(), at) != 0; }

void Statement::get(int at, double& value) { value = sqlite3_column_double(statement_.get(), at); }

void Statement::get(int at, std::string& value) {
    const auto* const text = sqlite3_column_text(statement_.get(), at);
    const auto bytes = static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), at));
    value.assign(text == nullptr ? "" : reinterpret_cast<const char*>(text), bytes);
}

void Statement::get(int at, std::optional<double>& value) {
    value.reset();
    if (sqlite3_column_type(statement_.get(), at) == SQLITE_NULL) return;
    value = sqlite3_column_double(statement_.get(), at);
}

void Statement::get(int at, time::BeatOfBar& value) {
    value = time::BeatOfBar(sqlite3_column_double(statement_.get(), at));
}

Database::Database(const std::filesystem::path& file) : name_(files::name_of(file)) {
    sqlite3* database = nullptr;
    const int result = sqlite3_open_v2(file.c_str(), &database, SQLITE_OPEN_READWRITE, nullptr);
    database_.reset(database);
    if (result != SQLITE_OK) refuse(name_, result, sqlite3_errmsg(database));
    sqlite3_extended_result_codes(database, 1);
    sqlite3_busy_timeout(database, patience_ms);
    // What is removed is overwritten; no function in a stranger's database is called.
    run("PRAGMA trusted_schema = OFF; PRAGMA secure_delete = ON; PRAGMA foreign_keys = ON");
    write_ahead();
    run("PRAGMA synchronous = FULL");
}

void Database::Close::operator()(sqlite3* database) const noexcept { sqlite3_close_v2(database); }

/// Two programs that do this at the same moment do not wait for each other by themselves.
void Database::write_ahead() {
    constexpr int pause_ms = 20;
    for (int waited_ms = 0;; waited_ms += pause_ms) {
        try {
            run("PRAGMA journal_mode = WAL");
            return;
        } catch (const DamagedHistory&) {
            throw;
        } catch (const HistoryError&) {
            const bool busy = (sqlite3_errcode(database_.get()) & 0xff) == SQLITE_BUSY;
            if (!busy || waited_ms >= patience_ms) throw;
        }
        sqlite3_sleep(pause_ms);
    }
}

void Database::run(const std::string& sql) {
    const int result = sqlite3_exec(database_.get(), sql.c_str(), nullptr, nullptr, nullptr);
    if (result != SQLITE_OK) refuse(name_, result, sqlite3_errmsg(database_.get()));
}

std::int64_t Database::number(std::string_view sql) {
    auto asked = statement(sql);
    std::int64_t value = 0;
    if (asked.next()) asked.read(value);
    return value;
}

std::int64_t Database::last_row() const { return sqlite3_last_insert_rowid(database_.get()); }

Transaction::Transaction(Database& database) : database_(database) {
    database_.run("BEGIN IMMEDIATE");
}

Transaction::~Transaction() {
    if (over_) return;
    try {
        database_.run("ROLLBACK");
    } catch (const std::exception&) {
        return;  // SQLite has gone back by itself
    }
}

void Transaction::commit() {
    database_.run("COMMIT");
    over_ = true;
}

Snapshot::Snapshot(Database& database) : database_(database) { database_.run("BEGIN"); }

Snapshot::~Snapshot() {
    try {
        database_.run("COMMIT");
    } catch (const std::exception&) {
        return;  // nothing was written
    }
}

}  // namespace compline::history
