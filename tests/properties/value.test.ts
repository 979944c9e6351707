/** Over 300 lines because the stories and the properties that they are held to are read together. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { CarState, EntryState } from '../../domain/car.ts'
import { GATES } from '../../domain/gates.ts'
import { entryIdSchema, variationIdSchema } from '../../domain/ids.ts'
import { activeRepairs } from '../../domain/rules/standing.ts'
import { instantToIso, localDateOf, MS_PER_HOUR } from '../../domain/time/zone.ts'
import { authorisedAmounts } from '../../domain/value/authorised-amounts.ts'
import { addHours, carHours, visitFigures } from '../../domain/value/hours.ts'
import { plannedDays } from '../../domain/value/planned-days.ts'
import { plannedRows } from '../../domain/value/planned-rows.ts'
import { planShares } from '../../domain/value/planned-value.ts'
import { targetKey } from '../../domain/value/target.ts'
import { GROUPINGS, totalFigures } from '../../domain/value/variance-groups.ts'
import { varianceRows } from '../../domain/value/variance-rows.ts'
import { type Act, acts, perform } from '../support/acts.ts'
import { personId } from '../support/car-builder.ts'
import { VISIT, type Outcome } from '../support/driver.ts'
import { createScene, type Scene } from '../support/scene.ts'
import { groupInAllWays } from '../support/variance-sums.ts'
import { sure } from '../support/varied.ts'

/** A slice in every run; PANELWRIGHT_CASES for more. */
const CASES = Math.ceil(Number(process.env['PANELWRIGHT_CASES'] ?? 1200) / 20)

type Step =
  | { readonly kind: 'act'; readonly act: Act }
  | { readonly kind: 'log' | 'vary'; readonly a: number; readonly b: number; readonly c: number }

const stories: fc.Arbitrary<readonly Step[]> = fc
  .tuple(acts, fc.infiniteStream(fc.record({ a: fc.nat(1000), b: fc.nat(1000), c: fc.nat(1000) })))
  .map(([list, draws]) =>
    list.flatMap((act): readonly Step[] => {
      const { a, b, c } = draws.next().value
      const kind = a % 4 === 0 ? 'vary' : 'log'
      return a % 3 === 0
        ? [{ kind: 'act', act }]
        : [
            { kind, a, b, c },
            { kind: 'act', act },
          ]
    }),
  )

const WORKERS = ['Joss', 'Wren', 'Mara'].map(personId)

function take(scene: Scene, step: Step): Outcome | undefined {
  switch (step.kind) {
    case 'act':
      return perform(scene, step.act)
    case 'log':
      return log(scene, step)
    case 'vary':
      return vary(scene, step)
  }
}

/** Hours until now, or on the day without times, on one or two gates. */
function log({ driver }: Scene, { a, b, c }: Extract<Step, { kind: 'log' | 'vary' }>): Outcome | undefined {
  const repairs = activeRepairs(driver.car)
  const [repair, other] = [repairs[b % repairs.length], repairs[c % repairs.length]]
  if (!repair || !other) return undefined
  const hours = 0.5 + (c % 5)
  driver.now += (hours + 0.5) * MS_PER_HOUR
  const gate = GATES[a % GATES.length]!
  const targets = [{ kind: 'gate', repairId: repair.id, gate } as const]
  const { zone } = driver.workshop
  return driver.give('logTime', {
    entryId: entryIdSchema.parse(`entry-${driver.facts.length}`),
    personId: WORKERS[b % WORKERS.length]!,
    on: {
      kind: 'work',
      targets: other === repair ? targets : [...targets, { ...targets[0]!, repairId: other.id }],
    },
    hotWork: false,
    cause: c % 3 === 0 ? 'measurement' : null,
    time:
      b % 4 === 0
        ? { kind: 'day', date: localDateOf(driver.now, zone), hours: Math.min(2, hours) }
        : {
            kind: 'span',
            start: instantToIso(driver.now - hours * MS_PER_HOUR, zone),
            end: instantToIso(driver.now, zone),
          },
    shares: null,
    note: '',
  })
}

/** Answers the variation that waits, else raises one for more work or less. */
function vary({ driver }: Scene, { a, b, c }: Extract<Step, { kind: 'log' | 'vary' }>): Outcome | undefined {
  const open = [...driver.car.variations.values()].find((each) => each.status === 'raised')
  if (open)
    return driver.give('decideVariation', {
      variationId: open.id,
      changed: null,
      decision: a % 3 === 0 ? 'declined' : 'accepted',
      how: 'call',
      note: '',
    })
  const repairs = activeRepairs(driver.car)
  const repair = repairs[b % repairs.length]
  if (!repair) return undefined
  return driver.give('raiseVariation', {
    variationId: variationIdSchema.parse(`varied-${driver.facts.length}`),
    visitId: VISIT,
    payer: 'owner',
    title: 'Another scope',
    why: 'it was found',
    ifNot: '',
    findings: [],
    attachments: [],
    lines: [sure({ kind: 'gate', repairId: repair.id, gate: GATES[c % GATES.length]! }, (c % 8) - 3)],
    costs: [],
  })
}

const contextOf = ({ driver }: Scene) => ({ at: driver.now, workshop: driver.workshop })

/** Every figure of the car in every way that it is asked for. */
const allFigures = (scene: Scene) => {
  const { car } = scene.driver
  const context = contextOf(scene)
  return {
    groups: groupInAllWays(varianceRows(car, car.visits.get(VISIT)!, context)),
    figures: [...visitFigures(car, VISIT, context)],
  }
}

/**
 * Order and the last bits of sums may differ; keys and figures may not. What is left of work tells hours of a day without
 * times by when they were written down, so that for those the hours expected are left out.
 */
function expectSameFigures(actual: unknown, expected: unknown, isWithoutTimes: boolean): void {
  const figuresOf = (value: unknown) =>
    leaves('', value)
      .filter((leaf) => !isWithoutTimes || !leaf.includes('/expected='))
      .toSorted()
  expect(figuresOf(actual)).toEqual(figuresOf(expected))
}

function leaves(path: string, value: unknown): readonly string[] {
  if (typeof value === 'number') return Math.abs(value) < 1e-9 ? [] : [`${path}=${value.toFixed(6)}`]
  if (value instanceof Map) return leaves(path, [...value])
  if (Array.isArray(value))
    return value.flatMap((each, index) => leaves(`${path}/${nameOf(each, index)}`, each))
  if (typeof value === 'object' && value !== null)
    return Object.entries(value).flatMap(([key, each]) => leaves(`${path}/${key}`, each))
  return []
}

/** Lists of groups and of pairs are told by their key, as entries come in another order once one is entered again. */
const nameOf = (value: unknown, index: number): string => {
  if (Array.isArray(value) && typeof value[0] === 'string') return value[0]
  return typeof value === 'object' && value !== null && 'key' in value ? String(value.key) : `${index}`
}

const hasOpenVariation = ({ driver }: Scene): boolean =>
  [...driver.car.variations.values()].some(({ status }) => status === 'raised')

/** Whether the variation that was accepted last takes hours off, or is on a repair that was retired before the answer. */
const isLessOrGivenBack = (scene: Scene): boolean => {
  const { variations } = scene.driver.car
  const figures = visitFigures(scene.driver.car, VISIT, contextOf(scene))
  const accepted = [...variations.values()].filter(({ status }) => status === 'accepted')
  return accepted
    .at(-1)!
    .lines.some(({ target, hours }) => hours < 0 || figures.get(targetKey(target))!.hours.givenBack > 0)
}

/** Each amount is planned on two days of its own. */
function baselineAndPlan(scene: Scene) {
  const { car } = scene.driver
  const planned = new Map(
    authorisedAmounts(car).map(({ id, accepted }) => [
      id,
      [0, 1].map((day) => ({
        date: `2026-12-${String(1 + ((accepted + day) % 28)).padStart(2, '0')}`,
        share: 0.5,
      })),
    ]),
  )
  const days = plannedDays(car, car.visits.get(VISIT)!, planned, contextOf(scene))
  const byDate = new Map<string, number>()
  for (const { date, hours } of days) byDate.set(date, (byDate.get(date) ?? 0) + hours)
  return { baseline: baselineOf(car), planned: byDate }
}

const baselineOf = (car: CarState): number =>
  [...car.visits.values()]
    .flatMap(({ lines }) => [...lines.values()])
    .reduce((sum, l) => sum + l.baseline.agreed, 0)

describe('hours and their value, through any commands that are accepted', () => {
  test('earned never exceeds authorised, on no gate and in no sum of gates', () => {
    const seen = { earned: 0 }
    fc.assert(
      fc.property(stories, (story) => {
        const scene = createScene()
        for (const step of story) take(scene, step)
        const { groups, figures } = allFigures(scene)
        for (const [key, { hours }] of figures) {
          expect(hours.earned, key).toBeLessThanOrEqual(hours.authorised + 1e-6)
          seen.earned += hours.earned
        }
        for (const grouping of ['visit', 'type', 'gate', 'zone', 'person'] as const)
          for (const group of groups[grouping])
            expect(group.figures.earned, group.key).toBeLessThanOrEqual(group.figures.authorised + 1e-6)
      }),
      { numRuns: CASES, endOnFailure: true },
    )
    expect(seen.earned).toBeGreaterThan(CASES)
  })

  test('every grouping adds up to the car, rework by cause and planned value too', () => {
    const seen = { spent: 0, rework: 0, onReleased: 0, planned: 0, givenBack: 0 }
    fc.assert(
      fc.property(stories, (story) => {
        const scene = createScene()
        for (const step of story) take(scene, step)
        const { car, workshop, now } = scene.driver
        const context = contextOf(scene)
        const visit = car.visits.get(VISIT)!
        const figures = [...visitFigures(car, VISIT, context).values()]
        const pieces = figures.map(({ target }, index) => ({
          target,
          start: now - (30 - index) * 24 * MS_PER_HOUR,
          finish: now - (29 - 2 * index) * 24 * MS_PER_HOUR,
          people: [],
        }))
        const authorised = new Map(figures.map((each) => [targetKey(each.target), each.hours.authorised]))
        const shares = planShares(pieces, workshop)
        const planned = pieces.flatMap(({ target }) => {
          const key = targetKey(target)
          const hours = authorised.get(key) ?? 0
          return (shares.get(key) ?? []).map(({ date, share }) => ({ target, date, hours: hours * share }))
        })
        const groups = groupInAllWays([
          ...varianceRows(car, visit, context),
          ...plannedRows(car, visit, planned, context),
        ])
        const { planned: pv, ...whole } = totalFigures(groups.visit)
        const today = localDateOf(now, workshop.zone)
        const plannedByNow = planned.reduce((sum, { date, hours }) => sum + (date <= today ? hours : 0), 0)
        expect(pv).toBeCloseTo(plannedByNow, 6)
        expect(whole).toMatchObject(closeTo(carHours(car, VISIT, context)))
        expect(whole.earnedOfPlanned).toBeCloseTo(whole.earned, 6)
        expect(whole.baseline).toBeCloseTo(baselineOf(car), 6)
        expect(whole.expected).toBeGreaterThanOrEqual(whole.spent - 1e-6)
        expect(whole.onReleased).toBeLessThanOrEqual(whole.spent + 1e-6)
        for (const grouping of GROUPINGS) {
          expect(totalFigures(groups[grouping]), grouping).toEqual(closeTo({ ...whole, planned: pv }))
          for (const { figures: own, causes } of groups[grouping])
            expect([...causes.values()].reduce((sum, hours) => sum + hours, 0)).toBeCloseTo(own.rework, 6)
        }
        for (const key of Object.keys(seen) as (keyof typeof seen)[])
          seen[key] += Math.abs(key === 'planned' ? pv : whole[key])
      }),
      { numRuns: CASES, endOnFailure: true },
    )
    // The stories really hold each kind of hours.
    for (const [figure, sum] of Object.entries(seen)) expect(sum, figure).toBeGreaterThan(1)
  })

  test('accepting a variation never lowers the baseline, nor more work the planned value of any day', () => {
    const seen = { accepted: 0, more: 0, planned: 0 }
    fc.assert(
      fc.property(stories, (story) => {
        const scene = createScene()
        for (const step of story) {
          const isAnswer = step.kind === 'vary' && hasOpenVariation(scene)
          const before = isAnswer ? baselineAndPlan(scene) : null
          const outcome = take(scene, step)
          const isAcceptance =
            outcome?.ok &&
            outcome.facts.some(
              (fact) => fact.kind === 'variationDecided' && fact.payload.decision === 'accepted',
            )
          if (isAcceptance !== true || before === null) continue
          seen.accepted += 1
          const after = baselineAndPlan(scene)
          expect(after.baseline).toBeGreaterThanOrEqual(before.baseline)
          if (isLessOrGivenBack(scene)) continue
          seen.more += 1
          for (const [date, hours] of before.planned) {
            expect(after.planned.get(date) ?? 0, date).toBeGreaterThanOrEqual(hours - 1e-9)
            seen.planned += hours
          }
        }
      }),
      { numRuns: CASES, endOnFailure: true },
    )
    expect(seen.accepted).toBeGreaterThan(CASES / 2)
    expect(seen.more).toBeGreaterThan(CASES / 4)
    expect(seen.planned).toBeGreaterThan(CASES)
  })

  test('voiding an hour and entering it again leaves every figure as it was', () => {
    const seen = { entered: 0, rework: 0 }
    fc.assert(
      fc.property(stories, fc.nat(1000), (story, choice) => {
        const scene = createScene()
        for (const step of story) take(scene, step)
        const entries = [...scene.driver.car.entries.values()].filter(({ gone }) => gone === null)
        const entry = entries[choice % Math.max(1, entries.length)]
        if (entry === undefined) return
        const before = allFigures(scene)
        scene.driver.must('voidFact', { number: entry.stamp.number, reason: 'entered on the wrong car' })
        expect(carHours(scene.driver.car, VISIT, contextOf(scene)).spent).toBeLessThan(
          addHours(before.figures.map(([, { hours }]) => hours)).spent,
        )
        enterAgain(scene, entry)
        expectSameFigures(allFigures(scene), before, entry.time.kind === 'day')
        seen.entered += 1
        seen.rework += entry.rework.includes(true) ? 1 : 0
      }),
      { numRuns: CASES, endOnFailure: true },
    )
    expect(seen.entered).toBeGreaterThan(CASES / 2)
    expect(seen.rework).toBeGreaterThan(0)
  })
})

function enterAgain(
  { driver }: Scene,
  { personId: person, on, hotWork, cause, time, shares }: EntryState,
): void {
  if (time.kind === 'running') throw new Error('no clock is started in these stories')
  driver.must('logTime', {
    entryId: entryIdSchema.parse(`entry-again-${driver.facts.length}`),
    personId: person,
    on: structuredClone(on) as never,
    hotWork,
    cause,
    time,
    shares: shares === null ? null : [...shares],
    note: '',
  })
}

const closeTo = (figures: object): object =>
  Object.fromEntries(Object.entries(figures).map(([key, value]) => [key, expect.closeTo(Number(value), 6)]))
