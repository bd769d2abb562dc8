-- Jobs, and every text a job ever had. A revision is written once and never touched again.
CREATE TABLE job (
    id TEXT PRIMARY KEY,
    name TEXT NOT NULL,
    created TEXT NOT NULL,
    version INTEGER NOT NULL CHECK (version >= 1),
    put_away TEXT
);

CREATE TABLE revision (
    job TEXT NOT NULL REFERENCES job (id),
    number INTEGER NOT NULL CHECK (number >= 1),
    parent INTEGER,
    text TEXT NOT NULL,
    note TEXT NOT NULL,
    created TEXT NOT NULL,
    PRIMARY KEY (job, number),
    FOREIGN KEY (job, parent) REFERENCES revision (job, number)
);

CREATE TRIGGER revision_stays BEFORE UPDATE ON revision
BEGIN SELECT RAISE (ABORT, 'a revision is never changed'); END;

CREATE TRIGGER revision_is_kept BEFORE DELETE ON revision
BEGIN SELECT RAISE (ABORT, 'a revision is never deleted'); END;
