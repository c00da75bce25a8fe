-- A history as its first version had it: two takes of one tune. Tests bring it up to date.
PRAGMA application_id = 1131245676;
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
INSERT INTO tune VALUES (1, 'Lantern');
INSERT INTO chart VALUES (1, 1, 'c0ffee0000000001', 'Lantern', 'C', 'title: "Lantern"
key: C
tempo: 120
sections:
  A: "Dm7 | G7"
', '/charts/Lantern.yaml', 0);
INSERT INTO take VALUES (1, 1, '00000000000000a1', '/takes', '2026-11-03-200000.mid', '', '2026-11-03T20:00:00+01:00', '2026-11-03', '0.1.0', 2, 1, '', '', 1, 2, 120, 120, NULL, NULL, 8, 0, 4, 0, 4, 3, 4, 3, 4, 0.45);
INSERT INTO take VALUES (2, 1, '00000000000000a2', '/takes', '2026-11-04-200000.mid', 'Anna', '2026-11-04T20:00:00+01:00', '2026-11-04', '0.1.0', 2, 1, '', '', 1, 2, 132, 132, 96, 132, 3.6, 0, 2, 0, 2, 2, 2, 2, 2, 0);
INSERT INTO time_through VALUES (1, 1, 1, 2, 1, 120, 4, 2, 2, 2, 0, 1), (1, 2, 1, 2, 1, 120, 4, 2, 2, 1, 0, 0), (2, 1, 1, 2, 1, 132, 3.6, 2, 2, 2, 0, 1);
INSERT INTO change VALUES
 (1, 1, 1, 1, 1.0, 'A', '', 'Dm7', 120, 'on_time', 5, 0, 'right', '', '', 0, 1, 1, 1, 0, 0, 0, 0, 0),
 (1, 2, 1, 2, 1.0, 'A', 'Dm7', 'G7', 120, 'on_time', 5, 0, 'right', '', '', 0, 1, 1, 1, 0, 0, 0, 0, 0),
 (1, 3, 2, 1, 1.0, 'A', 'G7', 'Dm7', 120, 'late', 90, 85, 'right', '', '', 0.45, 0, 1, 1, 0, 0, 0, 0, 0),
 (1, 4, 2, 2, 1.0, 'A', 'Dm7', 'G7', 120, 'on_time', 5, 0, 'right', '', '', 0, 1, 1, 1, 0, 0, 0, 0, 0),
 (2, 1, 1, 1, 1.0, 'A', '', 'Dm7', 132, 'on_time', 5, 0, 'right', '', '', 0, 1, 1, 1, 0, 0, 0, 0, 0),
 (2, 2, 1, 2, 1.0, 'A', 'Dm7', 'G7', 132, 'on_time', 5, 0, 'right', '', '', 0, 1, 1, 1, 0, 0, 0, 0, 0);
INSERT INTO strum VALUES (1, 1, 1, 1, 1.0, 5, 'landing', 0), (2, 1, 1, 1, 1.0, 5, 'landing', 0);
PRAGMA user_version = 1;
