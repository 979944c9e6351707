-- Plans beside the journal: those that were taken (a fact names their digest), those that tell how promises slipped, and
-- the last few proposals. Times are epoch milliseconds.
CREATE TABLE kept_plan (
  plan_id TEXT PRIMARY KEY,
  made_at INTEGER NOT NULL,
  kept_at INTEGER NOT NULL,
  why TEXT NOT NULL,
  cause TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  content BLOB NOT NULL,
  revision INTEGER NOT NULL
) STRICT;
CREATE INDEX kept_plan_by_why ON kept_plan (why, kept_at);

CREATE TABLE kept_plan_car (
  plan_id TEXT NOT NULL REFERENCES kept_plan (plan_id) ON DELETE CASCADE,
  car_id TEXT NOT NULL,
  finish50 INTEGER,
  finish80 INTEGER,
  PRIMARY KEY (plan_id, car_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX kept_plan_car_by_car ON kept_plan_car (car_id);
