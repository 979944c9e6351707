import type { CostKind } from '../../domain/facts/money-facts.ts'
import type { Payer } from '../../domain/facts/shapes.ts'
import { costIdSchema, spendingIdSchema, type CostId, type PersonId } from '../../domain/ids.ts'
import { carOf, repairIdOf, send, type Act } from './act.ts'
import { visitIdOf } from './arrival.ts'
import type { Floor } from './floor.ts'

/** Pence an hour. */
const FIRST_RATES = {
  usual: 58_00,
  bySkill: [
    { skill: 'welding', perHour: 64_00 },
    { skill: 'painting', perHour: 62_00 },
  ],
}
const NEW_RATES = {
  usual: 62_00,
  bySkill: [
    { skill: 'welding', perHour: 69_00 },
    { skill: 'painting', perHour: 66_00 },
  ],
}
/** Working days on which the new rates are set, and from which they hold. */
const NEW_RATES_SET = -76
const NEW_RATES_FROM = -64

/** Rates from the first morning, and new ones in the course of the year. */
export function seeToRates({ stage, days }: Floor, by: PersonId, day: number): void {
  if (stage.workshop().rates.length === 0)
    stage.send('setRates', null, by, { from: days.date(day), ...FIRST_RATES })
  if (day === NEW_RATES_SET)
    stage.send('setRates', null, by, { from: days.date(NEW_RATES_FROM), ...NEW_RATES })
}

interface DemoCost {
  readonly key: string
  readonly kind: CostKind
  readonly name: string
  /** Pence. */
  readonly amount: number
  readonly payer?: Payer
  /** The repair it is for; the whole car when left out. */
  readonly repair?: string
  /** Its payer has not answered yet. */
  readonly waits?: boolean
  /** Working day and pence of its bill. */
  readonly bill?: readonly [day: number, amount: number]
}

/** What nobody agreed to beforehand. */
interface DemoBill extends Pick<DemoCost, 'kind' | 'name' | 'amount'> {
  readonly day: number
}

interface DemoMoney {
  readonly costs: readonly DemoCost[]
  readonly bills?: readonly DemoBill[]
}

const sheet = (amount: number, bill?: DemoCost['bill']): DemoCost => ({
  key: 'sheet',
  kind: 'material',
  name: 'Sheet steel, 0.8 to 1.6 mm',
  amount,
  ...(bill && { bill }),
})

/** By the key of the car. */
const MONEY: Readonly<Record<string, DemoMoney>> = {
  brenholt: {
    costs: [
      sheet(260_00, [-150, 248_60]),
      { key: 'paint', kind: 'material', name: 'Primer and top coat', amount: 640_00, bill: [-40, 702_15] },
    ],
    bills: [{ kind: 'material', name: 'Cavity wax, second can', amount: 38_40, day: -14 }],
  },
  dunmere: {
    costs: [
      sheet(410_00, [-98, 396_20]),
      {
        key: 'spare-well',
        kind: 'part',
        name: 'Spare-wheel well pressing',
        amount: 185_00,
        repair: 'spare-well',
        bill: [-60, 185_00],
      },
      { key: 'paint', kind: 'material', name: 'Primer and top coat', amount: 720_00 },
    ],
    bills: [{ kind: 'part', name: 'Door hinge pins', amount: 46_80, day: -9 }],
  },
  hesslow: {
    costs: [
      sheet(380_00, [-120, 431_75]),
      {
        key: 'arch-r',
        kind: 'part',
        name: 'Wheel arch, right',
        amount: 142_00,
        repair: 'arch-r',
        bill: [-88, 142_00],
      },
      {
        key: 'arch-l',
        kind: 'part',
        name: 'Wheel arch, left',
        amount: 142_00,
        repair: 'arch-l',
        bill: [-88, 158_50],
      },
    ],
  },
  ostwick: {
    costs: [
      {
        key: 'wing',
        kind: 'part',
        name: 'Inner wing, left',
        amount: 365_00,
        payer: 'insurer',
        repair: 'inner-wing-l',
        bill: [-38, 365_00],
      },
      {
        key: 'corner',
        kind: 'part',
        name: 'Front panel corner, left',
        amount: 128_00,
        payer: 'insurer',
        repair: 'front-corner-l',
        bill: [-38, 139_90],
      },
      sheet(290_00, [-30, 212_40]),
    ],
  },
  tamsel: {
    costs: [
      {
        key: 'dip',
        kind: 'outside work',
        name: 'Dip and strip the shell',
        amount: 1_450_00,
        bill: [-2, 1_520_00],
      },
      sheet(320_00, [-8, 118_30]),
      { key: 'seal', kind: 'part', name: 'Tailgate seal', amount: 74_00, waits: true },
    ],
  },
  marrick: {
    costs: [
      sheet(340_00, [-36, 301_10]),
      {
        key: 'quarter',
        kind: 'part',
        name: 'Quarter panel, rear edge',
        amount: 228_00,
        repair: 'quarter-r',
        bill: [-20, 228_00],
      },
      { key: 'hood', kind: 'outside work', name: 'Hood frame straightened', amount: 190_00, waits: true },
    ],
  },
}

/** The money of the estimate when the car is there, its acceptance with that of the hours, and the bills as they come. */
export function seeToMoney(floor: Floor, act: Act, day: number): void {
  const money = MONEY[act.demo.key]
  if (money === undefined) return
  if (act.demo.arrives === day) estimate(act, money.costs)
  accept(act, money.costs)
  for (const cost of money.costs)
    if (cost.bill?.[0] === day) spend(floor, act, { ...cost, amount: cost.bill[1], day }, costIdOf(act, cost))
  for (const bill of money.bills ?? []) if (bill.day === day) spend(floor, act, bill, null)
}

const costIdOf = ({ demo }: Act, { key }: DemoCost): CostId =>
  costIdSchema.parse(`demo-${demo.key}-cost-${key}`)

function estimate(act: Act, costs: readonly DemoCost[]): void {
  send(act, 'setCosts', {
    visitId: visitIdOf(act.demo),
    costs: costs.map((cost) => ({
      costId: costIdOf(act, cost),
      kind: cost.kind,
      name: cost.name,
      amount: cost.amount,
      payer: cost.payer ?? 'owner',
      repairId: cost.repair === undefined ? null : repairIdOf(act.demo, cost.repair),
    })),
  })
}

/** Once its payer has accepted hours. */
function accept(act: Act, costs: readonly DemoCost[]): void {
  const visitId = visitIdOf(act.demo)
  const visit = carOf(act).visits.get(visitId)
  for (const payer of ['owner', 'insurer'] as const) {
    const hasAnswered = [...(visit?.lines.values() ?? [])].some(
      (line) => line.payer === payer && line.accepted !== null,
    )
    const costIds = costs
      .filter((cost) => (cost.payer ?? 'owner') === payer && cost.waits !== true)
      .map((cost) => costIdOf(act, cost))
      .filter((id) => visit?.costs.get(id)?.accepted === null)
    if (hasAnswered && costIds.length > 0)
      send(act, 'acceptEstimate', { visitId, payer, lineIds: [], costIds, how: 'letter', note: '' })
  }
}

function spend(
  { stage, days }: Floor,
  act: Act,
  bill: DemoBill & Pick<DemoCost, 'payer' | 'repair'>,
  costId: CostId | null,
): void {
  send(act, 'spendCost', {
    spendingId: spendingIdSchema.parse(stage.id('spending')),
    visitId: visitIdOf(act.demo),
    repairId: bill.repair === undefined ? null : repairIdOf(act.demo, bill.repair),
    costId,
    kind: bill.kind,
    name: bill.name,
    date: days.date(bill.day),
    amount: bill.amount,
    payer: bill.payer ?? 'owner',
  })
}
