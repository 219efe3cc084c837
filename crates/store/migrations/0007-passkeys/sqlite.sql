CREATE TABLE passkey (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    person INTEGER NOT NULL,
    id     TEXT    NOT NULL UNIQUE,
    handle TEXT    NOT NULL,
    name   TEXT    NOT NULL,
    key    TEXT    NOT NULL,
    since  INTEGER NOT NULL,
    used   INTEGER
) STRICT;

CREATE INDEX passkey_by_person ON passkey (person);

CREATE TABLE ceremony (
    token   TEXT    PRIMARY KEY,
    person  INTEGER,
    address TEXT    NOT NULL,
    state   TEXT    NOT NULL,
    until   INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE INDEX ceremony_by_address ON ceremony (address);
