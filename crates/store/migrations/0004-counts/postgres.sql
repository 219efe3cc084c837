CREATE TABLE job_count (
    job     TEXT   COLLATE "C" PRIMARY KEY,
    entries BIGINT NOT NULL,
    cursor  BIGINT NOT NULL,
    sum     TEXT   COLLATE "C" NOT NULL
);

CREATE INDEX set_aside_waiting ON set_aside (job, number) WHERE let_in_at IS NULL;

-- To be called once after a dump was played back: `SELECT shaftbook_restored()`. What arrives from then on is
-- counted anew, so that no device takes it for something it has seen, and no door opens that was shut since.
CREATE FUNCTION shaftbook_restored() RETURNS void LANGUAGE plpgsql AS $$
BEGIN
    PERFORM setval(pg_get_serial_sequence('entry', 'arrival'),
        nextval(pg_get_serial_sequence('entry', 'arrival')) + 1000000000);
    DELETE FROM session;
    DELETE FROM invitation;
    DELETE FROM pairing_code;
END
$$;
