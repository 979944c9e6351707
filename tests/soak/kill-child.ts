/*
 * The process that the kill test kills: opens a data folder as the host does and executes commands without end, telling
 * each success on standard output the moment it is known. Arguments: data folder, seed, number of the run.
 */
import { writeSync } from 'node:fs'
import process from 'node:process'
import { photosFolder } from '../../db/data-paths.ts'
import type { Database } from '../../db/database.ts'
import { executeCommand, executeCommands } from '../../db/execute-command.ts'
import type { CommandRequest } from '../../db/gather.ts'
import { lastLine } from '../../db/chains.ts'
import { openDatabase } from '../../db/open-database.ts'
import { recordPhoto } from '../../db/photo-rows.ts'
import { inspectPhoto } from '../../db/photos/inspect-photo.ts'
import { openPhotoStore, type PhotoStore } from '../../db/photos/photo-store.ts'
import { readAllCars, readWorkshop } from '../../db/reads.ts'
import type { CarState } from '../../domain/car.ts'
import type { Command, CommandKind, CommandPayload } from '../../domain/commands/command-shapes.ts'
import {
  attachmentIdSchema,
  commandIdSchema,
  entryIdSchema,
  readingIdSchema,
  repairIdSchema,
  type CarId,
  type PersonId,
} from '../../domain/ids.ts'
import { createTestPhoto } from '../support/images.ts'
import { repairPlan } from '../support/plans.ts'
import { createRandom, type Random } from '../support/random.ts'
import { carPayload, firstMorning, insurer, manager, owner, zone } from '../support/workshop.ts'

const [dataDir = '', seed = '', run = ''] = process.argv.slice(2)
const random: Random = createRandom(Number(seed) * 1_000 + Number(run))
const db: Database = openDatabase(dataDir)
const store: PhotoStore = await openStore()
let count = 0

tell('open')
setUp()
const actions: readonly ((car: CarState) => Promise<void> | void)[] = [
  note,
  addRepair,
  attachPhoto,
  clock,
  readConditions,
  setSafety,
  voidNote,
]
for (;;) {
  const cars = readAllCars(db)
  if (cars.length === 0 || (cars.length < 12 && random.between(1, 25) === 1)) addCar()
  else await random.pick(actions)(random.pick(cars))
}

async function openStore(): Promise<PhotoStore> {
  const opened = await openPhotoStore(photosFolder(dataDir), { inspect: inspectPhoto })
  if (!opened.ok) throw new Error(opened.problem.message)
  return opened.value
}

/** Also taken up where the last run was killed half-way. */
function setUp(): void {
  const contact = { name: 'Somebody', phone: '', email: '' as const, address: '' }
  if (!readWorkshop(db).setUp)
    send(
      'setUpWorkshop',
      {
        name: 'Brookside Metalwork',
        zone,
        currency: 'EUR',
        managerId: manager,
        manager: contact,
        code: '314159',
        skills: ['metalwork'],
        withCatalogue: true,
      },
      null,
      null,
    )
  for (const [partyId, kind] of [
    [owner, 'owner'],
    [insurer, 'insurer'],
  ] as const)
    if (!readWorkshop(db).parties.has(partyId)) send('addParty', { partyId, kind, contact }, null)
}

function addCar(): void {
  send('addCar', carPayload('Larkspur 4', `S-${nextName()}`), null)
}

/** Three notes in one transaction. */
function note({ id }: CarState): void {
  const commands = ['one', 'two', 'three'].map((text) => command('addNote', { text }, id))
  const answer = executeCommands(db, commands.map(request))
  if (!answer.ok) throw new Error(answer.refusal.message)
  for (const [index, { numbers }] of answer.answers.entries()) tellDone(commands[index]?.id ?? '', numbers)
}

function addRepair({ id }: CarState): void {
  const repairId = repairIdSchema.parse(`repair-${nextName()}`)
  const links = { covers: [], coveredBy: [] }
  send('addRepair', { repairId, type: null, plan: repairPlan('Boot floor'), payer: 'workshop', ...links }, id)
}

async function attachPhoto({ id }: CarState): Promise<void> {
  const size = { width: random.between(40, 90), height: 40 }
  const stored = await store.add(await createTestPhoto({ ...size, color: '#864' }))
  if (!stored.ok) throw new Error(stored.problem.message)
  const { sha256 } = recordPhoto(db, stored.value, now())
  tell(`photo ${sha256}`)
  const attachmentId = attachmentIdSchema.parse(`attachment-${nextName()}`)
  send('attachPhoto', { attachmentId, sha256, taken: null, caption: '', serves: [{ what: 'car' }] }, id)
}

/** Stops the manager's clock where it runs, or starts it. */
function clock({ id, repairs }: CarState): void {
  for (const car of readAllCars(db))
    for (const entry of car.entries.values())
      if (entry.time.kind === 'running')
        return send('stopClock', { entryId: entry.id, overtime: true, shares: null }, car.id)
  const [repairId] = repairs.keys()
  if (repairId === undefined) return
  const on = {
    kind: 'work' as const,
    targets: [{ kind: 'gate' as const, repairId, gate: 'opened' as const }],
  }
  const entryId = entryIdSchema.parse(`entry-${nextName()}`)
  send('startClock', { entryId, personId: manager, on, hotWork: false, cause: null }, id)
}

function readConditions({ id, repairs }: CarState): void {
  const repairIds = [...repairs.keys()].slice(0, 3)
  if (repairIds.length === 0) return
  const readingId = readingIdSchema.parse(`reading-${nextName()}`)
  const air = { airC: 16, humidityPercent: 71, steelC: 15 }
  send('readConditions', { readingId, repairIds, gate: 'primed', ...air }, id)
}

function setSafety({ id, safety }: CarState): void {
  send('setSafety', { item: 'bracing', stands: !safety.bracing, note: '' }, id)
}

function voidNote({ id, notes }: CarState): void {
  const last = notes.at(-1)
  if (last) send('voidFact', { number: last.stamp.number, reason: 'Another car.' }, id)
}

function send<K extends CommandKind>(
  kind: K,
  payload: CommandPayload<K>,
  carId: CarId | null,
  by: PersonId | null = manager,
): void {
  const sent = command(kind, payload, carId, by)
  const answer = executeCommand(db, request(sent))
  if (!answer.ok) throw new Error(`${kind} was refused: ${answer.refusal.message}`)
  tellDone(sent.id, answer.numbers)
}

function command<K extends CommandKind>(
  kind: K,
  payload: CommandPayload<K>,
  carId: CarId | null,
  by: PersonId | null = manager,
): Command {
  const envelope = {
    seen: null,
    code: null,
    second: null,
    happened: null,
    made: new Date(now()).toISOString(),
  }
  return { id: commandIdSchema.parse(`command-${nextName()}`), kind, carId, by, payload, ...envelope }
}

function request(sent: Command): CommandRequest {
  return { command: sent, device: null, second: null, now: now() }
}

/** A minute after whatever was recorded last. */
function now(): number {
  const last = lastLine(db.reader)
  return (last ? Date.parse(last.recorded) : firstMorning) + 60_000
}

function nextName(): string {
  count += 1
  return `${run}-${count}`
}

function tellDone(id: string, numbers: readonly number[]): void {
  tell(`done ${id} ${numbers.join(',')}`)
}

/** Written before anything else happens, in one piece: what was told before the kill is what the parent reads. */
function tell(line: string): void {
  writeSync(1, `${line}\n`)
}
