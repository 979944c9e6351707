import type { CommandRequest } from '../../db/gather.ts'
import type { Database } from '../../db/database.ts'
import { recordPhoto } from '../../db/photo-rows.ts'
import type { CommandKind, CommandPayload } from '../../domain/commands/command-shapes.ts'
import { repairIdSchema, typeIdSchema } from '../../domain/ids.ts'
import { recordEveryKind } from '../db/every-kind.ts'
import { repairPlan } from '../support/plans.ts'
import { desk, firstMorning, Workshop, type SendOptions } from '../support/workshop.ts'

/** Three photos that the story's commands name; only their records are needed. */
export const photos = ['a', 'b', 'c'].map((digit) => digit.repeat(64))
export const report = 'd'.repeat(64)

/** Of photos their records alone. */
export function recordPhotos(db: Database, digests: readonly string[]): void {
  const facts = { type: 'jpeg' as const, width: 60, height: 40, orientation: 1 as const, taken: null }
  for (const sha256 of digests) recordPhoto(db, { sha256, byteCount: 1, facts }, firstMorning)
}

/** What leaves no fact of a kind of its own, and so has no place in the story of every kind of fact. */
export function changeAnotherCar(workshop: Workshop): void {
  const carId = workshop.addCar('Larkspur 2', 'S-202')
  const typeId = typeIdSchema.parse('type-lid')
  const repairId = repairIdSchema.parse('repair-lid')
  const plan = repairPlan('Lid')
  workshop.run('saveType', { typeId, plan })
  const links = { covers: [], coveredBy: [] }
  workshop.run(
    'addRepair',
    { repairId, type: { typeId, version: 1 }, plan, payer: 'owner', ...links },
    { carId },
  )
  workshop.run('saveType', { typeId, plan: repairPlan('Lid', { gates: { primed: { cureHours: 1 } } }) })
  workshop.run('applyType', { repairIds: [repairId] }, { carId })
  const visitId = workshop.car(carId).currentVisit
  const [line] = workshop.car(carId).visits.get(visitId!)?.lines.values() ?? []
  if (visitId === null || line === undefined) throw new Error('The car has no estimate.')
  const { lineId, target, payer, hours, agreed } = line
  workshop.run(
    'setEstimate',
    { visitId, lines: [{ lineId, target, payer, hours, agreed: agreed + 4 }] },
    { carId },
  )
}

/** A story in which every kind of command is accepted at least once, as the requests that the host would be given. */
export function tellStory(): readonly CommandRequest[] {
  return requestsOf((workshop) => {
    recordPhotos(workshop.db, photos)
    recordEveryKind(workshop, photos, report)
    changeAnotherCar(workshop)
  })
}

/** What somebody does in a workshop of their own, as the requests that the host would be given. */
export function requestsOf(act: (workshop: Workshop) => void): readonly CommandRequest[] {
  const requests: CommandRequest[] = []
  class Told extends Workshop {
    override command<K extends CommandKind>(kind: K, payload: CommandPayload<K>, options: SendOptions = {}) {
      const command = super.command(kind, payload, options)
      const { device = desk, second = null } = options
      requests.push({ command, device, second, now: this.now })
      return command
    }
  }
  const workshop = new Told()
  act(workshop)
  workshop.close()
  return requests
}
