import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import type { CarState } from '../../domain/car.ts'
import type { Command, CommandKind, CommandPayload } from '../../domain/commands/command-shapes.ts'
import type { RepairPlan, WorkingWeek } from '../../domain/facts/shapes.ts'
import {
  bayIdSchema,
  carIdSchema,
  commandIdSchema,
  deviceIdSchema,
  partyIdSchema,
  personIdSchema,
  visitIdSchema,
  type CarId,
  type DeviceId,
  type PersonId,
  type RepairId,
} from '../../domain/ids.ts'
import type { Refusal, RefusalCode } from '../../domain/refusal.ts'
import type { Accepted } from '../../db/answers.ts'
import { codeKeyPath, databasePath } from '../../db/data-paths.ts'
import type { Database } from '../../db/database.ts'
import { executeCommand, type CommandAnswer } from '../../db/execute-command.ts'
import { openDatabase, openInMemory } from '../../db/open-database.ts'
import { readCar } from '../../db/reads.ts'

/** Who and what every test finds in the small workshop. */
export const manager = personIdSchema.parse('person-manager')
export const welder = personIdSchema.parse('person-welder')
export const painter = personIdSchema.parse('person-painter')
export const owner = partyIdSchema.parse('party-owner')
export const insurer = partyIdSchema.parse('party-insurer')
export const dippingFirm = partyIdSchema.parse('party-dipping')
export const metalBay = bayIdSchema.parse('bay-metal-1')
export const jigBay = bayIdSchema.parse('bay-jig-1')
export const storageBay = bayIdSchema.parse('bay-storage')
export const desk = deviceIdSchema.parse('device-desk')
export const tablet = deviceIdSchema.parse('device-tablet')

/** Codes as the people of the small workshop give them. */
export const codes: Readonly<Record<string, string>> = {
  [manager]: '314159',
  [welder]: '2718',
  [painter]: '1618',
}

/** A Monday morning in the workshop's zone. */
export const firstMorning = Date.parse('2026-11-23T08:00:00+01:00')
export const zone = 'Europe/Berlin'

const dayShift: WorkingWeek[number] = [
  { from: '08:00', to: '12:00' },
  { from: '12:30', to: '16:30' },
]
export const fullWeek: WorkingWeek = [dayShift, dayShift, dayShift, dayShift, dayShift, [], []]

export interface WorkshopOptions {
  /** 'memory', or 'folder' for a data folder of its own that goes when the workshop is closed. */
  readonly keptIn?: 'memory' | 'folder'
  /** A data folder that is there already; it too goes when the workshop is closed. */
  readonly dataDir?: string
  readonly now?: number
  /** False for a database without a single fact. */
  readonly setUp?: boolean
}

/** What of a command's envelope is not the usual. */
export interface SendOptions {
  readonly carId?: CarId | null
  readonly by?: PersonId | null
  readonly second?: PersonId | null
  readonly device?: DeviceId
  readonly id?: string
  readonly seen?: number | null
  /** ISO 8601 with offset. */
  readonly happened?: string | null
}

/** A small workshop: a manager, two technicians, three bays, an owner, an insurer and a firm, all by real commands. */
export class Workshop {
  readonly dataDir: string | null
  db: Database
  /** The host's clock in epoch milliseconds; it stands still until it is moved. */
  now: number
  #commands = 0

  constructor({ keptIn = 'memory', dataDir, now = firstMorning, setUp = true }: WorkshopOptions = {}) {
    this.dataDir = dataDir ?? (keptIn === 'folder' ? mkdtempSync(join(tmpdir(), 'workshop-')) : null)
    this.now = now
    this.db = setUp || this.dataDir === null ? openInMemory() : openDatabase(this.dataDir)
    if (setUp) setUpWorkshop(this)
    if (setUp && this.dataDir !== null) this.#moveTo(this.dataDir)
  }

  /** Set up in memory first, where nothing waits for a disk and codes are hashed at the least cost. */
  #moveTo(dataDir: string): void {
    mkdirSync(dirname(codeKeyPath(dataDir)), { recursive: true, mode: 0o700 })
    writeFileSync(codeKeyPath(dataDir), this.db.codeKey, { mode: 0o600 })
    writeFileSync(databasePath(dataDir), this.db.writer.sqlite.serialize())
    this.db.close()
    this.reopen()
  }

  /** Moves the clock on. */
  pass({ hours = 0, minutes = 0 }: { readonly hours?: number; readonly minutes?: number }): void {
    this.now += (hours * 60 + minutes) * 60_000
  }

  command<K extends CommandKind>(kind: K, payload: CommandPayload<K>, options: SendOptions = {}): Command {
    this.#commands += 1
    const { by = manager, carId = null, second = null, happened = null, seen = null } = options
    return {
      id: commandIdSchema.parse(options.id ?? `command-${this.#commands}`),
      kind,
      carId,
      seen,
      by,
      code: null,
      second: second === null ? null : { by: second, code: codes[second] ?? '0000' },
      happened,
      made: new Date(this.now).toISOString(),
      payload,
    }
  }

  /** Sends a command, whatever becomes of it. */
  send<K extends CommandKind>(kind: K, payload: CommandPayload<K>, options: SendOptions = {}): CommandAnswer {
    const { second = null, device = desk } = options
    const command = this.command(kind, payload, options)
    return executeCommand(this.db, { command, device, second, now: this.now })
  }

  /** Sends a command that must be accepted. */
  run<K extends CommandKind>(kind: K, payload: CommandPayload<K>, options: SendOptions = {}): Accepted {
    const answer = this.send(kind, payload, options)
    if (answer.ok) return answer
    const { code, message, next } = answer.refusal
    throw new Error(`${kind} was refused (${code}): ${message} ${next}`)
  }

  /** Sends a command that must be refused. */
  refused<K extends CommandKind>(kind: K, payload: CommandPayload<K>, options: SendOptions = {}): Refusal {
    const answer = this.send(kind, payload, options)
    if (!answer.ok) return answer.refusal
    throw new Error(`${kind} was accepted as ${answer.numbers.join(', ')}.`)
  }

  refusalCode<K extends CommandKind>(
    kind: K,
    payload: CommandPayload<K>,
    options: SendOptions = {},
  ): RefusalCode {
    return this.refused(kind, payload, options).code
  }

  /** Adds a car in work for the owner, and answers its id. */
  addCar(name = 'Larkspur 4', shellNumber = 'S-101'): CarId {
    const payload = carPayload(name, shellNumber)
    this.run('addCar', payload)
    return payload.carId
  }

  /** Adds a repair that the owner pays, under nothing and over nothing. */
  addRepair(carId: CarId, repairId: RepairId, plan: RepairPlan): void {
    const links = { covers: [], coveredBy: [] }
    this.run('addRepair', { repairId, type: null, plan, payer: 'owner', ...links }, { carId })
  }

  car(carId: CarId): CarState {
    const car = readCar(this.db, carId)
    if (!car) throw new Error(`There is no car ${carId}.`)
    return car
  }

  /** Closes the data folder and opens it again, as when the host is started anew. */
  restart(): void {
    this.db.close()
    this.reopen()
  }

  /** Opens a data folder whose database was closed. */
  reopen(): void {
    if (this.dataDir === null) throw new Error('A workshop in memory cannot be opened again.')
    this.db = openDatabase(this.dataDir)
  }

  close(): void {
    this.db.close()
    if (this.dataDir !== null) rmSync(this.dataDir, { recursive: true })
  }
}

export function createWorkshop(options: WorkshopOptions = {}): Workshop {
  return new Workshop(options)
}

/** A tourer of 1961 that has come in to be worked on. */
export function carPayload(name: string, shellNumber: string): CommandPayload<'addCar'> {
  const slug = shellNumber.toLowerCase()
  return {
    carId: carIdSchema.parse(`car-${slug}`),
    shellNumber,
    name,
    body: 'tourer',
    year: 1961,
    visit: {
      visitId: visitIdSchema.parse(`visit-${slug}`),
      kind: 'agreed',
      ownerId: owner,
      insurerId: insurer,
      status: 'in work',
      promised: '2027-03-31',
      priority: 1,
      charge: { by: 'hour' },
    },
    photo: null,
  }
}

function setUpWorkshop(workshop: Workshop): void {
  workshop.run(
    'setUpWorkshop',
    {
      name: 'Brookside Metalwork',
      zone,
      currency: 'EUR',
      managerId: manager,
      manager: contact('Mara Lindqvist'),
      code: codes[manager]!,
      skills: ['metalwork'],
      withCatalogue: false,
    },
    { by: null },
  )
  addPerson(workshop, welder, 'Ilse Brandt', ['metalwork', 'welding'])
  addPerson(workshop, painter, 'Tomasz Hale', ['paint', 'metalwork'])
  workshop.run('setCalendar', { week: fullWeek, holidays: [] })
  addBay(workshop, metalBay, 'Metal 1', ['metalwork', 'preparation'], 0)
  addBay(workshop, jigBay, 'Jig', ['jig', 'metalwork'], 100)
  addBay(workshop, storageBay, 'Yard', ['storage'], 200)
  workshop.run('addParty', { partyId: owner, kind: 'owner', contact: contact('R. Okafor') })
  workshop.run('addParty', { partyId: insurer, kind: 'insurer', contact: contact('Harbour Mutual') })
  workshop.run('addParty', { partyId: dippingFirm, kind: 'firm', contact: contact('Deep Bath Stripping') })
}

function addPerson(workshop: Workshop, personId: PersonId, name: string, skills: string[]): void {
  workshop.run('addPerson', {
    personId,
    roles: ['technician'],
    skills,
    week: null,
    absences: [],
    contact: contact(name),
    code: codes[personId]!,
  })
}

function addBay(workshop: Workshop, bayId: typeof metalBay, name: string, kinds: string[], x: number): void {
  workshop.run('addBay', { bayId, name, kinds, floor: { x, y: 0, width: 60, height: 80 } })
}

function contact(name: string) {
  return { name, phone: '', email: '' as const, address: '' }
}
