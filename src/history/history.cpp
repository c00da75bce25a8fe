#include "charts.hpp"
#include "database.hpp"
#include "evening_sums.hpp"
#include "rows.hpp"
#include "schema.hpp"
#include "tune_reader.hpp"

#include <compline/files/file_io.hpp>
#include <compline/history/history.hpp>

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <set>
#include <system_error>

namespace compline::history {

namespace {

/// SQLite would make it for whoever the umask lets.
void make_for_owner_alone(const std::filesystem::path& file) {
    const int descriptor = ::open(file.c_str(), O_CREAT | O_RDWR | O_CLOEXEC, 0600);
    if (descriptor < 0) {
        const std::error_code why(errno, std::generic_category());
        throw HistoryError(
            fmt::format("{}: the history cannot be made: {}", files::name_of(file), why.message()));
    }
    ::close(descriptor);
}

void refuse_missing(const std::filesystem::path& file) {
    std::error_code unknown;
    if (std::filesystem::exists(file, unknown)) return;
    throw HistoryError(fmt::format("{}: there is no history here", files::name_of(file)));
}

std::filesystem::path made(const std::filesystem::path& file, History::Make make) {
    if (make == History::Make::yes) {
        make_for_owner_alone(file);
    } else {
        refuse_missing(file);
    }
    return file;
}

constexpr const char* known_columns =
    "t.fingerprint, t.folder, t.file, t.player, t.made, c.title, t.rules, t.of_ours "
    "FROM take AS t JOIN chart AS c ON c.id = t.chart";

KnownTake read_known(Statement& row) {
    KnownTake take;
    row.read(take.fingerprint, take.folder, take.file, take.player, take.made, take.title,
             take.rules, take.of_ours);
    return take;
}

}  // namespace

class History::Store {
  public:
    explicit Store(const std::filesystem::path& file) : database(file) {
        bring_up_to_date(database);
    }

    /// In a transaction; evenings that it belonged to are to be summed then.
    void enter(const JudgedTake& judged, std::set<EveningKey>& evenings) {
        take_out(judged.take.fingerprint, evenings);
        const auto chart = chart_row(database, judged.chart, judged.take.made);
        write_take(database, chart, judged);
        evenings.insert({judged.take.player, chart, judged.take.evening});
    }

    void take_out(const std::string& fingerprint, std::set<EveningKey>& evenings) {
        auto asked =
            database.statement("SELECT player, chart, evening FROM take WHERE fingerprint = ?");
        if (!asked.with(fingerprint).next()) return;
        EveningKey evening;
        asked.read(evening.player, evening.chart, evening.date);
        evenings.insert(evening);
        asked = database.statement("DELETE FROM take WHERE fingerprint = ?");
        asked.with(fingerprint).run();
    }

    void settle(const std::set<EveningKey>& evenings) {
        for (const auto& evening : evenings) sum_evening(database, evening);
        remove_unused_charts(database);
    }

    /// What was removed is in the log still, until that is taken into the file.
    void shred_log() { database.run("PRAGMA wal_checkpoint(TRUNCATE)"); }

    Database database;
};

History::History(std::filesystem::path file, Make make)
    : store_(std::make_unique<Store>(made(file, make))) {}
History::~History() = default;
History::History(History&&) noexcept = default;
History& History::operator=(History&&) noexcept = default;

void History::enter(const JudgedTake& judged) { enter(std::vector<JudgedTake>{judged}); }

void History::enter(const std::vector<JudgedTake>& judged) {
    Transaction transaction(store_->database);
    std::set<EveningKey> evenings;
    for (const auto& take : judged) store_->enter(take, evenings);
    store_->settle(evenings);
    transaction.commit();
}

std::vector<KnownTake> History::takes() const {
    auto asked =
        store_->database.statement(fmt::format("SELECT {} ORDER BY t.made, t.id", known_columns));
    std::vector<KnownTake> takes;
    while (asked.next()) takes.push_back(read_known(asked));
    return takes;
}

std::optional<KnownTake> History::find(const std::string& fingerprint) const {
    auto asked =
        store_->database.statement(fmt::format("SELECT {} WHERE t.fingerprint = ?", known_columns));
    if (!asked.with(fingerprint).next()) return std::nullopt;
    return read_known(asked);
}

std::optional<JudgedTake> History::read(const std::string& fingerprint) const {
    const Snapshot snapshot(store_->database);
    return read_take_rows(store_->database, fingerprint);
}

void History::forget(const std::vector<std::string>& fingerprints) {
    {
        Transaction transaction(store_->database);
        std::set<EveningKey> evenings;
        for (const auto& fingerprint : fingerprints) store_->take_out(fingerprint, evenings);
        store_->settle(evenings);
        transaction.commit();
    }
    store_->shred_log();
}

void History::forget_player(const std::string& player) {
    auto& database = store_->database;
    {
        Transaction transaction(database);
        for (const auto* table :
             {"take", "evening", "evening_place", "evening_tempo", "clean_run", "homework"}) {
            database.statement(fmt::format("DELETE FROM {} WHERE player = ?", table))
                .with(player)
                .run();
        }
        remove_unused_charts(database);
        transaction.commit();
    }
    store_->shred_log();
}

std::vector<PlayerSeen> History::players() const {
    auto asked = store_->database.statement(
        "SELECT player, count(DISTINCT date), max(date) FROM evening GROUP BY player "
        "ORDER BY player");
    std::vector<PlayerSeen> players;
    while (asked.next()) {
        auto& player = players.emplace_back();
        asked.read(player.name, player.evenings, player.last);
    }
    return players;
}

std::vector<TuneHistory> History::tunes(const std::string& player, const std::string& since) const {
    const Snapshot snapshot(store_->database);
    return TuneReader(store_->database, player, since).all();
}

std::optional<TuneHistory> History::tune(const std::string& player, const KeptChart& chart,
                                         const std::string& since) const {
    const Snapshot snapshot(store_->database);
    const auto tune = tune_of(store_->database, chart);
    if (tune == 0) return std::nullopt;
    return TuneReader(store_->database, player, since).one(tune, chart);
}

std::int64_t History::set_homework(const Homework& homework, const KeptChart& chart) {
    auto& database = store_->database;
    Transaction transaction(database);
    const auto row = chart_row(database, chart, homework.given);
    database
        .statement(
            insert_into("homework", "player, chart, given, from_bar, to_bar, from_bpm, to_bpm"))
        .with(homework.player, row, homework.given, homework.from_bar, homework.to_bar,
              homework.from_bpm, homework.to_bpm)
        .run();
    const auto id = database.last_row();
    transaction.commit();
    return id;
}

void History::drop_homework(std::int64_t id) {
    Transaction transaction(store_->database);
    store_->database.statement("DELETE FROM homework WHERE id = ?").with(id).run();
    remove_unused_charts(store_->database);
    transaction.commit();
}

std::vector<Homework> History::homework(const std::string& player) const {
    const Snapshot snapshot(store_->database);
    auto asked = store_->database.statement(
        "SELECT id, chart, given, from_bar, to_bar, from_bpm, to_bpm FROM homework "
        "WHERE player = ? ORDER BY given, id");
    asked.with(player);
    std::vector<Homework> all;
    while (asked.next()) {
        auto& homework = all.emplace_back();
        std::int64_t chart = 0;
        asked.read(homework.id, chart, homework.given, homework.from_bar, homework.to_bar,
                   homework.from_bpm, homework.to_bpm);
        homework.player = player;
        homework.tune = known_tune(store_->database, chart);
    }
    return all;
}

std::vector<std::string> History::given_homework() const {
    auto asked = store_->database.statement("SELECT DISTINCT player FROM homework ORDER BY player");
    std::vector<std::string> players;
    while (asked.next()) asked.read(players.emplace_back());
    return players;
}

std::vector<std::string> History::check() const {
    auto asked = store_->database.statement("PRAGMA integrity_check");
    std::vector<std::string> wrong;
    while (asked.next()) {
        std::string words;
        asked.read(words);
        if (words != "ok") wrong.push_back(words);
    }
    return wrong;
}

}  // namespace compline::history
