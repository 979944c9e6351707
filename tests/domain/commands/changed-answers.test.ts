import { describe, expect, test } from 'vitest'
import type { Moment } from '../../../domain/car.ts'
import type { CommandPayload } from '../../../domain/commands/command-shapes.ts'
import { costIdSchema, findingIdSchema } from '../../../domain/ids.ts'
import { onGate, repairId, variationId } from '../../support/car-builder.ts'
import { VISIT } from '../../support/driver.ts'
import { slug } from '../../support/plans.ts'
import { createScene } from '../../support/scene.ts'
import { sure } from '../../support/varied.ts'

const fabricated = onGate('Boot floor', 'fabricated')
const sheetOf = (title: string) => costIdSchema.parse(`cost-sheet-${slug(title)}`)
const holed = findingIdSchema.parse('finding-holed')

/** A boot floor with a finding, of whose fabricated hours 2 h are authorised. */
function withFinding() {
  const { driver, passTo, repair } = createScene()
  repair('Boot floor')
  driver.must('addFinding', {
    findingId: holed,
    repairId: repairId('Boot floor'),
    layerId: null,
    kind: 'corrosion',
    grade: 'holed',
    extent: '240 mm',
    needs: 'a longer section',
    attachments: [],
  })
  const raise = (title: string, hours: number, more: Partial<CommandPayload<'raiseVariation'>> = {}) =>
    driver.must('raiseVariation', {
      variationId: variationId(title),
      visitId: VISIT,
      payer: 'owner',
      title,
      why: 'holed',
      ifNot: '',
      findings: [holed],
      attachments: [],
      lines: [sure(fabricated, hours)],
      costs: [{ costId: sheetOf(title), repairId: null, kind: 'material', name: 'Sheet', amount: 4_000 }],
      ...more,
    })
  const answer = (title: string, hours: number, amount: number, happened?: Moment) =>
    driver.give(
      'decideVariation',
      {
        variationId: variationId(title),
        decision: 'accepted',
        changed: { lines: [{ target: fabricated, hours }], costs: [{ costId: sheetOf(title), amount }] },
        how: 'call',
        note: '',
      },
      happened === undefined ? {} : { happened },
    )
  return { driver, passTo, raise, answer }
}

describe('a changed answer', () => {
  test('keeps what was asked beside what was accepted', () => {
    const { driver, raise, answer } = withFinding()
    raise('Longer section', 6)
    expect(answer('Longer section', 4, 3_000).ok).toBe(true)
    expect(driver.car.variations.get(variationId('Longer section'))).toMatchObject({
      askedCosts: [{ amount: 4_000 }],
      costs: [{ amount: 3_000 }],
      asked: [{ hours: 6 }],
      lines: [{ hours: 4 }],
    })
  })

  test('does not take back more hours than are authorised', () => {
    const { raise, answer } = withFinding()
    raise('Patch instead', -1)
    expect(answer('Patch instead', -3, 0)).toMatchObject({
      ok: false,
      refusal: { message: expect.stringContaining('takes back more hours than are still authorised') },
    })
  })

  test('does not pay for one finding twice', () => {
    const { raise, answer } = withFinding()
    raise('Longer section', 6)
    raise('Whole floor', 9)
    expect(answer('Longer section', 4, 0).ok).toBe(true)
    expect(answer('Whole floor', 5, 0)).toMatchObject({
      ok: false,
      refusal: { message: "'Longer section' was accepted for the same finding." },
    })
  })

  test('that accepts nothing is declined instead', () => {
    const { raise, answer } = withFinding()
    raise('Longer section', 6)
    expect(answer('Longer section', 0, 0)).toMatchObject({
      ok: false,
      refusal: { message: 'Nothing of it is accepted.' },
    })
    expect(answer('Longer section', 0, 4_000).ok).toBe(true)
  })
})

describe('an answer', () => {
  test('does not lie before the question', () => {
    const { driver, raise, answer } = withFinding()
    const before = driver.now - 3_600_000
    raise('Longer section', 6)
    expect(answer('Longer section', 4, 0, before)).toMatchObject({
      ok: false,
      refusal: { message: 'The answer lies before the question.' },
    })
  })

  test('does not accept work on a car that is finished', () => {
    const { driver, passTo, raise, answer } = withFinding()
    passTo('Boot floor', 'painted')
    raise('Longer section', 6)
    driver.must('setVisitStatus', { visitId: VISIT, status: 'finished', reason: '' })
    expect(answer('Longer section', 4, 0)).toMatchObject({
      ok: false,
      refusal: { message: 'The visit is finished.', next: 'Set it back in work first.' },
    })
    const declined = {
      variationId: variationId('Longer section'),
      decision: 'declined',
      changed: null,
    } as const
    expect(driver.give('decideVariation', { ...declined, how: 'call', note: '' }).ok).toBe(true)
  })
})
