import type { CommandPayload } from '../../domain/commands/command-shapes.ts'
import type { Role } from '../../domain/facts/workshop-facts.ts'
import { DEMO_CODES, demoPersonId, type DemoName } from '../../domain/demo-codes.ts'
import { partyIdSchema, personIdSchema, type PartyId, type PersonId } from '../../domain/ids.ts'

/** An invented workshop with invented people; telephone numbers are of a range that is kept free for fiction. */
export const demoWorkshop = {
  name: 'Thornback Lane Panelworks',
  zone: 'Europe/London',
  currency: 'GBP',
} as const

export interface DemoPerson {
  readonly id: PersonId
  readonly name: string
  readonly code: string
  readonly roles: readonly Role[]
  readonly skills: readonly string[]
  /** First and last working day off, counted from the day the demo is filled up to. */
  readonly off: readonly (readonly [from: number, to: number])[]
}

const person = (
  key: DemoName,
  name: string,
  roles: readonly Role[],
  skills: readonly string[],
  off: DemoPerson['off'],
): DemoPerson => ({
  id: personIdSchema.parse(demoPersonId(key)),
  name,
  code: DEMO_CODES[key],
  roles,
  skills,
  off,
})

/** Their codes stand in the README and where one signs in: whoever looks around the demo signs in as any of them. */
export const demoPeople = {
  maren: person('maren', 'Maren', ['manager'], ['fitting'], [[-96, -88]]),
  wren: person(
    'wren',
    'Wren',
    ['manager', 'technician'],
    ['sheet metal', 'welding', 'fitting'],
    [[-61, -53]],
  ),
  joss: person('joss', 'Joss', ['technician'], ['sheet metal', 'fitting', 'preparation'], [[-120, -111]]),
  tam: person('tam', 'Tam', ['technician'], ['sheet metal', 'welding'], [[-84, -77]]),
  ines: person('ines', 'Ines', ['technician'], ['preparation', 'painting'], [[-47, -42]]),
  bram: person(
    'bram',
    'Bram',
    ['technician'],
    ['fitting', 'sheet metal'],
    [
      [-34, -26],
      [8, 12],
    ],
  ),
  pia: person('pia', 'Pia', ['technician'], ['preparation', 'painting', 'sheet metal'], [[-71, -66]]),
} as const satisfies Readonly<Record<string, DemoPerson>>

export type DemoPersonKey = keyof typeof demoPeople

/** Who stands at the metal; the manager works in the office. */
export const floorPeople: readonly DemoPerson[] = [
  demoPeople.wren,
  demoPeople.joss,
  demoPeople.tam,
  demoPeople.ines,
  demoPeople.bram,
  demoPeople.pia,
]

type Party = CommandPayload<'addParty'>

const party = (key: string, kind: Party['kind'], name: string, last: number, address: string): Party => ({
  partyId: partyIdSchema.parse(`demo-party-${key}`),
  kind,
  contact: {
    name,
    phone: `01632 960${String(100 + last)}`,
    email: `${key}@example.com`,
    address,
  },
})

export const demoParties = {
  quill: party('quill', 'owner', 'Ada Quillfeather', 1, '4 Saltmarsh Row'),
  osk: party('osk', 'owner', 'Bertrand Osk', 2, 'The Old Granary, Ferne Hill'),
  tolvane: party('tolvane', 'owner', 'Mirela Tolvane', 3, '17 Lantern Street'),
  wend: party('wend', 'owner', 'Casper Wend', 4, 'Wend Nursery, Upper Ash'),
  marsh: party('marsh', 'owner', 'Ottoline Marsh', 5, '2 Cooper Yard'),
  strand: party('strand', 'owner', 'Iven Strand', 6, 'Strand Bakery, Mill Lane'),
  brook: party('brook', 'owner', 'Halla Brook', 7, '31 Alder Rise'),
  oldacre: party('oldacre', 'owner', 'Piet Oldacre', 8, 'Kiln Cottage, Tiler Lane'),
  kettle: party('kettle', 'owner', 'Rosalind Kettle', 9, '8 Weir Terrace'),
  pennywort: party('pennywort', 'insurer', 'Pennywort Mutual', 20, 'Claims, 60 Foundry Road'),
  stillpool: party('stillpool', 'firm', 'Stillpool Dip and Strip', 30, 'Unit 9, Quay Works'),
} as const satisfies Readonly<Record<string, Party>>

export type DemoPartyKey = keyof typeof demoParties

export const partyId = (key: DemoPartyKey): PartyId => demoParties[key].partyId
