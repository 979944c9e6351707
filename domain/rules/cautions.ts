import type { RepairPlan } from '../facts/shapes.ts'
import type { Gate } from '../gates.ts'

/** Cautions where the work is: common practice, no source. The program informs; it does not certify. */
export const cautionsFor = (plan: Pick<RepairPlan, 'loadBearing'>, gate: Gate): readonly string[] => [
  ...(byGate[gate] ?? []),
  ...(plan.loadBearing && LOAD_BEARING_GATES.has(gate) ? [LOAD_BEARING] : []),
]

/** On every plan that is handed out: common practice, no source. */
export const planCautions: readonly string[] = [
  'The plan says when work is expected, not that it may be done: a hold on a gate counts more than the plan. Support the shell before you cut, whatever the hour, and never leave out a support or a cure to keep a time.',
  'Hot work is planned to end early enough for its fire watch. When it runs late, stop the hot work and keep the watch: follow the insurer and the local rules.',
  'Local codes, data sheets and the licensed inspector come before the plan.',
]

const LOAD_BEARING_GATES: ReadonlySet<Gate> = new Set(['opened', 'fabricated', 'welded'])

export const LOAD_BEARING =
  'Load-bearing metal: repairs near seat-belt, steering, brake and suspension mountings are inspected by law in many countries. Follow the local code and have them signed off by a licensed inspector.'

/** The caution in a letter. @param names of the repairs that it is about, as inside a sentence; at least one */
export const loadBearingHere = (names: readonly string[]): string =>
  `${LOAD_BEARING} Here this concerns: ${names.join('; ')}.`

/** Where load-bearing metal is closed as found. */
export const LOAD_BEARING_AS_FOUND =
  'Load-bearing metal that is left damaged weakens the car in a way that cannot be seen. Near seat-belt, steering, brake and suspension mountings many countries ask for an inspection by law: follow the local code, and have a licensed inspector look at it. The workshop may refuse.'

const FUMES =
  'Ventilate and protect your breathing: zinc, lead and paint fumes are poisonous. Never weld metal that is wet with chlorinated cleaner.'
const FIRE = 'Keep a fire watch after hot work: follow the insurer and the local rules.'
const DATA_SHEET =
  "The product's data sheet rules. Two-pack paints need air-fed breathing protection; follow local rules."

const byGate: Partial<Record<Gate, readonly string[]>> = {
  opened: [
    'Support the shell before cutting. A stripped shell balances differently: check lift and rotisserie before turning.',
    'Disconnect the battery. Remove or purge fuel tank and lines: a drained tank is not safe. Keep heat from brake lines, wiring and trim.',
    'Old underseal, foam, wax and sealer burn unseen in cavities and give off toxic gas: strip them back first.',
    'Old paint and body solder hold lead; old pads and underseal may hold asbestos: no dry or power sanding, follow local rules.',
    FIRE,
  ],
  fabricated: [FUMES, FIRE],
  sealed: [DATA_SHEET],
  primed: [DATA_SHEET],
  welded: [FUMES, FIRE],
  painted: [DATA_SHEET],
}
