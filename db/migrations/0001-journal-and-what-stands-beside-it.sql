-- The journal: the one source. Lines are only ever added.
CREATE TABLE journal (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  chain TEXT NOT NULL,
  chain_number INTEGER NOT NULL,
  kind TEXT NOT NULL,
  version INTEGER NOT NULL,
  visit_id TEXT,
  person_id TEXT,
  device_id TEXT,
  command_id TEXT NOT NULL,
  happened TEXT NOT NULL,
  made TEXT NOT NULL,
  recorded TEXT NOT NULL,
  digest TEXT NOT NULL,
  prev TEXT NOT NULL,
  hash TEXT NOT NULL,
  UNIQUE (chain, chain_number)
) STRICT;

CREATE TABLE payload (
  number INTEGER PRIMARY KEY REFERENCES journal (number),
  json TEXT NOT NULL,
  salt BLOB NOT NULL
) STRICT;

CREATE TRIGGER journal_lines_do_not_change BEFORE UPDATE ON journal
BEGIN SELECT RAISE (ABORT, 'journal lines do not change'); END;
CREATE TRIGGER journal_lines_stay BEFORE DELETE ON journal
BEGIN SELECT RAISE (ABORT, 'journal lines stay'); END;
CREATE TRIGGER payloads_do_not_change BEFORE UPDATE ON payload
BEGIN SELECT RAISE (ABORT, 'payloads do not change'); END;
CREATE TRIGGER payloads_stay BEFORE DELETE ON payload
BEGIN SELECT RAISE (ABORT, 'payloads stay'); END;

-- Accepted answers, so that a repeated command is harmless.
CREATE TABLE command_answer (
  command_id TEXT PRIMARY KEY,
  digest TEXT NOT NULL,
  revision INTEGER NOT NULL,
  numbers TEXT NOT NULL,
  car_id TEXT
) STRICT, WITHOUT ROWID;

-- Derived from the journal: may be emptied and rebuilt at any time.
CREATE TABLE car (
  id TEXT PRIMARY KEY,
  shell_number TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  revision INTEGER NOT NULL,
  bay_id TEXT
) STRICT, WITHOUT ROWID;

CREATE TABLE booking (
  id TEXT PRIMARY KEY,
  car_id TEXT NOT NULL,
  bay_id TEXT NOT NULL,
  from_date TEXT NOT NULL,
  to_date TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX booking_by_car ON booking (car_id);

CREATE TABLE time_entry (
  id TEXT PRIMARY KEY,
  person_id TEXT NOT NULL,
  car_id TEXT,
  started INTEGER NOT NULL,
  ended INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX time_entry_by_person ON time_entry (person_id, ended);
CREATE INDEX time_entry_by_car ON time_entry (car_id);

CREATE TABLE attachment (
  id TEXT PRIMARY KEY,
  car_id TEXT NOT NULL,
  sha256 TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX attachment_by_car ON attachment (car_id);
CREATE INDEX attachment_by_photo ON attachment (sha256);

CREATE TABLE report (
  id TEXT PRIMARY KEY,
  car_id TEXT NOT NULL,
  visit_id TEXT NOT NULL,
  week TEXT NOT NULL,
  sha256 TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX report_by_car ON report (car_id);

-- Kept beside the journal.
CREATE TABLE photo (
  sha256 TEXT PRIMARY KEY,
  bytes INTEGER NOT NULL,
  width INTEGER NOT NULL,
  height INTEGER NOT NULL,
  type TEXT NOT NULL,
  camera_local TEXT,
  camera_offset TEXT,
  received TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE contact (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  phone TEXT NOT NULL,
  email TEXT NOT NULL,
  address TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE device (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  token_hash TEXT NOT NULL UNIQUE,
  paired TEXT NOT NULL,
  revoked TEXT
) STRICT, WITHOUT ROWID;

CREATE TABLE session (
  device_id TEXT PRIMARY KEY REFERENCES device (id),
  person_id TEXT NOT NULL,
  started TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE code (
  person_id TEXT PRIMARY KEY,
  key_id TEXT NOT NULL,
  cost INTEGER NOT NULL,
  salt BLOB NOT NULL,
  hash BLOB NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE code_lock (
  person_id TEXT NOT NULL,
  device_id TEXT NOT NULL,
  wrong INTEGER NOT NULL,
  locked_until INTEGER NOT NULL,
  PRIMARY KEY (person_id, device_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE setting (
  name TEXT PRIMARY KEY,
  value TEXT NOT NULL
) STRICT, WITHOUT ROWID;
