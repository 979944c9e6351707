-- What the manager has chosen for a report that is not issued yet, and when it was prepared: no facts, and gone once it is issued.
-- `choices` are ReportChoices as JSON, `prepared_at` epoch milliseconds, `problems` sentences as a JSON array.
CREATE TABLE report_draft (
  visit_id TEXT NOT NULL,
  week TEXT NOT NULL,
  choices TEXT NOT NULL,
  PRIMARY KEY (visit_id, week)
) STRICT, WITHOUT ROWID;

CREATE TABLE prepared_report (
  visit_id TEXT NOT NULL,
  week TEXT NOT NULL,
  prepared_at INTEGER NOT NULL,
  problems TEXT NOT NULL,
  PRIMARY KEY (visit_id, week)
) STRICT, WITHOUT ROWID;

-- SHA-256 of the page that was issued beside the PDF; null for reports from before there were pages.
ALTER TABLE report ADD COLUMN page TEXT;
