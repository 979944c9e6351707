import type { Fact, FactKind } from '../facts.ts'
import { isPlannedBy } from '../plan/planned-by.ts'
import { idInWords, recordNames } from './record-names.ts'
import { factWords } from './record-words.ts'
import { createViewContext, type ViewInput } from './view-context.ts'

/** One car, or the workshop, as its facts tell it. */
export interface Chain {
  /** Null for the workshop. */
  readonly carName: string | null
  /** Its finish has moved by a day or more; true for the workshop, whose people and bays all cars share. */
  readonly hasMoved: boolean
  /** The whole chain: earlier facts give names to later ones. */
  readonly facts: readonly Fact[]
}

/** What goes on every day: named after everything else. */
const ROUTINE: ReadonlySet<FactKind> = new Set<FactKind>([
  'gatePassed',
  'gateNotNeeded',
  'taskSigned',
  'taskNotNeeded',
  'clockStarted',
  'clockStopped',
  'clockConfirmed',
  'timeLogged',
  'timeCorrected',
  'conditionsRead',
  'drainsChecked',
  'weldsCounted',
  'surfacePrepared',
  'fitUpRecorded',
  'layersMarked',
  'outsideGraded',
  'hoursTaken',
  'layerGraded',
  'findingAdded',
  'shellMoved',
  'estimateSet',
  'estimateAccepted',
  'estimateReviewed',
])

const MOST_NAMED = 4

/**
 * What came in between the journal numbers that two plans were made at, in words: what is out of the ordinary and
 * of the workshop or of a car that moved first, the latest before earlier, four things at most. It is kept beside the plan and in the journal, so people stand in it by
 * their ids (see {@link idInWords}), and reasons and notes, which may be erased later, are left out.
 */
export function causeWords(
  chains: readonly Chain[],
  { after, upTo }: { readonly after: number; readonly upTo: number },
  input: Omit<ViewInput, 'nameOf'>,
): string {
  const context = createViewContext({ ...input, nameOf: idInWords })
  const causes = chains.flatMap(({ carName, hasMoved, facts }) => {
    const names = recordNames(facts, context, false)
    // What another workshop recorded came with one fact of this one.
    const came = facts.findLast(({ kind }) => kind === 'carBroughtIn')?.number ?? 0
    const since = Math.max(after, came - 1)
    const on = carName === null ? '' : `${carName}: `
    return facts
      .filter(({ number, kind }) => number > since && number <= upTo && isPlannedBy(kind))
      .map((fact) => ({
        number: fact.number,
        rank: (ROUTINE.has(fact.kind) ? 2 : 0) + (hasMoved ? 0 : 1),
        words: `${on}${factWords(withoutNotes(fact), names)}`,
      }))
  })
  const ordered = causes.toSorted((a, b) => a.rank - b.rank || b.number - a.number)
  const named = ordered.slice(0, MOST_NAMED).map(({ words }) => `${words}.`)
  const others = ordered.length - named.length
  if (named.length === 0) return 'Nothing was recorded since the plan before it; time has passed.'
  return [...named, ...(others > 0 ? [`And ${others} more.`] : [])].join(' ')
}

const NOTES = ['reason', 'note', 'why', 'answer'] as const

function withoutNotes(fact: Fact): Fact {
  if (fact.kind === 'supportLifted') return { ...fact, payload: { ...fact.payload, how: '' } }
  const bare = NOTES.filter((key) => typeof (fact.payload as Record<string, unknown>)[key] === 'string')
  return {
    ...fact,
    payload: { ...fact.payload, ...Object.fromEntries(bare.map((key) => [key, ''])) },
  } as Fact
}
