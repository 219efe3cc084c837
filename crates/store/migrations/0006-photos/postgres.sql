CREATE TABLE named_file (
    hash TEXT COLLATE "C" NOT NULL,
    job  TEXT COLLATE "C" NOT NULL,
    PRIMARY KEY (hash, job)
);
