-- What finished repairs tell of later ones, derived from the journal like the tables of 0001. A repair's id is known within
-- its car only, so `id` joins both. `sequence` is no part of what is derived: it grows with each row that is written, so that
-- readers take in new rows alone. Hours are person-hours, `finished_at` epoch milliseconds.
CREATE TABLE finished_repair (
  sequence INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  car_id TEXT NOT NULL,
  repair_id TEXT NOT NULL,
  visit_id TEXT NOT NULL,
  type_id TEXT,
  estimator TEXT,
  number INTEGER NOT NULL,
  finished_at INTEGER NOT NULL,
  before REAL NOT NULL,
  assessed REAL NOT NULL,
  actual REAL NOT NULL,
  gates TEXT NOT NULL,
  outside TEXT,
  hidden TEXT NOT NULL,
  worst_hidden TEXT,
  stated TEXT NOT NULL
) STRICT;
CREATE INDEX finished_repair_by_car ON finished_repair (car_id);
