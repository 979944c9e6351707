-- When a device last asked for anything, so that one that nobody uses any more is seen. NULL: not since this was kept.
ALTER TABLE device ADD COLUMN last_used TEXT;
