CREATE TABLE person (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    name   TEXT    NOT NULL UNIQUE,
    secret TEXT,
    since  INTEGER NOT NULL,
    gone   INTEGER
) STRICT;

-- The job '' is every job of the office.
CREATE TABLE role (
    person INTEGER NOT NULL,
    job    TEXT    NOT NULL,
    role   TEXT    NOT NULL,
    PRIMARY KEY (person, job, role)
) STRICT, WITHOUT ROWID;

CREATE INDEX role_by_job ON role (job);

CREATE TABLE invitation (
    code   TEXT    PRIMARY KEY,
    person INTEGER NOT NULL,
    until  INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE session (
    token  TEXT    PRIMARY KEY,
    person INTEGER NOT NULL,
    seen   INTEGER NOT NULL,
    until  INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE INDEX session_by_person ON session (person);

CREATE TABLE sign_in (
    number  INTEGER PRIMARY KEY AUTOINCREMENT,
    at      INTEGER NOT NULL,
    what    TEXT    NOT NULL,
    person  TEXT,
    address TEXT    NOT NULL,
    about   TEXT    NOT NULL
) STRICT;

CREATE TRIGGER sign_in_is_never_altered BEFORE UPDATE ON sign_in
BEGIN
    SELECT RAISE(ABORT, 'a row of the sign-ins is never altered');
END;

CREATE TRIGGER sign_in_is_never_erased BEFORE DELETE ON sign_in
BEGIN
    SELECT RAISE(ABORT, 'a row of the sign-ins is never erased');
END;

CREATE TRIGGER sign_in_is_never_replaced BEFORE INSERT ON sign_in
WHEN EXISTS (SELECT 1 FROM sign_in WHERE number = NEW.number)
BEGIN
    SELECT RAISE(ABORT, 'a row of the sign-ins is never replaced');
END;

ALTER TABLE device ADD COLUMN person INTEGER;
ALTER TABLE device ADD COLUMN gone INTEGER;
ALTER TABLE pairing_code ADD COLUMN person INTEGER;

CREATE INDEX device_by_person ON device (person);

CREATE TABLE device_key (
    key    TEXT    PRIMARY KEY,
    device INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE set_aside (
    number     INTEGER PRIMARY KEY AUTOINCREMENT,
    id         TEXT    NOT NULL UNIQUE,
    job        TEXT    NOT NULL,
    shaft      TEXT,
    device     TEXT    NOT NULL,
    seq        INTEGER NOT NULL,
    line       TEXT    NOT NULL,
    brought_by INTEGER NOT NULL,
    at         INTEGER NOT NULL,
    let_in_at  INTEGER,
    let_in_by  TEXT,
    reason     TEXT
) STRICT;

CREATE INDEX set_aside_by_job ON set_aside (job, let_in_at);

CREATE TRIGGER set_aside_is_never_erased BEFORE DELETE ON set_aside
BEGIN
    SELECT RAISE(ABORT, 'what is set aside is never erased');
END;

-- Letting in writes the three columns once, and nothing else ever.
CREATE TRIGGER set_aside_is_let_in_once BEFORE UPDATE ON set_aside
WHEN OLD.let_in_at IS NOT NULL OR NEW.line <> OLD.line OR NEW.id <> OLD.id OR NEW.job <> OLD.job
BEGIN
    SELECT RAISE(ABORT, 'what is set aside is let in once, and never altered');
END;
