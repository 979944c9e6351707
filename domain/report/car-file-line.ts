import type { NewFact } from '../facts.ts'
import { canonicalJson } from '../text/canonical-json.ts'
import type { CarFileLine } from './car-file-shapes.ts'
import { withheldPart } from './car-file-withheld.ts'
import type { FileChoices } from './file-choices.ts'

type WholeLine = Extract<CarFileLine, { readonly shown: 'whole' }>

/** A line of the journal as it was written; `salt` in hexadecimal, `json` the canonical text of its payload. */
export type WrittenLine = Omit<WholeLine, 'shown' | 'payload'> & { readonly json: string }

/**
 * The line as it leaves with a car's file.
 *
 * @param fact the line's payload in the newest version
 */
export function carFileLine(written: WrittenLine, fact: NewFact, choices: FileChoices): CarFileLine {
  const { json, salt, ...line } = written
  const part = withheldPart(fact, choices)
  if (part === null)
    return { shown: 'whole', ...line, payload: JSON.parse(json) as WholeLine['payload'], salt }
  const withheld = [...part.withheld]
  if (part.redacted !== null) return { shown: 'part', ...line, withheld, redacted: part.redacted }
  const { number, chain, chainNumber, kind, version, digest, prev, hash } = line
  return { shown: 'sealed', number, chain, chainNumber, kind, version, digest, prev, hash, withheld }
}

/** A whole line of another file with what may leave now: lines that came in part or sealed are that already. */
export function narrowedLine(line: WholeLine, fact: NewFact, choices: FileChoices): CarFileLine {
  const { shown: _, payload, ...written } = line
  return carFileLine({ ...written, json: canonicalJson(payload) }, fact, choices)
}

/** Every text in a value that is asked for by `isWanted`, in objects and lists of any depth. */
export function textsIn(value: unknown, isWanted: (text: string) => boolean): readonly string[] {
  if (typeof value === 'string') return isWanted(value) ? [value] : []
  if (typeof value !== 'object' || value === null) return []
  return Object.values(value).flatMap((each) => textsIn(each, isWanted))
}
