import { expect, test } from 'vitest'
import { variationsTable } from '../../../domain/report/variations-table.ts'
import { createViewContext } from '../../../domain/views/view-context.ts'
import { atOnce } from '../../support/at-once.ts'
import { buildCar, onGate, variationId, visitId } from '../../support/car-builder.ts'
import { cost, costId, workshopWith } from '../../support/money-builder.ts'
import { nameOf } from '../../support/workshop-builder.ts'

const fabricated = onGate('Boot floor', 'fabricated')
const raised = {
  variationId: variationId('Longer section'),
  visitId: visitId('first'),
  payer: 'owner' as const,
  title: 'Longer section',
  why: 'holed further forward',
  ifNot: '',
  findings: [],
  attachments: [],
  lines: [
    { target: fabricated, hours: 6, low: 4, high: 11 },
    { target: onGate('Boot floor', 'welded'), hours: 2, low: 1, high: 3 },
  ],
  costs: [cost('Sheet', 4_550)],
}
/** 60 an hour, and 66 from 24 Nov on. */
const rates = [
  { from: '2026-01-01', usual: 6_000, bySkill: [] },
  { from: '2026-11-24', usual: 6_600, bySkill: [] },
]
const contextOf = (of: typeof rates) =>
  createViewContext({ now: Date.parse('2026-11-25T10:00:00Z'), workshop: workshopWith(of), nameOf })

const raisedCar = () => buildCar().repair('Boot floor').at('2026-11-20T08:00').add('variationRaised', raised)

test('one that waits has what was asked, at the rates of today, and nothing accepted', () => {
  const { name, columns, rows } = atOnce(variationsTable([raisedCar().car()], contextOf(rates)))
  expect([name, ...columns.map(({ head }) => head)]).toEqual([
    'Variations',
    'Car',
    'Shell number',
    'Payer',
    'Title',
    'Raised on',
    'Decided on',
    'Answer came by',
    'Status',
    'Asked at the least h',
    'Asked most likely h',
    'Asked at the most h',
    'Accepted h',
    'Labour asked EUR',
    'Parts, materials and outside work asked EUR',
    'Labour accepted EUR',
    'Parts, materials and outside work accepted EUR',
  ])
  const asked = ['Dunmere Saloon', '0412', 'owner', 'Longer section', '2026-11-20', null, null, 'raised']
  // 8 h at 66.
  expect(rows).toEqual([[...asked, 5, 8, 14, null, 528, 45.5, null, null]])
})

test('an accepted one has what its payer made of it, at the rates of that day', () => {
  const car = raisedCar()
    .at('2026-11-23T08:00')
    .add('variationDecided', {
      variationId: raised.variationId,
      decision: 'accepted',
      changed: {
        lines: [{ target: fabricated, hours: 5 }],
        costs: [{ costId: costId('Sheet'), amount: 4_000 }],
      },
      how: 'call',
      note: '',
    })
    .car()
  // 8 h asked and 5 h accepted, at 60.
  expect(atOnce(variationsTable([car], contextOf(rates))).rows[0]?.slice(5)).toEqual([
    '2026-11-23',
    'call',
    'accepted',
    5,
    8,
    14,
    5,
    480,
    45.5,
    300,
    40,
  ])
})

test('a declined one has nothing accepted, and labour is empty as long as no rate is set', () => {
  const car = raisedCar().at('2026-11-23T08:00').decide('Longer section', 'declined').car()
  const [row] = atOnce(variationsTable([car], contextOf([]))).rows
  expect(row?.slice(7)).toEqual(['declined', 5, 8, 14, 0, null, 45.5, 0, 0])
})
