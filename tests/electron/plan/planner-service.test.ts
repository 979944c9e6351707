import { afterEach, describe, expect, test } from 'vitest'
import { planHistory } from '../../../db/plans.ts'
import { planIdSchema, type PersonId } from '../../../domain/ids.ts'
import { createPlanner } from '../../../electron/plan/planner-service.ts'
import { onGate } from '../../support/car-builder.ts'
import { createPlannedHost, smallBudget, until, type PlannedHost } from '../../support/planned-host.ts'
import { codes, manager, painter, welder } from '../../support/workshop.ts'
import { EXITS } from './failing-planner.ts'

let planned: PlannedHost
afterEach(() => planned.host.close())

/** Ids of the newest plans, one after the other. */
function followPlans({ host }: PlannedHost): readonly string[] {
  const ids: string[] = []
  host.planner.onMoved(() => {
    const { newest, state } = host.planner.status()
    if (newest !== null && state === 'settled' && ids.at(-1) !== newest.planId) ids.push(newest.planId)
  })
  return ids
}

const setOff = async ({ screen }: PlannedHost, personId: PersonId, name: string, skills: string[]) =>
  screen.run('changePerson', {
    personId,
    contact: { name, phone: '', email: '', address: '' },
    roles: personId === manager ? ['manager'] : ['technician'],
    skills,
    week: null,
    absences: [{ from: '2026-11-23', to: '2026-12-04' }],
    active: true,
  })

/** Nobody with the skill is there for two weeks. */
const setAllOff = async (host: PlannedHost) => {
  await setOff(host, manager, 'Mara Lindqvist', ['metalwork'])
  await setOff(host, painter, 'Tomasz Hale', ['paint', 'metalwork'])
  await setOff(host, welder, 'Ilse Brandt', ['metalwork', 'welding'])
}

const takeNewest = async (host: PlannedHost) => {
  const { proposal } = await host.settled()
  await host.screen.run('takePlan', { planId: planIdSchema.parse(proposal?.planId) })
}

describe('the planner', () => {
  test('makes one plan of changes that come quickly one after the other', async () => {
    planned = await createPlannedHost({ quietMs: 400 })
    const ids = followPlans(planned)
    planned.host.planner.start()
    await planned.addRepair('Left sill')
    await planned.addRepair('Scuttle')
    const { proposal, inForce } = await planned.settled()
    expect(ids).toHaveLength(1)
    expect(inForce).toBeNull()
    const repairs = new Set(
      proposal?.plan.work.map(({ target }) => target.kind === 'gate' && target.repairId),
    )
    expect(repairs).toEqual(new Set(['repair-boot-floor', 'repair-left-sill', 'repair-scuttle']))
  })

  test('has learned from finished repairs by its first plan, so that nobody who looks at an estimate waits for it', async () => {
    planned = await createPlannedHost()
    const { cache } = planned.host.workshop.db
    expect(cache.learned).toBeNull()
    planned.host.planner.start()
    await planned.settled()
    expect(cache.learned?.repairs).toBe(0)
  })

  test('drops the plan that it is making for a newer change, and does not plan for what no plan goes by', async () => {
    planned = await createPlannedHost()
    const { host, screen, carId, addRepair, settled } = planned
    const ids = followPlans(planned)
    // Held as for uploads: the first run is under way and cannot end.
    host.planner.hold(true)
    host.planner.start()
    await new Promise((resolve) => setTimeout(resolve, 200))
    expect(host.planner.status()).toEqual({ state: 'planning', newest: null })
    await addRepair('Left sill')
    await new Promise((resolve) => setTimeout(resolve, 200))
    host.planner.hold(false)
    const { proposal } = await settled()
    expect(
      proposal?.plan.work.some(
        ({ target }) => target.kind === 'gate' && target.repairId === 'repair-left-sill',
      ),
    ).toBe(true)
    await screen.run('addNote', { text: 'The owner rang.' }, { carId })
    expect(host.planner.status().state).toBe('settled')
    expect(ids).toHaveLength(1)
  })

  test('gives people the plan that the manager takes; a technician may not take it', async () => {
    planned = await createPlannedHost()
    const { host, screen, settled } = planned
    host.planner.start()
    const { proposal } = await settled()
    const planId = planIdSchema.parse(proposal?.planId)
    expect(await screen.send('takePlan', { planId }, { by: welder, code: codes[welder]! })).toMatchObject({
      ok: false,
      refusal: { code: 'not-allowed' },
    })
    await screen.run('takePlan', { planId })
    const view = await screen.client.plan.query()
    expect(view).toMatchObject({ proposal: null, inForce: { planId, takenBy: 'Mara Lindqvist' } })
    expect(view.inForce?.plan).toEqual(proposal?.plan)

    const first = proposal?.plan.work.find(({ target }) => target.kind === 'gate' && target.gate === 'opened')
    const [personId] = first?.people ?? []
    const sheet = await screen.client.daySheet.query({ personId: personId ?? manager })
    expect(sheet.canDo[0]).toMatchObject({ gate: 'opened', planned: first?.start })
  })

  test('refuses a plan that is not the newest any more, or that never was', async () => {
    planned = await createPlannedHost()
    const { host, screen, addRepair, settled } = planned
    host.planner.start()
    const old = (await settled()).proposal?.planId
    await addRepair('Left sill')
    await settled()
    for (const planId of [old, 'plan-of-nobody'])
      expect(await screen.send('takePlan', { planId: planIdSchema.parse(planId) })).toMatchObject({
        ok: false,
        refusal: { code: 'changed-meanwhile' },
      })
    expect((await settled()).inForce).toBeNull()
  })

  test('keeps a plan at the end of a day, and at the next start when the computer was off', async () => {
    planned = await createPlannedHost()
    const { host, carId } = planned
    const { workshop, planner } = host
    planner.start()
    await takeNewest(planned)
    const dayEnds = () => planHistory(workshop.db, carId).filter(({ why }) => why === 'day end').length
    workshop.pass({ hours: 15.9 })
    await new Promise((resolve) => setTimeout(resolve, 100))
    expect(dayEnds()).toBe(0)
    workshop.pass({ hours: 0.2 })
    await until(() => dayEnds() === 1, 'A plan of the day’s end')
    await planner.close()

    workshop.pass({ hours: 72 })
    const log: string[] = []
    const next = createPlanner({
      db: workshop.db,
      now: () => workshop.now,
      log: (words) => log.push(words),
      quietMs: 10,
      budget: smallBudget,
    })
    next.start()
    await until(() => dayEnds() === 2, 'The day end that was missed')
    await next.close()
    expect(log).toEqual([])
  })

  test('keeps a plan when a promise slips by days, with its cause in words', async () => {
    planned = await createPlannedHost()
    const { host, screen, carId, settled } = planned
    host.planner.start()
    await takeNewest(planned)
    const before = (await settled()).inForce?.plan.cars[0]?.finish80
    await setAllOff(planned)
    await settled()
    const [slipped, taken] = await screen.client.planHistory.query({ carId })
    expect(taken).toMatchObject({ why: 'taken', finish80: before })
    expect(slipped?.why).toBe('moved')
    expect((slipped?.finish80 ?? 0) - (before ?? 0)).toBeGreaterThan(7 * 86_400_000)
    expect(slipped?.cause).toBe(
      'Ilse Brandt changed, off 23 Nov to 4 Dec. Tomasz Hale changed, off 23 Nov to 4 Dec. Mara Lindqvist changed, off 23 Nov to 4 Dec.',
    )
  })

  test('takes changes outside the frozen days by itself, where the workshop wants it', async () => {
    planned = await createPlannedHost()
    const { host, screen, carId, addRepair, settled } = planned
    const planning = { moveMinutes: 30, movePeople: 2, decisionDays: 7, frozenDays: 1, takeByItself: true }
    await screen.run('setPlanning', planning)
    host.planner.start()
    await takeNewest(planned)
    const first = (await settled()).inForce?.planId
    // Bound to begin after the frozen days.
    await addRepair('Left sill')
    await screen.run(
      'pinWork',
      { target: onGate('Left sill', 'opened'), people: [], day: '2026-12-14' },
      { carId },
    )
    const { inForce, proposal } = await settled()
    expect(inForce?.planId).not.toBe(first)
    expect(proposal).toBeNull()
    expect(planHistory(host.workshop.db, carId)[0]).toMatchObject({ why: 'taken' })

    // Within them it stays a proposal.
    await setAllOff(planned)
    const asked = await settled()
    expect(asked.inForce?.planId).toBe(inForce?.planId)
    expect(asked.proposal).not.toBeNull()
  })

  test('outlives the loss of its worker: it says so, tries once more, and the host goes on', async () => {
    planned = await createPlannedHost({
      workerUrl: new URL('./failing-planner.ts', import.meta.url),
      budget: { ...smallBudget, seed: EXITS },
    })
    const { host, screen } = planned
    host.planner.start()
    await until(() => host.log.length === 2, 'The second loss')
    await new Promise((resolve) => setTimeout(resolve, 200))
    expect(host.log).toEqual([0, 1].map(() => expect.stringContaining('The planner was lost')))
    expect(await screen.client.plan.query()).toMatchObject({
      state: 'settled',
      inForce: null,
      proposal: null,
    })
  })

  test('plans anew when a working day begins, and when somebody looks at a plan that is an hour old', async () => {
    planned = await createPlannedHost({ checkMs: 1_000_000 })
    const { host, screen, settled } = planned
    const madeAt = async () => (await settled()).proposal?.plan.madeAt
    host.planner.start()
    const first = await madeAt()
    host.workshop.pass({ minutes: 61 })
    await screen.client.plan.query()
    const second = await madeAt()
    expect(second).toBeGreaterThan(first ?? 0)
    host.workshop.pass({ hours: 24 })
    await screen.client.plan.query()
    expect(await madeAt()).toBeGreaterThan(second ?? 0)
  })

  test('tells the screens when the plan has moved', async () => {
    planned = await createPlannedHost()
    const { host, screen, settled } = planned
    const answer = await screen.request('/trpc/revisions', { headers: { accept: 'text/event-stream' } })
    const reader = answer.body!.pipeThrough(new TextDecoderStream()).getReader()
    let heard = ''
    host.planner.start()
    await settled()
    while (!heard.includes('"plan":true')) heard += (await reader.read()).value
    expect(heard).toContain('"carIds":[]')
    await reader.cancel()
  })
})
