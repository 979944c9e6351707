-- Derived: what the Variance screen sums. Hours are person-hours. May be emptied and rebuilt at any time.

-- The plan that each authorised amount was planned by: its days as JSON, [[local date, share of 1], ...]; plan_id is null
-- while no plan that was taken has work of its gate or task.
CREATE TABLE planned_amount (
  car_id TEXT NOT NULL,
  amount_id TEXT NOT NULL,
  visit_id TEXT NOT NULL,
  target TEXT NOT NULL,
  accepted INTEGER NOT NULL,
  plan_id TEXT,
  days TEXT NOT NULL,
  PRIMARY KEY (car_id, amount_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX planned_amount_without_plan ON planned_amount (car_id) WHERE plan_id IS NULL;

-- One row for each group of a visit that has hours. Gates and tasks that a clock runs on are left out; planned holds the
-- days to come too. causes is JSON, {cause: hours of rework}.
CREATE TABLE variance_sum (
  grouped_by TEXT NOT NULL,
  key TEXT NOT NULL,
  visit_id TEXT NOT NULL,
  car_id TEXT NOT NULL,
  baseline REAL NOT NULL,
  authorised REAL NOT NULL,
  waiting REAL NOT NULL,
  earned REAL NOT NULL,
  spent REAL NOT NULL,
  spent_on_open REAL NOT NULL,
  expected REAL NOT NULL,
  rework REAL NOT NULL,
  given_back REAL NOT NULL,
  on_released REAL NOT NULL,
  planned REAL NOT NULL,
  earned_of_planned REAL NOT NULL,
  causes TEXT NOT NULL,
  PRIMARY KEY (grouped_by, key, visit_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX variance_sum_by_car ON variance_sum (car_id);

-- What else is asked of a visit: its plan by weeks (JSON, null where nothing is planned).
CREATE TABLE variance_visit (
  visit_id TEXT PRIMARY KEY,
  car_id TEXT NOT NULL,
  kind TEXT NOT NULL,
  opened INTEGER NOT NULL,
  earned_of_planned REAL NOT NULL,
  schedule TEXT
) STRICT, WITHOUT ROWID;
CREATE INDEX variance_visit_by_car ON variance_visit (car_id);

-- Planned hours of a visit on a local date, and the same as JSON by what they are grouped by, {grouping: {key: hours}}. Those
-- after today are taken off the sums.
CREATE TABLE variance_day (
  visit_id TEXT NOT NULL,
  date TEXT NOT NULL,
  car_id TEXT NOT NULL,
  hours REAL NOT NULL,
  planned TEXT NOT NULL,
  PRIMARY KEY (visit_id, date)
) STRICT, WITHOUT ROWID;
CREATE INDEX variance_day_by_date ON variance_day (date, car_id);
CREATE INDEX variance_day_by_car ON variance_day (car_id);

-- Clocks that run: their end is the last moment that a date can hold.
CREATE INDEX time_entry_running ON time_entry (car_id) WHERE ended = 8640000000000000;
