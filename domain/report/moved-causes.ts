import type { Fact, FactKind, FactOf } from '../facts.ts'
import { hours } from '../text/words.ts'
import { hoursOf } from './needs.ts'
import { moreOrLess } from './plain-words.ts'
import { clause, counted } from './sentences.ts'
import { isInVisitWeek, type Telling } from './telling.ts'
import type { ElsewhereChange } from './week-expected.ts'

const MOST_CAUSES = 3

/**
 * What came in between the two plans of a report that moves a finish, as clauses, the weightiest first, three at most. Told
 * from facts, because what is kept with a plan tells of other owners' cars too. Names no people.
 */
export function movedCauses(telling: Telling): readonly string[] {
  const between = factsBetween(telling)
  const of = <K extends FactKind>(kind: K): readonly FactOf<K>[] =>
    between.filter((fact: Fact): fact is Extract<Fact, FactOf<K>> => fact.kind === kind)
  return [
    ...statusCauses(of('visitStatusSet')),
    ...decidedCauses(telling, of('variationDecided'), of('declinedSettled')),
    ...raisedCauses(telling, of('variationRaised')),
    ...listCauses(of('repairAdded').length, of('repairRetired').length),
    ...againCauses(of('gateReopened').length + of('taskReopened').length),
    ...partCauses(telling, of('partMoved')),
    ...of('shellSentAway').map(({ payload }) => `the shell went away (${clause(payload.what, 'small')})`),
    ...(of('shellReturned').some(({ payload }) => payload.tookBack.length > 0)
      ? ['the treatment away undid some of the work']
      : []),
    ...(of('holdSet').length > 0 ? ['part of the work had to be held'] : []),
    ...(telling.expected?.elsewhere ?? []).map((change) => ELSEWHERE_WORDS[change]),
    ...assessedCauses(of('gatePassed')),
    ...(of('findingAdded').length > 0 ? ['we found damage that had not shown before'] : []),
    ...(of('leftSaid').length > 0 ? ['we looked again at how much of the work is left'] : []),
  ].slice(0, MOST_CAUSES)
}

const ELSEWHERE_WORDS: Readonly<Record<ElsewhereChange, string>> = {
  people: 'fewer people are at work here than we had counted on',
  days: 'the days on which our workshop works were changed',
  'longer days': 'we work longer on some days',
  bays: 'a place in our workshop is out of use',
}

function factsBetween({ facts, expected, ...telling }: Telling): readonly Fact[] {
  const after = expected?.before?.revision ?? Infinity
  const upTo = expected?.finish?.revision ?? 0
  return facts.filter(
    ({ number, happened }) =>
      number > after && number <= upTo && isInVisitWeek({ facts, ...telling }, Date.parse(happened)),
  )
}

function statusCauses(facts: readonly FactOf<'visitStatusSet'>[]): readonly string[] {
  if (facts.some(({ payload }) => payload.status === 'paused')) return ['the work was paused for a time']
  return facts.some(({ payload }) => payload.status === 'in work') ? ['the work was taken up'] : []
}

function decidedCauses(
  { car }: Telling,
  decided: readonly FactOf<'variationDecided'>[],
  settled: readonly FactOf<'declinedSettled'>[],
): readonly string[] {
  const own = (id: string) => [...car.variations.values()].find((variation) => variation.id === id)
  return [
    ...decided.flatMap(({ payload }) => {
      const variation = own(payload.variationId)
      if (variation?.status !== 'accepted') return []
      return [`‘${clause(variation.title)}’ was agreed (${moreOrLess(hoursOf(variation), hours)})`]
    }),
    ...settled.flatMap(({ payload }) => {
      const title = clause(own(payload.variationId)?.title ?? '')
      if (title === '') return []
      return payload.choice === 'workshop pays'
        ? [`we do ‘${title}’ at our own cost`]
        : payload.choice === 'less work'
          ? [`‘${title}’ was left out`]
          : [`work on ‘${title}’ was stopped`]
    }),
  ]
}

function raisedCauses({ car }: Telling, raised: readonly FactOf<'variationRaised'>[]): readonly string[] {
  const ids = new Set(raised.map(({ payload }) => payload.variationId))
  return [...car.variations.values()]
    .filter(({ id, status }) => ids.has(id) && status === 'raised')
    .map(({ title }) => `‘${clause(title)}’ came up and waits for an answer`)
}

const listCauses = (added: number, retired: number): readonly string[] => [
  ...(added > 0 ? [`${counted('repair', added)} came onto the list`] : []),
  ...(retired > 0 ? [`${counted('repair', retired)} came off the list`] : []),
]

const againCauses = (count: number): readonly string[] =>
  count === 0 ? [] : ['some of the work had to be done again']

/** A date that was set anew counts where there was one before. */
function partCauses(telling: Telling, moved: readonly FactOf<'partMoved'>[]): readonly string[] {
  const texts = moved.flatMap(({ payload: { partId, state, expected } }) => {
    const name = `‘${clause(telling.car.parts.get(partId)?.name ?? 'a part')}’`
    if (state === 'rejected') return [`a part was not good enough (${name})`]
    const was = telling.before?.parts.get(partId)?.expected ?? null
    if (expected === null || was === null || expected === was) return []
    return [`a part comes ${expected > was ? 'later' : 'sooner'} than we were told (${name})`]
  })
  return [...new Set(texts)]
}

function assessedCauses(passed: readonly FactOf<'gatePassed'>[]): readonly string[] {
  const repairs = new Set(
    passed.filter(({ payload }) => payload.gate === 'assessed').map(({ payload }) => payload.repairId),
  )
  if (repairs.size === 0) return []
  return [
    `we now know what ${repairs.size === 1 ? 'one repair holds' : `${counted('repair', repairs.size)} hold`} inside`,
  ]
}
