CREATE TABLE job_count (
    job     TEXT    PRIMARY KEY,
    entries INTEGER NOT NULL,
    cursor  INTEGER NOT NULL,
    sum     TEXT    NOT NULL
) STRICT, WITHOUT ROWID;

CREATE INDEX set_aside_waiting ON set_aside (job, number) WHERE let_in_at IS NULL;
