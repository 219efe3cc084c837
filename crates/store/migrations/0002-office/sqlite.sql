-- The row number closes every index, so this one hands out a job in order of arrival.
CREATE INDEX entry_by_arrival ON entry (job);

CREATE TABLE device (
    number    INTEGER PRIMARY KEY AUTOINCREMENT,
    device    TEXT    NOT NULL UNIQUE,
    name      TEXT    NOT NULL,
    token     TEXT    NOT NULL UNIQUE,
    paired_at TEXT    NOT NULL
) STRICT;

CREATE TABLE pairing_code (
    code  TEXT    PRIMARY KEY,
    until INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE setting (
    name  TEXT PRIMARY KEY,
    value TEXT NOT NULL
) STRICT, WITHOUT ROWID;
