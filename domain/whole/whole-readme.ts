import { FACT_VERSION } from '../facts.ts'

/** What a reader finds first, now or in twenty years. Holds no date: the same workshop gives the same payload. */
export function wholeReadme(): string {
  return `THE WHOLE WORKSHOP

This folder is a bag as RFC 8493 (BagIt 1.0) describes it: everything that a workshop has recorded in Panelwright, in open
formats. It holds personal data: names, telephone numbers and addresses of owners, insurers, firms and people of the
workshop, prices, and who worked when. Keep it as you would keep the workshop's own books.

To see that nothing was changed:   sha256sum -c manifest-sha256.txt
To go on working with it:          npm run takein -- --from THIS-FOLDER --data NEW-FOLDER
Codes do not leave the computer that they were set on. After taking in, open Panelwright's own window there: it lets a
manager choose a code, and that manager sets the codes of the others in Workshop, under People.

data/journal.jsonl    every fact, one JSON object a line, in the order of their numbers. All else can be worked out from these.
data/answers.jsonl    which facts answered which command, so that a command that is sent twice counts once
data/contacts.jsonl   names and addresses, by the ids that the facts use
data/plans.jsonl      plans that were kept, in the order of keeping
data/photos.jsonl     the photos, with what their cameras' clocks showed
data/photos/          the photos as they came, each named by its SHA-256
data/reports/         the issued owner reports, each named by its SHA-256
data/brought-in/      the journals that cars of other workshops came with, each named by its SHA-256
data/drafts.jsonl, data/prepared.jsonl   owner reports that are not issued yet
data/settings.jsonl   what the program itself remembers
data/schema/          JSON Schemas of the lines of each file, and of the payload of each kind of fact (version ${FACT_VERSION}; lines of
                      older versions keep the payload that was written)

To prove the journal: 'digest' of a line is the SHA-256 of the salt's bytes followed by its payload as canonical JSON
(RFC 8785) in UTF-8. 'hash' is the SHA-256 of the canonical JSON of the line without hash, salt and payload. 'prev' is the
hash of the line before it in the same chain, or 64 zeros in the first; each car has a chain, and so has the workshop.

Not in here: codes and their key, paired devices, who is signed in where, and smaller copies of photos, which are made
again.
`
}
