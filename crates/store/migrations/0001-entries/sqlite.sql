CREATE TABLE entry (
    arrival  INTEGER PRIMARY KEY AUTOINCREMENT,
    id       TEXT    NOT NULL UNIQUE,
    job      TEXT    NOT NULL,
    shaft    TEXT,
    device   TEXT    NOT NULL,
    seq      INTEGER NOT NULL,
    line     TEXT    NOT NULL
) STRICT;

CREATE INDEX entry_by_job ON entry (job, shaft);
CREATE INDEX entry_by_device ON entry (device, seq);

CREATE TRIGGER entry_is_never_altered BEFORE UPDATE ON entry
BEGIN
    SELECT RAISE(ABORT, 'an entry is never altered');
END;

CREATE TRIGGER entry_is_never_erased BEFORE DELETE ON entry
BEGIN
    SELECT RAISE(ABORT, 'an entry is never erased');
END;

-- INSERT OR REPLACE erases without asking the trigger above.
CREATE TRIGGER entry_is_never_replaced BEFORE INSERT ON entry
WHEN EXISTS (SELECT 1 FROM entry WHERE id = NEW.id OR arrival = NEW.arrival)
BEGIN
    SELECT RAISE(ABORT, 'an entry is never replaced');
END;
