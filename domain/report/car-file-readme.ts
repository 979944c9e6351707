import { GATES } from '../gates.ts'
import { mayHoldReports } from './car-file-parts.ts'
import { CAR_FILE_PATHS, type CarFileWorkshop } from './car-file-shapes.ts'

/** The envelope that a line's hash is reckoned from, in the order of its canonical form. */
const HASHED_KEYS = [
  'by',
  'chain',
  'chainNumber',
  'commandId',
  'device',
  'digest',
  'happened',
  'kind',
  'made',
  'number',
  'prev',
  'recorded',
  'version',
  'visitId',
] as const

/**
 * `README.txt`: what the file is, what is left out of it, and how a stranger reads and verifies it without this program.
 *
 * @param hasEarlier true when the records of other workshops go with it
 */
export function carFileReadme(file: CarFileWorkshop, hasEarlier: boolean): string {
  return [
    opening(file),
    contents(file, hasEarlier),
    withheld(file),
    reading(file),
    verifying(file),
    recipe(),
    program,
  ]
    .join('\n\n\n')
    .concat('\n')
}

function opening({ car, workshop, written }: CarFileWorkshop): string {
  const name = `${car.name}, shell ${car.shellNumber}`
  return `THE FILE OF A CAR'S BODYSHELL

${name} (${car.body}${car.year === null ? '' : ` of ${car.year}`})
Written by ${workshop.name} on ${written.slice(0, 10)} at ${written.slice(11, 16)} (${workshop.zone}).

This is the record of the work on this car's bodyshell: what was found in each layer of metal, what
was decided and done, who signed for it and when, the readings, and the photos that show it. It was
kept as the work went on, line by line, and no line of it can be changed afterwards without being
noticed. It says what the people of this workshop saw, did and wrote down. It is no inspection, no
approval and no valuation of the car.`
}

function contents({ choices }: CarFileWorkshop, hasEarlier: boolean): string {
  const files: readonly (readonly [string, string])[] = [
    [CAR_FILE_PATHS.book, 'the whole story to read and print'],
    [CAR_FILE_PATHS.journal, 'the record itself, one line for each thing that happened'],
    ...(hasEarlier ? ([['earlier/', 'the record of the workshop that the car was at before']] as const) : []),
    [CAR_FILE_PATHS.photos, 'one line for each photo: file, time, caption'],
    ['photos/', 'the photos as the cameras took them, named by their SHA-256'],
    [CAR_FILE_PATHS.people, 'the names behind the ids in the record'],
    [CAR_FILE_PATHS.workshop, 'workshop, car, bays, and what this copy was allowed to hold'],
    ...(mayHoldReports(choices) ? [['reports/', 'the reports that the owner was sent'] as const] : []),
    ['schema/', 'JSON Schema (draft 2020-12) of the lines and of each kind of fact'],
  ]
  return `WHAT IS WHAT

${files.map(([path, what]) => `  ${path.padEnd(16)} ${what}`).join('\n')}

The folder above this one is a bag as RFC 8493 (BagIt 1.0) describes it. The texts are UTF-8. Lines of
.jsonl files are JSON (RFC 8259), one value on each line, in the canonical form of RFC 8785.`
}

function withheld({ choices }: CarFileWorkshop): string {
  const left = [
    ...(choices.contacts ? [] : ["the owner's and other payers' names, addresses and numbers"]),
    ...(choices.prices ? [] : ['prices, amounts and rates']),
    ...(choices.hours ? [] : ['the hours that each person worked, with the times of their clocks']),
  ]
  const reports = `The reports to the owner and the words in them leave only with a copy that holds all three.`
  const words = `What people wrote in their own words, as notes, reasons and captions, is here as they wrote it.`
  if (left.length === 0)
    return `WHAT IS NOT IN IT\n\nNothing of the record was left out of this copy.\n${words}`
  return `WHAT IS NOT IN IT

This copy leaves out:
${left.map((what) => `  - ${what}`).join('\n')}
${wrapped(reports)}

What is left out stays in the record as its digest, so that the rest can still be verified and the
workshop can show later that what it then presents is what was recorded.

${wrapped(words)}`
}

const WIDTH = 96

/** One paragraph in lines that fit any screen and paper. */
function wrapped(text: string): string {
  const lines: string[] = []
  for (const word of text.split(' ')) {
    const last = lines.at(-1)
    if (last === undefined || last.length + 1 + word.length > WIDTH) lines.push(word)
    else lines[lines.length - 1] = `${last} ${word}`
  }
  return lines.join('\n')
}

function reading({ workshop, factVersion }: CarFileWorkshop): string {
  return `HOW TO READ THE RECORD

Each line of ${CAR_FILE_PATHS.journal} says what kind of thing happened ("kind"), when it happened as
stated ("happened"), when it was recorded ("recorded"), who recorded it ("by") and what it was
("payload"). The fields of a payload are described by schema/KIND.schema.json. Where there is a
schema/KIND.version-N.schema.json, it describes payloads whose "version" is N or less; where there is
a schema/KIND.redacted.schema.json, it describes what is left of a payload in a line that is shown in
part. Parts follow version ${factVersion}.

"shown" says how much of a line this copy holds:
  whole   everything
  part    "redacted" stands for the payload, without what "withheld" names
  sealed  only its place in the chain and its digests

A repair passes these gates, in this order unless it was planned otherwise:
  ${GATES.join(', ')}
Layers are listed from the innermost outwards. Hours are person-hours, lengths millimetres,
temperatures degrees Celsius, amounts whole minor units (cents) of ${workshop.currency}, without tax. A fact that
never happened is voided by a later line of kind "factVoided", which names it by its "number"; photos
of voided lines are not in this file. What was drawn on a photo is in lines of kind "photoMarked", in
shares of its width and height: the photo itself stays as it was taken. Lines before one of kind
"carBroughtIn" were recorded in another workshop; its own record is earlier/HASH.jsonl, where HASH is the
"head" that this line names, and it is read and verified like the journal.`
}

function verifying({ head }: CarFileWorkshop): string {
  return `HOW TO SEE THAT NOTHING WAS CHANGED

1. The files. In the folder above this one, on Linux or macOS:
     sha256sum -c manifest-sha256.txt
     sha256sum -c tagmanifest-sha256.txt
   On Windows, Get-FileHash prints the SHA-256 of a file to compare with the list.

2. The record. Its ${head.chainNumber} lines make a chain: each holds the hash of the one before it ("prev"), and
   the last one has the hash
     ${head.hash}
   The book prints it, and each report that was issued printed the hash that was the last one then:
   find that one in the record. If the hashes can be reckoned as below and those on paper are in the
   record, then nothing in it was changed, left out or put in since.`
}

function recipe(): string {
  return `THE RECIPE OF THE HASHES

digest = SHA-256 of the 16 bytes of "salt" followed by the UTF-8 text of "payload" in the canonical
         form of RFC 8785 (keys sorted, no blanks)
hash   = SHA-256 of the UTF-8 text of the canonical form of an object with these keys of the line:
         ${HASHED_KEYS.slice(0, 7).join(', ')},
         ${HASHED_KEYS.slice(7).join(', ')}
prev   = "hash" of the line before; 64 zeros for the first line
All are written in lower-case hexadecimal. Lines shown whole have both, lines shown in part have
"hash" only, as without its salt a digest says nothing about what is left out, and sealed lines can
be checked by "prev" of the line after them.`
}

/** Python's own JSON is canonical for every number that occurs here. */
const program = `A PROGRAM THAT DOES IT

This is Python 3; run it in the folder that holds this text. It prints where the record fails, or its
number of lines and its last hash.

--- begin ---
import hashlib, json

HASHED = (
    "${HASHED_KEYS.slice(0, 7).join(' ')} "
    "${HASHED_KEYS.slice(7).join(' ')}"
).split()

def canonical(value):
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode("utf-8")

def sha256(data):
    return hashlib.sha256(data).hexdigest()

before, place = "0" * 64, 0
for text in open("${CAR_FILE_PATHS.journal}", encoding="utf-8"):
    line, place = json.loads(text), place + 1
    good = line["chainNumber"] == place and line["prev"] == before
    if line["shown"] != "sealed":
        good = good and line["hash"] == sha256(canonical({key: line[key] for key in HASHED}))
    if line["shown"] == "whole":
        good = good and line["digest"] == sha256(bytes.fromhex(line["salt"]) + canonical(line["payload"]))
    if not good:
        raise SystemExit("Line %d is not what was recorded." % place)
    before = line["hash"]
print(place, before)
--- end ---`
