import type { Readable } from 'node:stream'
import { parseJson } from '../../domain/text/parse-json.ts'
import {
  wholeShapes,
  WHOLE_PATHS,
  type WholePart,
  type WholeRecord,
} from '../../domain/whole/whole-shapes.ts'
import { type BagProblem, bagProblem } from '../bag/bag-problem.ts'
import type { OpenBag } from '../bag/bag-shapes.ts'

const AT_ONCE = 500
/** The largest record is a plan: 20 cars with 160 repairs have under 1 MB. */
const MOST_LINE_BYTES = 64 * 1024 ** 2

/**
 * The records of one part of a bag in order, some hundreds at a time.
 *
 * @throws BagProblem for a file that is missing and for a line that has not the shape of its part
 */
export async function* readRecords<P extends WholePart>(
  bag: OpenBag,
  part: P,
): AsyncGenerator<readonly WholeRecord<P>[]> {
  const path = WHOLE_PATHS.part(part)
  if (!bag.files.has(path)) throw unreadable(`${path} is missing from the bag.`)
  let records: WholeRecord<P>[] = []
  let number = 0
  for await (const line of linesOf(await bag.read(path), path)) {
    number += 1
    records.push(toRecord(part, line, `Line ${number} of ${path}`))
    if (records.length < AT_ONCE) continue
    yield records
    records = []
  }
  yield records
}

function toRecord<P extends WholePart>(part: P, line: string, where: string): WholeRecord<P> {
  const parsed = wholeShapes[part].safeParse(parseJson(line))
  if (!parsed.success) throw unreadable(`${where} cannot be read.`)
  return parsed.data as WholeRecord<P>
}

/** Lines end with a line feed and with nothing else: texts of people may hold other breaks. */
async function* linesOf(bytes: Readable, path: string): AsyncGenerator<string> {
  const decoder = new TextDecoder('utf-8')
  let rest = ''
  for await (const chunk of bytes as AsyncIterable<Uint8Array>) {
    const lines = (rest + decoder.decode(chunk, { stream: true })).split('\n')
    rest = lines.pop() ?? ''
    if (rest.length > MOST_LINE_BYTES) throw unreadable(`A line of ${path} is longer than any record.`)
    yield* lines
  }
  if (rest !== '') throw unreadable(`${path} ends in the middle of a line.`)
}

const unreadable = (message: string): BagProblem =>
  bagProblem('bad-input', message, 'Take the workshop out once more and try with that; nothing was taken in.')
