import { ASKS_NOTHING } from '../../domain/catalogue/type-plan.ts'
import type { CarState } from '../../domain/car.ts'
import { fact, type Fact, type FactKind, type NewFact, type PayloadOf } from '../../domain/facts.ts'
import { GATES } from '../../domain/gates.ts'
import type { ImportContext } from '../../domain/import/import-plan.ts'
import { commandIdSchema, personIdSchema, visitIdSchema, carIdSchema } from '../../domain/ids.ts'
import { carFromFacts } from '../../domain/state/car-state.ts'
import { workshopFromFacts } from '../../domain/state/workshop-state.ts'
import { factSchemas } from '../../domain/facts.ts'

/** A workshop in Berlin with Mona and Iris, the owner Orla Trend, one repair type and shell 14 with a repair and a task. */
export function importContext(): ImportContext {
  const names: Readonly<Record<string, string>> = {
    'person-mona': 'Mona Reed',
    'person-iris': 'Iris Vane',
    'party-orla': 'Orla Trend',
  }
  return {
    workshop: workshopFromFacts(numbered(null, workshopFacts())),
    cars: [fourteen()],
    nameOf: (id) => names[id] ?? id,
    by: personIdSchema.parse('person-mona'),
    importId: '6f9c0f6e-2b57-4f55-9d4a-0d8f6c9f3a11',
    made: '2026-11-25T10:00:00+01:00',
  }
}

function workshopFacts(): readonly NewFact[] {
  const person = { skills: [], week: null, absences: [] }
  return [
    make('workshopSetUp', { name: 'Fell Lane Bodyworks', zone: 'Europe/Berlin', currency: 'EUR' }),
    make('personAdded', { personId: 'person-mona', roles: ['manager'], ...person }),
    make('personAdded', { personId: 'person-iris', roles: ['technician'], ...person }),
    make('partyAdded', { partyId: 'party-orla', kind: 'owner' }),
    make('typeSaved', { typeId: 'type-boot', version: 1, plan: bootFloor }),
  ]
}

function fourteen(): CarState {
  const task = {
    name: 'Strip',
    hours: { shortest: 4, likely: 6, longest: 9 },
    skill: 'strip',
    people: 1,
    bayKind: 'metalwork',
    hotWork: false,
    cureHours: 0,
    photos: 0,
    payer: 'owner',
    waitsFor: [],
    holds: [],
  }
  const visit = { insurerId: null, status: 'in work', promised: null, priority: 1, charge: { by: 'hour' } }
  const car = carFromFacts(
    numbered('car-fourteen', [
      make('carAdded', {
        carId: 'car-fourteen',
        shellNumber: '14',
        name: 'Corran 5',
        body: 'van',
        year: 1961,
      }),
      make('visitOpened', { visitId: 'visit-one', kind: 'agreed', ownerId: 'party-orla', ...visit }),
      make('repairAdded', {
        repairId: 'repair-old',
        type: null,
        plan: { ...bootFloor, name: 'Old hanger' },
        payer: 'owner',
      }),
      make('taskAdded', { taskId: 'task-strip', plan: task }),
    ]),
  )
  if (car === null) throw new Error('shell 14 was not made')
  return car
}

const gatePlan = {
  hours: { shortest: 1, likely: 1.5, longest: 3 },
  skill: 'weld',
  people: 1,
  bayKind: 'metalwork',
  hotWork: false,
  cureHours: 0,
  window: null,
  asks: { ...ASKS_NOTHING, photos: 1 },
}
const bootFloor = {
  name: 'Boot floor',
  zone: { side: 'centre', place: 'rear' },
  on: 'shell',
  loadBearing: false,
  primedFirst: false,
  outer: false,
  layers: [{ layerId: 'layer-one', name: 'floor', thicknessMm: 0.9, loadBearing: false }],
  gates: Object.fromEntries(GATES.map((gate) => [gate, gatePlan])),
  welds: [],
  parts: [{ partId: 'part-panel', name: 'floor panel', gate: 'fabricated' }],
}

/** Parsed, so that plain ids become branded and a wrong payload fails here. */
function make<K extends FactKind>(kind: K, payload: unknown): NewFact {
  return fact(kind, factSchemas[kind].parse(payload) as PayloadOf<K>) as NewFact
}

function numbered(carId: string | null, facts: readonly NewFact[]): readonly Fact[] {
  const at = '2026-11-20T08:00:00+01:00'
  return facts.map((each, index) => ({
    ...each,
    number: index + 1,
    version: 1,
    carId: carId === null ? null : carIdSchema.parse(carId),
    visitId: carId === null ? null : visitIdSchema.parse('visit-one'),
    by: null,
    device: null,
    commandId: commandIdSchema.parse('command-one'),
    happened: at,
    made: at,
    recorded: at,
  })) as readonly Fact[]
}
