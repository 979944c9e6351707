import { type Fact, type FactKind, type FactOf, factsOfKind } from '../facts.ts'
import { hoursOf } from './needs.ts'
import type { OwnerLanguage } from '../language/owner-language.ts'
import { clause } from './sentences.ts'
import { isInVisitWeek, type Telling } from './telling.ts'
import type { ElsewhereChange } from './week-expected.ts'

const MOST_CAUSES = 3

/** Which way something can move a finish. */
type Way = 'later' | 'sooner' | 'either'
type Cause = readonly [way: Way, words: string]

/**
 * What came in between the two plans of a report that can have moved a finish that way, as clauses, the weightiest first,
 * three at most. Told from facts, because what is kept with a plan tells of other owners' cars too. Names no people.
 */
export function movedCauses(telling: Telling, moved: 'later' | 'sooner' | 'either'): readonly string[] {
  const { causes: words } = telling.say
  const between = factsBetween(telling)
  const of = <K extends FactKind>(kind: K): readonly FactOf<K>[] => factsOfKind(between, kind)
  const causes: readonly Cause[] = [
    ...statusCauses(words, of('visitStatusSet')),
    ...decidedCauses(telling, of('variationDecided')),
    ...settledCauses(telling, of('declinedSettled')),
    ...raisedCauses(telling, of('variationRaised')),
    ...counting(of('repairAdded').length, (count) => ['later', words.listed(count)]),
    ...counting(of('repairRetired').length, (count) => ['sooner', words.unlisted(count)]),
    ...counting(of('gateReopened').length + of('taskReopened').length, () => ['later', words.redone]),
    ...partCauses(telling, of('partMoved')),
    ...of('shellSentAway').map(({ payload }): Cause => ['either', words.wentAway(payload.what)]),
    ...counting(of('shellReturned').filter(({ payload }) => payload.tookBack.length > 0).length, () => [
      'later',
      words.treatmentUndid,
    ]),
    ...counting(of('holdSet').length, () => ['later', words.held]),
    ...(telling.expected?.elsewhere ?? []).map((change): Cause => [
      ELSEWHERE_WAYS[change],
      words.elsewhere[change],
    ]),
    ...assessedCauses(words, of('gatePassed')),
    ...counting(of('findingAdded').length, () => ['later', words.damage]),
    ...counting(of('leftSaid').length, () => ['either', words.lookedAgain]),
  ]
  return causes
    .filter(([way]) => way === moved || way === 'either' || moved === 'either')
    .map(([, said]) => said)
    .slice(0, MOST_CAUSES)
}

const ELSEWHERE_WAYS: Readonly<Record<ElsewhereChange, Way>> = {
  people: 'later',
  days: 'either',
  'longer days': 'sooner',
  bays: 'later',
}

type Words = OwnerLanguage['causes']

const counting = (count: number, cause: (count: number) => Cause): readonly Cause[] =>
  count === 0 ? [] : [cause(count)]

function factsBetween(telling: Telling): readonly Fact[] {
  const after = telling.expected?.before?.revision ?? Infinity
  const upTo = telling.expected?.finish?.revision ?? 0
  return telling.facts.filter(
    ({ number, happened }) =>
      number > after && number <= upTo && isInVisitWeek(telling, Date.parse(happened)),
  )
}

function statusCauses(words: Words, facts: readonly FactOf<'visitStatusSet'>[]): readonly Cause[] {
  if (facts.some(({ payload }) => payload.status === 'paused')) return [['later', words.paused]]
  return facts.some(({ payload }) => payload.status === 'in work') ? [['either', words.takenUp]] : []
}

function decidedCauses(
  { car, say }: Telling,
  decided: readonly FactOf<'variationDecided'>[],
): readonly Cause[] {
  return decided.flatMap(({ payload }): readonly Cause[] => {
    const variation = car.variations.get(payload.variationId)
    if (variation?.status !== 'accepted') return []
    const more = hoursOf(variation)
    const words = say.causes.agreed(variation.title, say.figures.moreOrLess(more))
    return [[more < 0 ? 'sooner' : 'later', words]]
  })
}

function settledCauses(
  { car, say }: Telling,
  settled: readonly FactOf<'declinedSettled'>[],
): readonly Cause[] {
  return settled.flatMap(({ payload }): readonly Cause[] => {
    const title = car.variations.get(payload.variationId)?.title ?? ''
    if (clause(title) === '') return []
    switch (payload.choice) {
      case 'workshop pays':
        return [['later', say.causes.atOurCost(title)]]
      case 'less work':
        return [['either', say.causes.leftOut(title)]]
      case 'stopped':
        return [['either', say.causes.stopped(title)]]
    }
  })
}

function raisedCauses({ car, say }: Telling, raised: readonly FactOf<'variationRaised'>[]): readonly Cause[] {
  return raised.flatMap(({ payload }): readonly Cause[] => {
    const variation = car.variations.get(payload.variationId)
    if (variation?.status !== 'raised') return []
    return [['later', say.causes.raised(variation.title)]]
  })
}

/** A date that was set anew counts where there was one before. */
function partCauses(telling: Telling, moved: readonly FactOf<'partMoved'>[]): readonly Cause[] {
  const { causes: words } = telling.say
  const causes = moved.flatMap(({ payload: { partId, state, expected } }): readonly Cause[] => {
    const name = telling.car.parts.get(partId)?.name ?? null
    if (state === 'rejected') return [['later', words.badPart(name)]]
    const was = telling.before?.parts.get(partId)?.expected ?? null
    if (expected === null || was === null || expected === was) return []
    const way = expected > was ? 'later' : 'sooner'
    return [[way, words.partMoved(name, way)]]
  })
  return causes.filter(([, said], index) => causes.findIndex((each) => each[1] === said) === index)
}

function assessedCauses(words: Words, passed: readonly FactOf<'gatePassed'>[]): readonly Cause[] {
  const repairs = new Set(
    passed.filter(({ payload }) => payload.gate === 'assessed').map(({ payload }) => payload.repairId),
  )
  return counting(repairs.size, (count) => ['either', words.known(count)])
}
