import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { costIdSchema, variationIdSchema, type CarId } from '../../../domain/ids.ts'
import { onGate, repairId } from '../../support/car-builder.ts'
import { createFloor, type Floor } from '../../support/floor.ts'
import { createTestHost, refusalOf, type TestHost, type TestScreen } from '../../support/host.ts'
import { textOfPdf } from '../../support/pdf-text.ts'
import { repairPlan } from '../../support/plans.ts'
import { manager, welder } from '../../support/workshop.ts'

let host: TestHost
let screen: TestScreen
let floor: Floor
let carId: CarId
const sheet = costIdSchema.parse('cost-sheet')
const longer = variationIdSchema.parse('variation-longer')
const fabricated = onGate('Boot floor', 'fabricated')

beforeAll(async () => {
  host = await createTestHost()
  screen = await host.openScreen()
  carId = host.workshop.addCar('Larkspur 4', 'V-1')
  floor = await createFloor(host, screen, carId)
  await floor.run('addRepair', {
    repairId: repairId('Boot floor'),
    type: null,
    plan: repairPlan('Boot floor', { loadBearing: true }),
    payer: 'owner',
    covers: [],
    coveredBy: [],
  })
  const photo = await floor.photo(['Boot floor'], 'assessed', 'layer', { caption: 'The hole in the channel' })
  await floor.run('raiseVariation', {
    variationId: longer,
    visitId: host.workshop.car(carId).currentVisit!,
    payer: 'owner',
    title: 'Longer section',
    why: 'The channel is holed further forward.',
    ifNot: 'The new metal would end in thin metal.',
    findings: [],
    attachments: [photo],
    lines: [{ target: fabricated, hours: 6, low: 4, high: 11 }],
    costs: [{ costId: sheet, repairId: null, kind: 'material', name: 'Sheet 1.6 mm', amount: 4_550 }],
  })
})
afterAll(() => host.close())

const path = () => `/variations/${carId}/${longer}.pdf`
const printed = async () => {
  await screen.signIn(manager)
  const answer = await screen.request(path())
  expect([answer.status, answer.headers.get('content-type')]).toEqual([200, 'application/pdf'])
  expect(answer.headers.get('cache-control')).toBe('no-store')
  const named = 'inline; filename="Larkspur 4 shell V-1 Longer section.pdf"'
  expect(answer.headers.get('content-disposition')).toBe(named)
  // A line that was broken on the paper is one sentence.
  return textOfPdf(new Uint8Array(await answer.arrayBuffer())).replaceAll('\n', ' ')
}

describe('a variation on paper', () => {
  test('asks its payer, with photo, hours in words, money, caution and a place to sign', async () => {
    const text = await printed()
    for (const words of [
      'Longer section',
      'Larkspur 4, shell V-1',
      'Dear R. Okafor,',
      'The hole in the channel',
      'most likely 6 hours; it may be as few as 4 or as many as 11.',
      'Sheet 1.6 mm',
      '€45.50',
      'What happens if it is not done',
      'What we need from you',
      'Yes, but with these changes:',
      'Signature',
      'have them signed off by a licensed inspector',
    ])
      expect(text).toContain(words)
    expect(text.indexOf('The hole in the channel')).toBeLessThan(text.indexOf('The channel is holed further'))
  })

  test('once it is answered says how, and asks for nothing', async () => {
    await floor.run('decideVariation', {
      variationId: longer,
      decision: 'accepted',
      changed: { lines: [{ target: fabricated, hours: 4 }], costs: [{ costId: sheet, amount: 4_000 }] },
      how: 'call',
      note: '',
    })
    const text = await printed()
    expect(text).toContain('on the phone: 4 hours instead of 6 hours.')
    expect(text).toContain('€40.00')
    expect(text).not.toContain('Signature')
  })

  test('shows its amounts of money to a manager who is signed in, and to nobody else', async () => {
    const tablet = await host.openScreen()
    await tablet.signIn(welder)
    const costsOf = async (of: TestScreen) => [
      (await of.client.car.query({ carId })).variations[0]?.costs,
      (await of.client.repair.query({ carId, repairId: repairId('Boot floor') })).variations[0]?.costs,
      (await of.client.ownerDecisions.query()).answered[0]?.costs,
    ]
    expect(await costsOf(tablet)).toEqual([null, null, null])
    await screen.signIn(manager)
    const costs = [expect.objectContaining({ asked: 4_550, amount: 4_000 })]
    expect(await costsOf(screen)).toEqual([costs, costs, costs])
  })

  test('is for managers who are signed in, and for variations that are there', async () => {
    const tablet = await host.openScreen()
    await tablet.signIn(welder)
    const asked = await tablet.request(path())
    expect(asked.status).toBe(403)
    expect(await asked.json()).toMatchObject({ refusal: { code: 'not-allowed' } })
    await screen.signIn(manager)
    for (const wrong of [`/variations/${carId}/variation-none.pdf`, `/variations/car-none/${longer}.pdf`]) {
      const answer = await screen.request(wrong)
      expect([wrong, answer.status]).toEqual([wrong, 404])
    }
  })
})

describe('the draft of a variation', () => {
  test('is answered for a repair of the car, and named when the repair is not there', async () => {
    const asked = { carId, repairId: repairId('Boot floor') }
    const tablet = await host.openScreen()
    expect((await tablet.client.variationDraft.query(asked)).perHour).toBeNull()
    await screen.signIn(manager)
    const draft = await screen.client.variationDraft.query(asked)
    expect(draft).toMatchObject({ beyond: null, payer: 'owner', perHour: { fabricated: null } })
    expect(await screen.client.beyondAgreed.query({ carId })).toEqual([])
    const unknown = screen.client.variationDraft.query({ carId, repairId: repairId('Nowhere') })
    expect((await refusalOf(unknown)).message).toBe('This repair is not known on this car.')
  })
})
