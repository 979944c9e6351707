import type { Command, CommandKind, CommandPayload } from '../../domain/commands/command-shapes.ts'
import type { FactKind } from '../../domain/facts.ts'
import {
  attachmentIdSchema,
  commandIdSchema,
  entryIdSchema,
  personIdSchema,
  readingIdSchema,
  repairIdSchema,
  type CarId,
  type EntryId,
  type PersonId,
  type RepairId,
} from '../../domain/ids.ts'
import { createTestPhoto } from '../support/images.ts'
import { repairPlan } from '../support/plans.ts'
import { createRandom } from '../support/random.ts'
import { carPayload, codes, insurer, manager, owner, zone } from '../support/workshop.ts'
import { sha256Of, type FactsWriting, type Writing } from './kill-book.ts'
import type { WriterOptions } from './kill-writer.ts'

/** The car that everybody writes to beside their own. */
const sharedCar = carPayload('Larkspur 4', 'S-0')
const ownerName = 'R. Okafor'
const code = '271828'

/** Sets the workshop up: its manager, the people who write, two payers and the shared car. */
export function createSetUp(people: readonly PersonId[]): WriterOptions {
  const envelope = createEnvelopes('set-up', manager)
  const contact = (name: string) => ({ name, phone: '', email: '' as const, address: '' })
  const first = envelope(
    'setUpWorkshop',
    {
      name: 'Brookside Metalwork',
      zone,
      currency: 'EUR',
      managerId: manager,
      manager: contact('Mara Lindqvist'),
      code: codes[manager] ?? '',
      skills: ['metalwork'],
      withCatalogue: false,
    },
    ['workshopSetUp', 'personAdded'],
    { by: null },
  )
  const rest = [
    envelope('addParty', { partyId: owner, kind: 'owner', contact: contact(ownerName) }, ['partyAdded']),
    envelope('addParty', { partyId: insurer, kind: 'insurer', contact: contact('Harbour') }, ['partyAdded']),
    ...people.map((personId) => {
      const person = {
        personId,
        roles: ['manager' as const],
        skills: ['metalwork'],
        week: null,
        absences: [],
      }
      return envelope('addPerson', { ...person, contact: contact(personId), code }, ['personAdded'])
    }),
    envelope('addCar', sharedCar, ['carAdded', 'visitOpened']),
  ]
  return {
    personId: manager,
    code: codes[manager] ?? '',
    first,
    next: () => Promise.resolve(rest.shift() ?? null),
  }
}

export function writerId(number: number): PersonId {
  return personIdSchema.parse(`person-writer-${number}`)
}

interface Repair {
  readonly id: RepairId
  readonly covers: readonly Repair[]
  isCovered: boolean
  isOpen: boolean
}

/**
 * A day's work without end at one screen, on a car of one's own and on the shared one: never the same twice, and nothing
 * that another writer could get in the way of, so that nothing may ever be refused.
 */
export function createWork(personId: PersonId, seed: number): WriterOptions {
  const random = createRandom(seed)
  const envelope = createEnvelopes(personId, personId)
  let carId: CarId | null = null
  let repairs: Repair[] = []
  let photos: string[] = []
  let running: { readonly entryId: EntryId; readonly on: CarId | null } | null = null
  let lastNote: { readonly number: number; readonly on: CarId } | null = null
  let count = 0
  const nextName = (): string => `${personId}-${(count += 1)}`

  const acts: readonly (() => Promise<Writing> | Writing | null)[] = [
    bringInCars,
    sendPhoto,
    sendPhoto,
    attachPhoto,
    attachPhoto,
    addRepair,
    addRepair,
    passGate,
    passGate,
    readConditions,
    clock,
    clock,
    setSafety,
    writeNote,
    voidNote,
  ]
  const next = async (): Promise<Writing> => {
    if (carId === null || repairs.length > 16) return addCar()
    for (;;) {
      const writing = await random.pick(acts)()
      if (writing !== null) return writing
    }
  }
  return { personId, code, first: null, next }

  function addCar(): Writing {
    const payload = carPayload('Larkspur 5', `S-${nextName().slice('person-'.length)}`)
    const [sha256] = photos
    const photo = sha256 === undefined ? null : { attachmentId: nextAttachment(), sha256, taken: null }
    const attached: readonly FactKind[] = photo === null ? [] : ['photoAttached']
    return envelope('addCar', { ...payload, photo }, ['carAdded', 'visitOpened', ...attached], {
      accepted: () => {
        carId = payload.carId
        repairs = []
      },
    })
  }

  /** Several commands in one transaction. */
  function bringInCars(): Writing {
    const importId = crypto.randomUUID()
    const lines = ['shell number;name;body;owner']
    const leaves = new Map<string, readonly FactKind[]>()
    const last = random.between(3, 5)
    for (let line = 2; line <= last; line += 1) {
      lines.push(`I-${nextName().slice('person-'.length)};Larkspur 2;van;${ownerName}`)
      leaves.set(`${importId}-${line}-c`, ['carAdded', 'visitOpened'])
    }
    const body = { kind: 'cars', text: lines.join('\n'), importId }
    return { what: 'facts', procedure: 'importCommit', body, leaves, accepted: () => {} }
  }

  async function sendPhoto(): Promise<Writing> {
    const bytes = await createTestPhoto({ width: random.between(60, 160), height: 100, color: '#864' })
    const sha256 = sha256Of(bytes)
    return { what: 'photo', bytes, sha256, accepted: () => (photos = [sha256, ...photos.slice(0, 3)]) }
  }

  function attachPhoto(): Writing | null {
    const [sha256, ...others] = photos
    if (sha256 === undefined) return null
    const gate = { what: 'gate' as const, gate: 'opened' as const, shows: 'work' as const, layerId: null }
    const ids = repairs.slice(-random.between(0, 3)).map(({ id }) => id)
    const payload = { attachmentId: nextAttachment(), sha256, taken: null, caption: '' }
    const accepted = () => (photos = others)
    if (ids.length === 0)
      return envelope('attachPhoto', { ...payload, serves: [{ what: 'car' }] }, ['photoAttached'], {
        on: sharedCar.carId,
        accepted,
      })
    const serves = ids.map((repairId) => ({ ...gate, repairId }))
    return envelope('attachPhoto', { ...payload, serves }, ['photoAttached'], { on: carId, accepted })
  }

  /** Over up to three repairs that nothing covers yet. */
  function addRepair(): Writing {
    const covers = repairs
      .filter(({ isCovered, isOpen }) => !isCovered && !isOpen)
      .slice(0, random.between(0, 3))
    const repair: Repair = {
      id: repairIdSchema.parse(`repair-${nextName()}`),
      covers,
      isCovered: false,
      isOpen: false,
    }
    const payload = {
      repairId: repair.id,
      type: null,
      plan: repairPlan('Boot floor'),
      payer: 'workshop' as const,
    }
    return envelope(
      'addRepair',
      { ...payload, covers: covers.map(({ id }) => id), coveredBy: [] },
      ['repairAdded', ...covers.map(() => 'coverLinked' as const), 'estimateSet', 'estimateAccepted'],
      {
        on: carId,
        accepted: () => {
          repairs.push(repair)
          for (const covered of covers) covered.isCovered = true
        },
      },
    )
  }

  /** Opens every repair that can be seen, in one act. */
  function passGate(): Writing | null {
    const hidden = new Set(repairs.filter(({ isOpen }) => !isOpen).flatMap(({ covers }) => covers))
    const shut = repairs.filter((repair) => !repair.isOpen && !hidden.has(repair))
    if (shut.length === 0) return null
    const repairIds = shut.map(({ id }) => id)
    return envelope(
      'passGate',
      { repairIds, gate: 'opened', did: [personId], coat: null, note: '' },
      repairIds.map(() => 'gatePassed'),
      { on: carId, code, accepted: () => shut.forEach((repair) => (repair.isOpen = true)) },
    )
  }

  function readConditions(): Writing | null {
    const repairIds = repairs.slice(0, 3).map(({ id }) => id)
    if (repairIds.length === 0) return null
    const readingId = readingIdSchema.parse(`reading-${nextName()}`)
    const air = { airC: 16, humidityPercent: 71, steelC: 15 }
    const payload = { readingId, repairIds, gate: 'primed' as const, ...air }
    return envelope('readConditions', payload, ['conditionsRead'], { on: carId })
  }

  /** Stops one's own clock where it runs, or starts it. */
  function clock(): Writing | null {
    if (running !== null) {
      const payload = { entryId: running.entryId, overtime: true, shares: null }
      const accepted = () => (running = null)
      return envelope('stopClock', payload, ['clockStopped'], { on: running.on, accepted })
    }
    const [repair] = repairs
    if (repair === undefined) return null
    const entryId = entryIdSchema.parse(`entry-${nextName()}`)
    const targets = [{ kind: 'gate' as const, repairId: repair.id, gate: 'assessed' as const }]
    const payload = { entryId, personId, on: { kind: 'work' as const, targets }, hotWork: false, cause: null }
    const on = carId
    return envelope('startClock', payload, ['clockStarted'], {
      on,
      accepted: () => (running = { entryId, on }),
    })
  }

  function setSafety(): Writing {
    const payload = { item: 'bracing' as const, stands: random.next() < 0.5, note: '' }
    return envelope('setSafety', payload, ['safetySet'], { on: sharedCar.carId })
  }

  function writeNote(): Writing {
    const on = carId !== null && random.next() < 0.5 ? carId : sharedCar.carId
    return envelope('addNote', { text: 'Rust behind the lamp.' }, ['noted'], {
      on,
      accepted: ([number]) => (lastNote = number === undefined ? null : { number, on }),
    })
  }

  function voidNote(): Writing | null {
    if (lastNote === null) return null
    const { number, on } = lastNote
    return envelope('voidFact', { number, reason: 'Another car.' }, ['factVoided'], {
      on,
      code,
      accepted: () => (lastNote = null),
    })
  }

  function nextAttachment() {
    return attachmentIdSchema.parse(`attachment-${nextName()}`)
  }
}

interface EnvelopeOptions {
  readonly on?: CarId | null
  readonly by?: PersonId | null
  /** For what is signed. */
  readonly code?: string
  readonly accepted?: FactsWriting['accepted']
}

/** Puts payloads into envelopes with ids of their own. */
function createEnvelopes(name: string, usual: PersonId) {
  let count = 0
  return <K extends CommandKind>(
    kind: K,
    payload: CommandPayload<K>,
    leaves: readonly FactKind[],
    { on = null, by = usual, code: signed, accepted = () => {} }: EnvelopeOptions = {},
  ): FactsWriting => {
    count += 1
    const id = commandIdSchema.parse(`command-${name}-${count}`)
    const made = new Date().toISOString()
    const times = { seen: null, happened: null, made }
    const body: Command = { id, kind, carId: on, by, code: signed ?? null, second: null, payload, ...times }
    return { what: 'facts', procedure: 'command', body, leaves: new Map([[id, leaves]]), accepted }
  }
}
