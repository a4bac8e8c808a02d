-- Water reports as they were read, each with the keeper's corrections beside what it said. None is ever taken out.

CREATE TABLE report (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  tank INTEGER NOT NULL REFERENCES tank (id),
  at TEXT NOT NULL,                           -- RFC 3339, as the caller's clock said
  name TEXT NOT NULL,                         -- of the file, or what the keeper calls it
  edition INTEGER NOT NULL CHECK (edition > 0), -- grows by one with each amendment
  text TEXT NOT NULL,                         -- what it said and what was corrected, as JSON
  seal INTEGER NOT NULL                       -- check sum over the row
) STRICT;

CREATE INDEX report_by_tank ON report (tank, id);
