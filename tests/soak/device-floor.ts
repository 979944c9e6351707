import { personIdSchema, repairIdSchema, type CarId, type PersonId, type RepairId } from '../../domain/ids.ts'
import { repairPlan } from '../support/plans.ts'
import { createWorkshop } from '../support/workshop.ts'

export interface FloorRepair {
  readonly carId: CarId
  readonly repairId: RepairId
}

/** Who works at one device, and on what. */
export interface Worker {
  readonly personId: PersonId
  readonly name: string
  readonly code: string
  /** Nobody else signs these. */
  readonly own: readonly FloorRepair[]
}

export interface Floor {
  readonly dataDir: string
  readonly workers: readonly Worker[]
  /** Everybody signs these, the first one wins. */
  readonly shared: readonly FloorRepair[]
  readonly carIds: readonly CarId[]
}

const CARS = 3
const SHARED = 6
const HOUR_MS = 3_600_000

/** A workshop in a folder of its own with a technician and repairs of their own for each device. */
export function setUpFloor(devices: number, ownRepairs: number): Floor {
  const workshop = createWorkshop({ keptIn: 'folder', now: Date.now() - HOUR_MS })
  const carIds = Array.from({ length: CARS }, (_, at) => workshop.addCar(`Larkspur ${at + 1}`, `S-${at + 1}`))
  const addRepair = (name: string, at: number): FloorRepair => {
    const carId = carIds[at % CARS]
    if (carId === undefined) throw new Error('There is no car.')
    const repairId = repairIdSchema.parse(`repair-${name}`)
    const repair = { repairId, type: null, plan: repairPlan(name), payer: 'workshop' as const }
    workshop.run('addRepair', { ...repair, covers: [], coveredBy: [] }, { carId })
    return { carId, repairId }
  }
  const shared = Array.from({ length: SHARED }, (_, at) => addRepair(`shared-${at}`, at))
  const workers = Array.from({ length: devices }, (_, device): Worker => {
    const personId = personIdSchema.parse(`person-worker-${device}`)
    const name = `Worker ${String.fromCharCode(65 + device)}`
    const code = String(3_142 + device * 271)
    workshop.run('addPerson', {
      personId,
      roles: ['technician'],
      skills: ['metalwork'],
      week: null,
      absences: [],
      contact: { name, phone: '', email: '', address: '' },
      code,
    })
    const own = Array.from({ length: ownRepairs }, (__, at) => addRepair(`own-${device}-${at}`, device))
    return { personId, name, code, own }
  })
  workshop.db.close()
  return { dataDir: workshop.dataDir ?? '', workers, shared, carIds }
}
