-- The book: tanks, their revisions, and what each revision changed. Rows of `revision` and `change` are only ever added.

CREATE TABLE tank (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  name TEXT                                   -- as the revision that holds now has it; NULL: it has none
) STRICT;

CREATE TABLE revision (
  id INTEGER PRIMARY KEY,                     -- grows over all tanks: the highest is the last edit of the book
  tank INTEGER NOT NULL REFERENCES tank (id),
  number INTEGER NOT NULL CHECK (number > 0), -- 1, 2, 3 ... in each tank, without a gap
  at TEXT NOT NULL,                           -- RFC 3339, as the caller's clock said
  undo_to INTEGER CHECK (undo_to < number),   -- the revision to which an undo goes back; NULL: none
  file TEXT NOT NULL,                         -- the name that faults use
  text TEXT NOT NULL,                         -- the setup as the keeper wrote it
  seal INTEGER NOT NULL,                      -- check sum over this row and its changes
  UNIQUE (tank, number)
) STRICT;

CREATE TABLE change (
  revision INTEGER NOT NULL REFERENCES revision (id),
  place INTEGER NOT NULL,                     -- 0, 1, 2 ... in the order in which they were made
  field TEXT NOT NULL,
  was TEXT,                                   -- NULL: nothing, it was assumed
  now TEXT,                                   -- NULL: nothing, it is assumed
  PRIMARY KEY (revision, place)
) STRICT, WITHOUT ROWID;
