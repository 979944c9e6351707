import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { carIdSchema, type CarId } from '../../../domain/ids.ts'
import { repairId } from '../../support/car-builder.ts'
import { createFloor } from '../../support/floor.ts'
import { createTestHost, refusalOf, type TestHost, type TestScreen } from '../../support/host.ts'
import { addRepair } from '../../support/larkspur.ts'
import { textOfPdf } from '../../support/pdf-text.ts'
import { manager, welder } from '../../support/workshop.ts'

let host: TestHost
let screen: TestScreen
let carId: CarId
let empty: CarId

beforeAll(async () => {
  host = await createTestHost()
  screen = await host.openScreen()
  carId = host.workshop.addCar('Larkspur 4', 'S-101')
  empty = host.workshop.addCar('Corran 5', 'S-102')
  addRepair(host.workshop, carId, 'Sill, left', { plan: { loadBearing: true }, accepted: false })
  addRepair(host.workshop, carId, 'Boot floor', { accepted: false })
})
afterAll(() => host.close())

const pdf = (id: string) => screen.request(`/estimate/${id}.pdf`)

describe('the estimate of a car', () => {
  test('takes in the grade seen from outside, by whoever stands at the car, until it is opened', async () => {
    const before = await screen.client.estimate.query({ carId })
    expect(before.repairs.map(({ name, outside }) => [name, outside])).toEqual([
      ['Sill, left', null],
      ['Boot floor', null],
    ])
    const payload = { repairId: repairId('Sill, left'), grade: 'holed', note: '' } as const
    await screen.run('gradeOutside', payload, { carId, by: welder })
    const after = await screen.client.estimate.query({ carId })
    expect(after.repairs[0]!.outside).toMatchObject({ grade: 'holed', by: 'Ilse Brandt' })
    expect(after.repairs[0]!.band!.p50).toBeGreaterThan(before.repairs[0]!.band!.p50)
    expect(after.whole.words).toMatch(
      /^Half the time \d[\d.]* h or less; four times in five \d[\d.]* h or less\.$/,
    )
    addRepair(host.workshop, carId, 'Jacking point', {
      payer: 'workshop',
      accepted: false,
      passed: 'opened',
    })
    const late = { ...payload, repairId: repairId('Jacking point') }
    const answer = await screen.send('gradeOutside', late, { carId, by: welder })
    expect(answer).toMatchObject({ ok: false, refusal: { code: 'not-now' } })
  })

  test('is refused in words for a car that is not known', async () => {
    const asked = screen.client.estimate.query({ carId: carIdSchema.parse('car-unknown') })
    expect(await refusalOf(asked)).toMatchObject({ code: 'unknown', message: 'This car is not known here.' })
  })
})

describe('the estimate on paper', () => {
  test('is for signed-in managers', async () => {
    const answer = await pdf(carId)
    expect(answer.status).toBe(403)
    expect(await answer.json()).toMatchObject({ refusal: { code: 'not-allowed' } })
  })

  test('says what is not there yet, and what to do', async () => {
    await screen.signIn(manager)
    const answer = await pdf(empty)
    expect(answer.status).toBe(404)
    expect(await answer.json()).toMatchObject({
      refusal: {
        message: 'Nothing is estimated on this car yet, so there is nothing to print.',
        next: 'Add a repair on its estimate sheet, then print it.',
      },
    })
    expect((await pdf('not%20a%20car')).status).toBe(404)
  })

  test('holds everything as text, with the photo of the outside', async () => {
    await screen.signIn(manager)
    const floor = await createFloor(host, screen, carId)
    await floor.photo(['Sill, left'], 'opened', 'before', { caption: 'The sill as it came in' })
    const answer = await pdf(carId)
    expect([answer.status, answer.headers.get('content-type')]).toEqual([200, 'application/pdf'])
    expect(answer.headers.get('cache-control')).toBe('no-store')
    const text = textOfPdf(new Uint8Array(await answer.arrayBuffer())).replaceAll('\n', ' ')
    for (const words of [
      'Brookside Metalwork',
      'Larkspur 4, shell S-101',
      'Estimate of Mon 23 Nov 2026',
      'Dear R. Okafor,',
      '3 repairs',
      'What we looked at',
      'The sill as it came in',
      'What we propose',
      'What can be seen from outside is holed: rusted through in places.',
      'Behind it nobody has seen the inner panel yet.',
      'behind metal we have not opened yet it may become',
      'agreed 16.0 h',
      'What it comes to',
      'What could move it most',
      'What we do not know yet',
      'Nothing of it is done without your answer.',
      'How it is charged',
      'What we need from you',
      'Here this concerns: sill, left.',
      'certifies nothing',
      'page 1 of',
    ])
      expect(text).toContain(words)
    expect(text).not.toMatch(/NaN|undefined|Infinity/)
    expect(text).not.toContain('Ilse Brandt')
  })
})
