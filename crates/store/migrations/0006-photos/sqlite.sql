CREATE TABLE named_file (
    hash TEXT NOT NULL,
    job  TEXT NOT NULL,
    PRIMARY KEY (hash, job)
) STRICT, WITHOUT ROWID;
