#include "schema.hpp"

#include "evening_sums.hpp"

#include <compline/history/history.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

namespace compline::history {

namespace {

constexpr const char* version_1 = R"sql(
CREATE TABLE tune (
    id INTEGER PRIMARY KEY,
    title TEXT NOT NULL
);
CREATE TABLE chart (
    id INTEGER PRIMARY KEY,
    tune INTEGER NOT NULL REFERENCES tune,
    hash TEXT NOT NULL UNIQUE,
    title TEXT NOT NULL,
    tune_key TEXT NOT NULL,
    text TEXT NOT NULL,
    file TEXT NOT NULL,
    drill INTEGER NOT NULL
);
CREATE INDEX chart_of_tune ON chart (tune);
CREATE TABLE take (
    id INTEGER PRIMARY KEY,
    chart INTEGER NOT NULL REFERENCES chart,
    fingerprint TEXT NOT NULL UNIQUE,
    folder TEXT NOT NULL,
    file TEXT NOT NULL,
    player TEXT NOT NULL,
    made TEXT NOT NULL,
    evening TEXT NOT NULL,
    program TEXT NOT NULL,
    rules INTEGER NOT NULL,
    of_ours INTEGER NOT NULL,
    played_key TEXT NOT NULL,
    asked TEXT NOT NULL,
    from_bar INTEGER NOT NULL,
    to_bar INTEGER NOT NULL,
    slowest_bpm REAL NOT NULL,
    fastest_bpm REAL NOT NULL,
    ladder_from REAL,
    ladder_to REAL,
    seconds REAL NOT NULL,
    by_sound INTEGER NOT NULL,
    changes INTEGER NOT NULL,
    uncertain INTEGER NOT NULL,
    counted INTEGER NOT NULL,
    in_time INTEGER NOT NULL,
    right INTEGER NOT NULL,
    both INTEGER NOT NULL,
    struck INTEGER NOT NULL,
    cost REAL NOT NULL
);
CREATE INDEX take_of_evening ON take (player, chart, evening);
CREATE TABLE time_through (
    take INTEGER NOT NULL REFERENCES take ON DELETE CASCADE,
    number INTEGER NOT NULL,
    from_bar INTEGER NOT NULL,
    to_bar INTEGER NOT NULL,
    whole_tune INTEGER NOT NULL,
    bpm REAL NOT NULL,
    seconds REAL NOT NULL,
    due INTEGER NOT NULL,
    struck INTEGER NOT NULL,
    right INTEGER NOT NULL,
    missed INTEGER NOT NULL,
    clean INTEGER NOT NULL,
    PRIMARY KEY (take, number)
) WITHOUT ROWID;
CREATE TABLE change (
    take INTEGER NOT NULL REFERENCES take ON DELETE CASCADE,
    number INTEGER NOT NULL,
    time_through INTEGER NOT NULL,
    bar INTEGER NOT NULL,
    beat REAL NOT NULL,
    section TEXT NOT NULL,
    from_chord TEXT NOT NULL,
    to_chord TEXT NOT NULL,
    bpm REAL NOT NULL,
    verdict TEXT NOT NULL,
    lateness_ms REAL,
    relative_ms REAL,
    tones TEXT NOT NULL,
    missing TEXT NOT NULL,
    wrong TEXT NOT NULL,
    cost REAL NOT NULL,
    in_time INTEGER NOT NULL,
    right INTEGER NOT NULL,
    counts INTEGER NOT NULL,
    uncertain INTEGER NOT NULL,
    seam INTEGER NOT NULL,
    wait INTEGER NOT NULL,
    left_out INTEGER NOT NULL,
    optional INTEGER NOT NULL,
    PRIMARY KEY (take, number)
) WITHOUT ROWID;
CREATE TABLE strum (
    take INTEGER NOT NULL REFERENCES take ON DELETE CASCADE,
    number INTEGER NOT NULL,
    time_through INTEGER NOT NULL,
    bar INTEGER NOT NULL,
    beat REAL NOT NULL,
    asynchrony_ms REAL NOT NULL,
    read_as TEXT NOT NULL,
    off_beat INTEGER NOT NULL,
    PRIMARY KEY (take, number)
) WITHOUT ROWID;
)sql";

constexpr const char* version_2 = R"sql(
CREATE TABLE evening (
    player TEXT NOT NULL,
    chart INTEGER NOT NULL REFERENCES chart,
    date TEXT NOT NULL,
    seconds REAL NOT NULL,
    takes INTEGER NOT NULL,
    counted INTEGER NOT NULL,
    in_time INTEGER NOT NULL,
    right INTEGER NOT NULL,
    both INTEGER NOT NULL,
    cost REAL NOT NULL,
    by_sound INTEGER NOT NULL,
    whole_times INTEGER NOT NULL,
    clean_whole_times INTEGER NOT NULL,
    slowest_bpm REAL NOT NULL,
    fastest_bpm REAL NOT NULL,
    usual_bpm REAL NOT NULL,
    clean_bpm REAL,
    whole_counted INTEGER NOT NULL,
    whole_in_time INTEGER NOT NULL,
    whole_right INTEGER NOT NULL,
    whole_both INTEGER NOT NULL,
    whole_cost REAL NOT NULL,
    whole_bpm REAL NOT NULL,
    PRIMARY KEY (player, chart, date)
) WITHOUT ROWID;
CREATE TABLE evening_place (
    player TEXT NOT NULL,
    chart INTEGER NOT NULL REFERENCES chart,
    date TEXT NOT NULL,
    bar INTEGER NOT NULL,
    beat REAL NOT NULL,
    played_key TEXT NOT NULL,
    section TEXT NOT NULL,
    from_chord TEXT NOT NULL,
    to_chord TEXT NOT NULL,
    counted INTEGER NOT NULL,
    in_time INTEGER NOT NULL,
    right INTEGER NOT NULL,
    both INTEGER NOT NULL,
    cost REAL NOT NULL,
    late INTEGER NOT NULL,
    early INTEGER NOT NULL,
    missed INTEGER NOT NULL,
    waits INTEGER NOT NULL,
    wrong INTEGER NOT NULL,
    incomplete INTEGER NOT NULL,
    late_ms REAL NOT NULL,
    PRIMARY KEY (player, chart, date, bar, beat, played_key)
) WITHOUT ROWID;
CREATE TABLE evening_tempo (
    player TEXT NOT NULL,
    chart INTEGER NOT NULL REFERENCES chart,
    date TEXT NOT NULL,
    bpm INTEGER NOT NULL,
    counted INTEGER NOT NULL,
    in_time INTEGER NOT NULL,
    right INTEGER NOT NULL,
    both INTEGER NOT NULL,
    cost REAL NOT NULL,
    times INTEGER NOT NULL,
    clean INTEGER NOT NULL,
    whole_counted INTEGER NOT NULL,
    whole_in_time INTEGER NOT NULL,
    whole_right INTEGER NOT NULL,
    whole_both INTEGER NOT NULL,
    whole_cost REAL NOT NULL,
    PRIMARY KEY (player, chart, date, bpm)
) WITHOUT ROWID;
CREATE TABLE clean_run (
    player TEXT NOT NULL,
    chart INTEGER NOT NULL REFERENCES chart,
    date TEXT NOT NULL,
    from_bar INTEGER NOT NULL,
    to_bar INTEGER NOT NULL,
    bpm REAL NOT NULL,
    in_a_row INTEGER NOT NULL,
    PRIMARY KEY (player, chart, date, from_bar, to_bar, bpm)
) WITHOUT ROWID;
CREATE TABLE homework (
    id INTEGER PRIMARY KEY,
    player TEXT NOT NULL,
    chart INTEGER NOT NULL REFERENCES chart,
    given TEXT NOT NULL,
    from_bar INTEGER NOT NULL,
    to_bar INTEGER NOT NULL,
    from_bpm REAL NOT NULL,
    to_bpm REAL NOT NULL
);
)sql";

void check_whose(Database& database, std::int64_t version) {
    const auto id = database.number("PRAGMA application_id");
    const auto tables = database.number("SELECT count(*) FROM sqlite_master");
    if (id == application_id || (id == 0 && version == 0 && tables == 0)) return;
    throw DamagedHistory(
        fmt::format("{}: this is a database, and no history of Compline", database.name()));
}

void refuse_future(const Database& database, std::int64_t version) {
    if (version <= schema_version) return;
    throw text::BadInput(
        database.name(),
        fmt::format("a later version of Compline wrote this history (its tables are those of "
                    "version {}, here they are {})",
                    version, schema_version),
        "use that version, or set XDG_DATA_HOME to another folder");
}

void step_to(int version, Database& database) {
    if (version == 1) {
        database.run(fmt::format("PRAGMA application_id = {}", application_id));
        database.run(version_1);
    }
    if (version == 2) {
        database.run(version_2);
        sum_all_evenings(database);
    }
    database.run(fmt::format("PRAGMA user_version = {}", version));
}

std::int64_t version_of(Database& database) { return database.number("PRAGMA user_version"); }

}  // namespace

void bring_up_to_date(Database& database) {
    auto version = version_of(database);
    check_whose(database, version);
    refuse_future(database, version);
    while (version < schema_version) {
        Transaction transaction(database);
        version = version_of(database);  // another program may have been quicker
        refuse_future(database, version);
        if (version < schema_version) step_to(static_cast<int>(++version), database);
        transaction.commit();
    }
}

}  // namespace compline::history
