-- Derived: every text of a car that a search goes through, by the journal number of the fact that made what bears it: a
-- repair's name, a photo's caption, a note. `beside` is what else it is known by, `at` epoch milliseconds. Names of people and
-- parties are not here: they are read from the contact book each time, so that an erased one is found no more.
CREATE TABLE searched (
  number INTEGER PRIMARY KEY,
  kind TEXT NOT NULL,
  car_id TEXT NOT NULL,
  repair_id TEXT,
  attachment_id TEXT,
  at INTEGER NOT NULL,
  text TEXT NOT NULL,
  beside TEXT NOT NULL
) STRICT;
CREATE INDEX searched_by_car ON searched (car_id);
-- Their words, folded by domain/text/fold-words.ts and set apart by blanks, under the same numbers: its own in the column of
-- its kind, those that it is known by too in `context`. The text itself is not kept a second time.
CREATE VIRTUAL TABLE searched_words USING fts5 (
  repair, photo, note, context,
  content = '', contentless_delete = 1, detail = column, tokenize = 'ascii', prefix = '2 3'
);
CREATE TRIGGER searched_words_drop AFTER DELETE ON searched BEGIN
  DELETE FROM searched_words WHERE rowid = old.number;
END;
