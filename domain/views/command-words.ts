import type { Command, CommandKind, CommandPayload } from '../commands/command-shapes.ts'
import type { Fact, FactKind } from '../facts.ts'
import type { EdgeReading } from '../facts/shapes.ts'
import { capital, joinWords } from '../text/words.ts'
import type { RecordNames } from './record-names.ts'
import { factWords } from './record-words.ts'

/** Commands whose payload is that of one fact. */
const AS_FACT: { readonly [K in CommandKind]?: FactKind } = {
  setSafety: 'safetySet',
  addDimension: 'dimensionAdded',
  readDimension: 'dimensionRead',
  addNote: 'noted',
  askRelease: 'releaseAsked',
  attachPhoto: 'photoAttached',
  setCaption: 'captionSet',
  setPhotoShows: 'photoShowsSet',
  markPhoto: 'photoMarked',
  gradeOutside: 'outsideGraded',
  gradeLayer: 'layerGraded',
  markLayers: 'layersMarked',
  addFinding: 'findingAdded',
  readConditions: 'conditionsRead',
  checkDrains: 'drainsChecked',
  prepareSurface: 'surfacePrepared',
  needPart: 'partNeeded',
  movePart: 'partMoved',
  confirmClock: 'clockConfirmed',
  logTime: 'timeLogged',
  correctTime: 'timeCorrected',
  completeWatch: 'watchCompleted',
}

type Words = { readonly [K in CommandKind]?: (payload: CommandPayload<K>, names: RecordNames) => string }

/** Those that have no fact yet to take the words from: the host works out the rest of it. */
const OWN_WORDS: Words = {
  addRepair: ({ plan }) => `Repair added: ${plan.name}`,
  startClock: ({ on, hotWork }, { targets }) =>
    `Clock started on ${targets(on)}${hotWork ? ', hot work' : ''}`,
  stopClock: ({ entryId, overtime }, { entry }) =>
    `Clock stopped on ${entry(entryId)}${overtime ? ', overtime confirmed' : ''}`,
  passGate: ({ repairIds, gate, did, note }, { of }) =>
    `${joinWords(repairIds.map(of))}: ${gate}, done by ${joinWords(did.map(of))}${note === '' ? '' : `: ${note}`}`,
  countWelds: ({ repairId, welds }, { of }) =>
    `${of(repairId)}: ${welds.map(({ jointId, done }) => `${of(jointId)} ${done} done`).join(', ')}`,
  recordFitUp: ({ groupId, readings, good }, { of }) =>
    `${of(groupId)}: ${readings.map(edgeWords(of)).join('; ')}; ${good ? 'good' : 'not good'}`,
  signTask: ({ taskId }, { of }) => `Task ${of(taskId)}`,
}

const edgeWords =
  (of: RecordNames['of']) =>
  ({ edgeId, gapsMm, flushMm }: EdgeReading): string =>
    `${of(edgeId)} ${gapsMm.join(', ')} mm, flush ${flushMm} mm`

/**
 * What a command says, for the person who entered it while the host could not be asked. One of another program version, or of a
 * kind that is never entered on the floor, is named by its kind.
 */
export function commandWords({ kind, payload }: Command, names: RecordNames): string {
  // The table's entry for a kind takes that kind's payload; the compiler cannot join the two by itself.
  const own = OWN_WORDS[kind] as ((payload: unknown, names: RecordNames) => string) | undefined
  const fact = AS_FACT[kind]
  try {
    if (own !== undefined) return own(payload, names)
    if (fact !== undefined) return factWords({ kind: fact, payload } as Fact, names)
  } catch {
    // What cannot be read is refused by the host, in words.
  }
  return capital(kind.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`))
}
