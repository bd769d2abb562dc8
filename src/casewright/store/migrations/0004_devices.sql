-- Says that the file is casewright's ("CsWr"), so that no other program's database is taken for one.
PRAGMA application_id = 1131632498;

-- Phones and tablets that may use the jobs over the shop's network. Of what a device shows to be let in only
-- the hash is kept, so that whoever reads the file, or a backup of it, cannot get in with what he finds.
CREATE TABLE device (
    id TEXT PRIMARY KEY,
    name TEXT NOT NULL,
    token_hash TEXT NOT NULL UNIQUE,
    paired TEXT NOT NULL,
    revoked TEXT
);

-- Which device sent an event or a revision; empty for the machine that casewright runs on.
ALTER TABLE event ADD COLUMN device TEXT NOT NULL DEFAULT '';
ALTER TABLE revision ADD COLUMN device TEXT NOT NULL DEFAULT '';
