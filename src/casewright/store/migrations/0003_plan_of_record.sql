-- Plans of record. A plan is written once; a later one follows it, and none is ever lost.
-- `after_event` is the newest event of the shop's record then: work handed out later is newer than the plan.
CREATE TABLE plan (
    job TEXT NOT NULL REFERENCES job (id),
    number INTEGER NOT NULL CHECK (number >= 1),
    name TEXT NOT NULL,
    payload TEXT NOT NULL,
    after_event INTEGER NOT NULL,
    created TEXT NOT NULL,
    PRIMARY KEY (job, number)
);

CREATE TRIGGER plan_stays BEFORE UPDATE ON plan
BEGIN SELECT RAISE (ABORT, 'a plan is never changed'); END;

CREATE TRIGGER plan_is_kept BEFORE DELETE ON plan
BEGIN SELECT RAISE (ABORT, 'a plan is never deleted'); END;
