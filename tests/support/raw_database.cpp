#include "raw_database.hpp"

#include <sqlite3.h>

#include <memory>
#include <stdexcept>

namespace compline::tests {

namespace {

struct Close {
    void operator()(sqlite3* database) const { sqlite3_close(database); }
};
using Open = std::unique_ptr<sqlite3, Close>;

Open open(const std::filesystem::path& file) {
    sqlite3* database = nullptr;
    const int result = sqlite3_open(file.c_str(), &database);
    Open opened(database);
    if (result != SQLITE_OK) throw std::runtime_error(sqlite3_errmsg(database));
    return opened;
}

int keep_number(void* number, int columns, char** values, char** /*names*/) {
    if (columns > 0 && values[0] != nullptr) {
        *static_cast<std::int64_t*>(number) = std::stoll(values[0]);
    }
    return 0;
}

void run(const std::filesystem::path& file, const std::string& sql, std::int64_t* number) {
    const auto database = open(file);
    const int result = sqlite3_exec(database.get(), sql.c_str(), keep_number, number, nullptr);
    if (result != SQLITE_OK) throw std::runtime_error(sqlite3_errmsg(database.get()));
}

}  // namespace

void run_sql(const std::filesystem::path& file, const std::string& sql) {
    std::int64_t number = 0;
    run(file, sql, &number);
}

std::int64_t ask_sql(const std::filesystem::path& file, const std::string& sql) {
    std::int64_t number = 0;
    run(file, sql, &number);
    return number;
}

}  // namespace compline::tests
