import type { CarId } from '../../domain/ids.ts'
import { repairId } from './car-builder.ts'
import { createFloor, type Floor, usualAsks } from './floor.ts'
import type { TestHost, TestScreen } from './host.ts'
import { repairPlan } from './plans.ts'
import { manager } from './workshop.ts'

/** The Larkspur 4 with its boot floor opened and photographed; the manager is signed in to report on it. */
export async function bringInReported(
  host: TestHost,
  screen: TestScreen,
): Promise<{ readonly carId: CarId; readonly floor: Floor }> {
  const carId = host.workshop.addCar('Larkspur 4', 'R-1')
  const floor = await createFloor(host, screen, carId)
  await floor.run('addRepair', {
    repairId: repairId('Boot floor'),
    type: null,
    plan: repairPlan('Boot floor', { gates: { opened: usualAsks.opened! } }),
    payer: 'workshop',
    covers: [],
    coveredBy: [],
  })
  await floor.photo(['Boot floor'], 'opened', 'before', { caption: 'Boot floor before cutting' })
  await floor.photo(['Boot floor'], 'opened', 'after', { caption: 'The cavity, open' })
  await floor.pass(['Boot floor'], 'opened')
  await screen.signIn(manager)
  return { carId, floor }
}
