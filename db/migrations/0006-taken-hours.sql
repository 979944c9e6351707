-- Finished repairs whose hours were taken from earlier ones tell nothing of how far estimates are off. Until now none were.
ALTER TABLE finished_repair ADD COLUMN taken INTEGER NOT NULL DEFAULT 0;
