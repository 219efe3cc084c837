CREATE TABLE wrong_try (
    who   TEXT    PRIMARY KEY,
    tries INTEGER NOT NULL,
    last  INTEGER NOT NULL,
    until INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE INDEX wrong_try_by_until ON wrong_try (until);
