import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { WhatIf } from '../../../domain/plan/plan.ts'
import { lastNumber } from '../../../db/journal.ts'
import { refusalOf } from '../../support/host.ts'
import { createPlannedHost, type PlannedHost } from '../../support/planned-host.ts'
import { manager, painter, welder } from '../../support/workshop.ts'

let planned: PlannedHost
beforeAll(async () => {
  planned = await createPlannedHost()
  planned.host.planner.start()
  await planned.settled()
})
afterAll(() => planned.host.close())

const off = (personId: typeof welder): WhatIf => ({
  kind: 'person off',
  personId,
  from: '2026-11-23',
  to: '2026-12-04',
})
const everybodyOff = [manager, welder, painter].map(off)
const ask = (whatIfs: readonly WhatIf[], { screen } = planned) =>
  screen.client.tryWhatIf.mutate({ whatIfs: [...whatIfs] })

describe('what if', () => {
  test('is compared with the plan as it is, and changes nothing', async () => {
    const { host, settled } = planned
    const before = lastNumber(host.workshop.db)
    const { proposal } = await settled()
    const answer = await ask(everybodyOff)
    expect(answer).toMatchObject({ whatIfs: everybodyOff, words: '' })
    const [car] = answer.cars
    expect(car?.finishBefore).toBe(proposal?.plan.cars[0]?.finish)
    expect((car?.finishAfter ?? 0) - (car?.finishBefore ?? 0)).toBeGreaterThan(7 * 86_400_000)
    expect(answer.changes).toBe(answer.plan.work.length)
    expect(lastNumber(host.workshop.db)).toBe(before)
    expect((await settled()).proposal?.planId).toBe(proposal?.planId)
  })

  test('makes no difference where nothing hangs on it', async () => {
    const answer = await ask([{ kind: 'one more bay', name: 'Bay 9', kinds: ['booth'] }])
    expect(answer).toMatchObject({ changes: 0, words: '' })
    expect(answer.cars.map(({ finishBefore, finishAfter }) => finishAfter === finishBefore)).toEqual([true])
  })

  test('says why it cannot be tried, and leaves the plan as it is', async () => {
    const answer = await ask([
      { kind: 'part late', carId: planned.carId, partId: 'part-nowhere', expected: '2026-12-10' },
    ])
    expect(answer.words).not.toBe('')
    expect(answer.changes).toBe(0)
  })

  test('asked again on the same device takes the place of the question before, not of another device’s', async () => {
    const { host } = planned
    const other = await host.openScreen()
    await other.signIn(manager)
    const older = ask([off(welder)])
    const others = other.client.tryWhatIf.mutate({ whatIfs: [off(painter)] })
    const newer = ask([off(manager)])
    expect((await refusalOf(older)).code).toBe('changed-meanwhile')
    expect((await others).whatIfs).toEqual([off(painter)])
    expect((await newer).whatIfs).toEqual([off(manager)])
  })

  test('is the manager’s to ask, with things that can be read, ten at most', async () => {
    const screen = await planned.host.openScreen()
    await screen.signIn(welder)
    expect((await refusalOf(screen.client.tryWhatIf.mutate({ whatIfs: [off(welder)] }))).code).toBe(
      'not-allowed',
    )
    const asked = (whatIfs: unknown) => refusalOf(ask(whatIfs as readonly WhatIf[]))
    for (const bad of [
      [],
      Array(11).fill(off(welder)),
      [{ ...off(welder), to: 'Friday' }],
      [{ kind: 'rain' }],
    ])
      expect(await asked(bad)).toMatchObject({ code: 'bad-input' })
    expect((await asked(Array(11).fill(off(welder)))).message).toBe(
      'At most ten things can be tried at once.',
    )
  })

  test('waits for a first plan to be held against', async () => {
    const fresh = await createPlannedHost()
    expect((await refusalOf(ask([off(welder)], fresh))).code).toBe('not-now')
    await fresh.host.close()
  })
})
