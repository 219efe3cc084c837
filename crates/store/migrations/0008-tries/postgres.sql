CREATE TABLE wrong_try (
    who   TEXT   COLLATE "C" PRIMARY KEY,
    tries BIGINT NOT NULL,
    last  BIGINT NOT NULL,
    until BIGINT NOT NULL
);

CREATE INDEX wrong_try_by_until ON wrong_try (until);
