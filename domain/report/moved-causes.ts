import type { Fact, FactKind, FactOf } from '../facts.ts'
import { hours } from '../text/words.ts'
import { hoursOf } from './needs.ts'
import { moreOrLess } from './plain-words.ts'
import { clause, counted } from './sentences.ts'
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
  const between = factsBetween(telling)
  const of = <K extends FactKind>(kind: K): readonly FactOf<K>[] =>
    between.filter((fact: Fact): fact is Extract<Fact, FactOf<K>> => fact.kind === kind)
  const causes: readonly Cause[] = [
    ...statusCauses(of('visitStatusSet')),
    ...decidedCauses(telling, of('variationDecided')),
    ...settledCauses(telling, of('declinedSettled')),
    ...raisedCauses(telling, of('variationRaised')),
    ...counting(of('repairAdded').length, (count) => [
      'later',
      `${counted('repair', count)} came onto the list`,
    ]),
    ...counting(of('repairRetired').length, (count) => [
      'sooner',
      `${counted('repair', count)} came off the list`,
    ]),
    ...counting(of('gateReopened').length + of('taskReopened').length, () => [
      'later',
      'some of the work had to be done again',
    ]),
    ...partCauses(telling, of('partMoved')),
    ...of('shellSentAway').map(({ payload }): Cause => [
      'either',
      `the shell went away (${clause(payload.what, 'small')})`,
    ]),
    ...counting(of('shellReturned').filter(({ payload }) => payload.tookBack.length > 0).length, () => [
      'later',
      'the treatment away undid some of the work',
    ]),
    ...counting(of('holdSet').length, () => ['later', 'part of the work had to be held']),
    ...(telling.expected?.elsewhere ?? []).map((change) => ELSEWHERE_CAUSES[change]),
    ...assessedCauses(of('gatePassed')),
    ...counting(of('findingAdded').length, () => ['later', 'we found damage that had not shown before']),
    ...counting(of('leftSaid').length, () => ['either', 'we looked again at how much of the work is left']),
  ]
  return causes
    .filter(([way]) => way === moved || way === 'either' || moved === 'either')
    .map(([, words]) => words)
    .slice(0, MOST_CAUSES)
}

const ELSEWHERE_CAUSES: Readonly<Record<ElsewhereChange, Cause>> = {
  people: ['later', 'fewer people are at work here than we had counted on'],
  days: ['either', 'the days on which our workshop works were changed'],
  'longer days': ['sooner', 'we work longer on some days'],
  bays: ['later', 'a place in our workshop is out of use'],
}

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

function statusCauses(facts: readonly FactOf<'visitStatusSet'>[]): readonly Cause[] {
  if (facts.some(({ payload }) => payload.status === 'paused'))
    return [['later', 'the work was paused for a time']]
  return facts.some(({ payload }) => payload.status === 'in work')
    ? [['either', 'the work was taken up']]
    : []
}

function decidedCauses({ car }: Telling, decided: readonly FactOf<'variationDecided'>[]): readonly Cause[] {
  return decided.flatMap(({ payload }): readonly Cause[] => {
    const variation = car.variations.get(payload.variationId)
    if (variation?.status !== 'accepted') return []
    const more = hoursOf(variation)
    const words = `‘${clause(variation.title)}’ was agreed (${moreOrLess(more, hours)})`
    return [[more < 0 ? 'sooner' : 'later', words]]
  })
}

function settledCauses({ car }: Telling, settled: readonly FactOf<'declinedSettled'>[]): readonly Cause[] {
  return settled.flatMap(({ payload }): readonly Cause[] => {
    const title = clause(car.variations.get(payload.variationId)?.title ?? '')
    if (title === '') return []
    switch (payload.choice) {
      case 'workshop pays':
        return [['later', `we do ‘${title}’ at our own cost`]]
      case 'less work':
        return [['either', `‘${title}’ was left out`]]
      case 'stopped':
        return [['either', `work on ‘${title}’ was stopped`]]
    }
  })
}

function raisedCauses({ car }: Telling, raised: readonly FactOf<'variationRaised'>[]): readonly Cause[] {
  return raised.flatMap(({ payload }): readonly Cause[] => {
    const variation = car.variations.get(payload.variationId)
    if (variation?.status !== 'raised') return []
    return [['later', `‘${clause(variation.title)}’ came up and waits for an answer`]]
  })
}

/** A date that was set anew counts where there was one before. */
function partCauses(telling: Telling, moved: readonly FactOf<'partMoved'>[]): readonly Cause[] {
  const causes = moved.flatMap(({ payload: { partId, state, expected } }): readonly Cause[] => {
    const name = `‘${clause(telling.car.parts.get(partId)?.name ?? 'a part')}’`
    if (state === 'rejected') return [['later', `a part was not good enough (${name})`]]
    const was = telling.before?.parts.get(partId)?.expected ?? null
    if (expected === null || was === null || expected === was) return []
    const way = expected > was ? 'later' : 'sooner'
    return [[way, `a part comes ${way} than we were told (${name})`]]
  })
  return causes.filter(([, words], index) => causes.findIndex((each) => each[1] === words) === index)
}

function assessedCauses(passed: readonly FactOf<'gatePassed'>[]): readonly Cause[] {
  const repairs = new Set(
    passed.filter(({ payload }) => payload.gate === 'assessed').map(({ payload }) => payload.repairId),
  )
  return counting(repairs.size, (count) => [
    'either',
    `we now know what ${counted('repair', count)} ${count === 1 ? 'holds' : 'hold'} inside`,
  ])
}
