-- The shop record. The bench that saw it names each event, so one sent twice is kept once.
CREATE TABLE event (
    place INTEGER PRIMARY KEY AUTOINCREMENT,
    id TEXT NOT NULL UNIQUE,
    job TEXT NOT NULL REFERENCES job (id),
    bench TEXT NOT NULL,
    time TEXT NOT NULL,
    kind TEXT NOT NULL,
    payload TEXT NOT NULL
);

CREATE INDEX event_of_job ON event (job, place);

CREATE TRIGGER event_stays BEFORE UPDATE ON event
BEGIN SELECT RAISE (ABORT, 'an event is never changed'); END;

CREATE TRIGGER event_is_kept BEFORE DELETE ON event
BEGIN SELECT RAISE (ABORT, 'an event is never deleted'); END;
