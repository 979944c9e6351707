-- What a contact has had to do with is asked before it is erased: one line in some thousands of the record opens a visit.
CREATE INDEX journal_of_visits ON journal (number) WHERE kind = 'visitOpened';
