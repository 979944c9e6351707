import { fact, type Fact, type FactKind, FACT_VERSION, type PayloadOf } from '../../domain/facts.ts'
import { bayIdSchema, commandIdSchema } from '../../domain/ids.ts'
import { workshopFromFacts } from '../../domain/state/workshop-state.ts'
import type { WorkshopState } from '../../domain/workshop.ts'
import { personId } from './car-builder.ts'
import { slug } from './plans.ts'

export const bayId = (name: string) => bayIdSchema.parse(`bay-id-${slug(name)}`)

/** Names as the contact book would give them: 'person-joss' is Joss. */
export const nameOf = (id: string): string => {
  const name = id.replace(/^(person|party)-/, '')
  return name.charAt(0).toUpperCase() + name.slice(1)
}

type Add = <K extends FactKind>(kind: K, payload: PayloadOf<K>) => void

/**
 * Harrow Lane in UTC, Monday to Friday 08:00 to 12:30 and 13:00 to 16:30: the manager Mara, Joss and Wren (metalwork), Ines
 * (paint), the bays '1 metalwork', '3 jig', '6 booth' and 'yard'. `more` adds further facts.
 */
export function buildWorkshop(more: (add: Add) => void = () => undefined): WorkshopState {
  const facts: Fact[] = []
  const add: Add = (kind, payload) => {
    const number = facts.length + 1
    const instant = '2026-01-05T08:00:00Z'
    facts.push({
      number,
      version: FACT_VERSION,
      carId: null,
      visitId: null,
      by: null,
      device: null,
      commandId: commandIdSchema.parse(`command-w${number}`),
      happened: instant,
      made: instant,
      recorded: instant,
      ...fact(kind, payload),
    } as Fact)
  }
  add('workshopSetUp', { name: 'Harrow Lane', zone: 'UTC', currency: 'EUR' })
  const person = { week: null, absences: [] }
  add('personAdded', { ...person, personId: personId('Mara'), roles: ['manager'], skills: ['metalwork'] })
  for (const name of ['Joss', 'Wren'])
    add('personAdded', { ...person, personId: personId(name), roles: ['technician'], skills: ['metalwork'] })
  add('personAdded', { ...person, personId: personId('Ines'), roles: ['technician'], skills: ['paint'] })
  const floor = { x: 0, y: 0, width: 30, height: 60 }
  for (const [name, kind] of [
    ['1 metalwork', 'metalwork'],
    ['3 jig', 'jig'],
    ['6 booth', 'booth'],
    ['yard', 'storage'],
  ] as const)
    add('bayAdded', { bayId: bayId(name), name, kinds: [kind], floor })
  more(add)
  return workshopFromFacts(facts)
}
