-- The logbooks of the tanks. An entry is written anew, taken out and put back; `log_change` keeps the other side of each
-- such act, so that nothing is ever lost.

CREATE TABLE log (
  tank INTEGER PRIMARY KEY REFERENCES tank (id),
  given INTEGER NOT NULL,                     -- numbers given to entries so far: 1, 2, 3 ... in each log
  written INTEGER NOT NULL                    -- numbers given to writings so far
) STRICT;

CREATE TABLE log_entry (
  tank INTEGER NOT NULL REFERENCES tank (id),
  number INTEGER NOT NULL CHECK (number > 0),
  second INTEGER NOT NULL,                    -- the instant: seconds since 1970 in UTC,
  nano INTEGER NOT NULL,                      -- and nanoseconds; below 0 before 1970, as `second`
  kind TEXT NOT NULL,                         -- test, dose, change ...
  reading TEXT,                               -- for a test: what was read; NULL: no test
  words TEXT NOT NULL,                        -- note and subject in small letters, for finding
  text TEXT NOT NULL,                         -- the entry whole, as TOML
  seal INTEGER NOT NULL,                      -- check sum over the number and the text
  PRIMARY KEY (tank, number)
) STRICT, WITHOUT ROWID;

CREATE INDEX log_entry_by_time ON log_entry (tank, second, nano, number, kind);
CREATE INDEX log_entry_by_kind ON log_entry (tank, kind, second, nano, number);
CREATE INDEX log_entry_by_reading ON log_entry (tank, reading, second, nano, number) WHERE reading IS NOT NULL;

CREATE TABLE log_writing (
  tank INTEGER NOT NULL REFERENCES tank (id),
  number INTEGER NOT NULL CHECK (number > 0),
  at TEXT NOT NULL,                           -- RFC 3339, as the caller's clock said
  did TEXT NOT NULL,                          -- added, changed, removed
  count INTEGER NOT NULL CHECK (count > 0),   -- entries that it touched
  undone INTEGER NOT NULL CHECK (undone IN (0, 1)),
  PRIMARY KEY (tank, number)
) STRICT, WITHOUT ROWID;

CREATE TABLE log_change (
  tank INTEGER NOT NULL,
  writing INTEGER NOT NULL,
  entry INTEGER NOT NULL,                     -- its number
  other TEXT,                                 -- the entry before the writing; while it is undone, after it; NULL: none
  seal INTEGER NOT NULL,
  PRIMARY KEY (tank, writing, entry),
  FOREIGN KEY (tank, writing) REFERENCES log_writing (tank, number)
) STRICT, WITHOUT ROWID;
