import { describe, expect, it } from 'vitest'
import type { Payer } from '../../../domain/facts/shapes.ts'
import { gateLineId } from '../../../domain/state/apply-repair.ts'
import { onGate, repairId } from '../../support/car-builder.ts'
import { createDriver, type Driver, VISIT } from '../../support/driver.ts'
import { repairPlan } from '../../support/plans.ts'
import { targetHours } from '../../../domain/value/hours.ts'

const add = (driver: Driver, name: string, payer: Payer): void => {
  const plan = repairPlan(name)
  driver.must('addRepair', {
    repairId: repairId(name),
    type: null,
    plan,
    payer,
    covers: [],
    coveredBy: [],
  })
}
const accept = (driver: Driver, name: string, payer: Payer): void => {
  const lineIds = [gateLineId(repairId(name), 'opened')]
  driver.must('acceptEstimate', { visitId: VISIT, payer, lineIds, costIds: [], how: 'call', note: '' })
}
const merge = (driver: Driver) =>
  driver.give('mergeRepairs', { repairId: repairId('Patch'), into: repairId('Floor'), reason: 'one plate' })
const authorisedOf = (driver: Driver, name: string): number =>
  targetHours(driver.car, VISIT, onGate(name, 'opened'), { at: driver.now, workshop: driver.workshop })
    .authorised

describe('merging two repairs', () => {
  it('takes the agreed hours of the one to the other', () => {
    const driver = createDriver()
    for (const name of ['Patch', 'Floor']) {
      add(driver, name, 'owner')
      accept(driver, name, 'owner')
    }
    expect(merge(driver).ok).toBe(true)
    expect(authorisedOf(driver, 'Floor')).toBe(4)
  })

  it('is refused where one payer would come to pay what another has agreed to', () => {
    const driver = createDriver()
    add(driver, 'Patch', 'insurer')
    add(driver, 'Floor', 'owner')
    accept(driver, 'Patch', 'insurer')
    accept(driver, 'Floor', 'owner')
    expect(merge(driver)).toMatchObject({
      ok: false,
      refusal: {
        code: 'not-now',
        message: 'opened is paid by the insurer on Patch and by the owner on Floor.',
        next: 'Give both lines of the estimate one payer first.',
      },
    })
  })

  it('is refused where agreed hours would come onto a line that nobody has accepted', () => {
    const driver = createDriver()
    add(driver, 'Patch', 'owner')
    add(driver, 'Floor', 'owner')
    accept(driver, 'Patch', 'owner')
    expect(merge(driver)).toMatchObject({
      ok: false,
      refusal: {
        message: 'opened is agreed on Patch and not accepted yet on Floor.',
        next: 'Let the owner accept the estimate of Floor first.',
      },
    })
    accept(driver, 'Floor', 'owner')
    expect(merge(driver).ok).toBe(true)
  })

  it('is free where nothing is agreed on what goes', () => {
    const driver = createDriver()
    add(driver, 'Patch', 'insurer')
    add(driver, 'Floor', 'owner')
    expect(merge(driver).ok).toBe(true)
  })
})
