-- 0x4A574C47, the letters JWLG: tells a job log from any other SQLite file.
PRAGMA application_id = 1247235143;

CREATE TABLE content (
  hash TEXT NOT NULL PRIMARY KEY,
  kind TEXT NOT NULL,
  text TEXT NOT NULL
) STRICT;

CREATE TABLE stream (
  id   INTEGER NOT NULL PRIMARY KEY,
  kind TEXT NOT NULL,
  name TEXT NOT NULL UNIQUE
) STRICT;

-- The key is what allows one writer only: two that saw the same last entry want the same next one.
CREATE TABLE event (
  stream  INTEGER NOT NULL REFERENCES stream (id),
  seq     INTEGER NOT NULL CHECK (seq >= 1),
  at_utc  TEXT NOT NULL,
  zone    TEXT NOT NULL,
  kind    TEXT NOT NULL,
  version INTEGER NOT NULL,
  body    TEXT NOT NULL,
  PRIMARY KEY (stream, seq)
) STRICT, WITHOUT ROWID;
