import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { ImportKind } from '../../../domain/import/plan-import.ts'
import { setUpFellLane } from '../../support/fell-lane.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'

let host: TestHost
let screen: TestScreen
beforeAll(async () => {
  host = await createTestHost({ setUp: false })
  screen = await setUpFellLane(host)
})
afterAll(() => host.close())

const call = (kind: ImportKind, lines: readonly string[], importId = crypto.randomUUID()) => {
  const file = { kind, text: lines.join('\r\n'), importId }
  return {
    preview: () => screen.client.importPreview.mutate(file),
    commit: () => screen.client.importCommit.mutate(file),
  }
}
const problemsOf = async (kind: ImportKind, lines: readonly string[]) => {
  const preview = await call(kind, lines).preview()
  if (!preview.ok) throw new Error(preview.refusal.message)
  return preview.lines.flatMap((line) => line.problems)
}
const shellNumbers = async () =>
  (await screen.client.cars.query()).cars.map((car) => car.shellNumber).toSorted()
const revision = async () => (await screen.client.session.query()).revision

const carHeader = 'shell number;name;body;owner'

describe('an import', () => {
  test('brings in cars, their repairs and hours, as the preview said', async () => {
    const cars = call('cars', [carHeader, 'I-1;Corran 5;van;Ada Fell', 'I-2;Corran 2;tourer;Ada Fell'])
    const preview = await cars.preview()
    expect(preview).toMatchObject({ ok: true, ready: true, lines: [{ line: 2, problems: [] }, { line: 3 }] })
    expect(await shellNumbers()).toEqual([])
    expect(await cars.commit()).toMatchObject({ ok: true, lines: 2 })
    expect(await shellNumbers()).toEqual(['I-1', 'I-2'])

    const [type, other] = (await screen.client.catalogue.query()).types.map((each) => each.plan.name)
    const repairs = call('repairs', [
      'shell number,repair type,name,covers,opened',
      `I-1,${type},Outer,Inner,1/2/3`,
      `I-1,${other},Inner,,`,
    ])
    expect(await repairs.preview()).toMatchObject({ ready: true })
    expect(await repairs.commit()).toMatchObject({ ok: true })
    const carId = (await screen.client.cars.query()).cars.find((car) => car.shellNumber === 'I-1')!.carId
    const car = await screen.client.car.query({ carId })
    expect(car.repairs.map((repair) => [repair.name, repair.depth])).toEqual([
      ['Outer', 0],
      ['Inner', 1],
    ])
    expect(car.estimate.find((line) => line.what.includes('Outer') && line.gate === 'opened')?.hours).toEqual(
      {
        shortest: 1,
        likely: 2,
        longest: 3,
      },
    )

    const hours = call('hours', [
      'person;date;hours;shell number;repair;gate',
      'Mona Reed;2026-11-20;6,5;I-1;Outer;opened',
    ])
    expect(await hours.commit()).toMatchObject({ ok: true })
    const { entries } = await screen.client.car.query({ carId })
    expect(entries.map((entry) => [entry.person, entry.date, entry.hours])).toEqual([
      ['Mona Reed', '2026-11-20', 6.5],
    ])
  })

  test('twice changes nothing', async () => {
    const cars = call('cars', [carHeader, 'I-3;Corran 3;van;Orla Trend'])
    const first = await cars.commit()
    const before = await revision()
    expect(await cars.commit()).toEqual(first)
    expect(await revision()).toBe(before)
  })

  test('says of each line what the rules of the workshop say, and brings in none of them', async () => {
    await call('cars', [carHeader, 'I-4;Corran 4;van;Ada Fell']).commit()
    const before = await revision()
    const lines = [
      carHeader,
      'I-5;Fine;van;Ada Fell',
      'I-4;Taken;van;Ada Fell',
      'I-6;Fine too;van;Ada Fell',
      'I-5;Twice;van;Ada Fell',
    ]
    const bad = await problemsOf('cars', lines)
    expect(bad.map((each) => each.line)).toEqual([3, 5])
    expect(bad[0]?.message).toContain('I-4')
    const refused = await call('cars', lines).commit()
    expect(refused).toMatchObject({ ok: false, refusal: { message: expect.stringContaining('Line 3') } })
    expect(await shellNumbers()).not.toContain('I-5')
    expect(await revision()).toBe(before)
  })

  test('with a line that cannot be read brings in none of the others', async () => {
    const lines = [carHeader, 'I-7;Fine;van;Ada Fell', 'I-8;Bad;barge;Ada Fell']
    expect(await call('cars', lines).preview()).toMatchObject({ ok: true, ready: false })
    expect(await call('cars', lines).commit()).toMatchObject({ ok: false, refusal: { code: 'bad-input' } })
    expect(await shellNumbers()).not.toContain('I-7')
  })

  test('refuses hours that overlap or make a day too long, line by line', async () => {
    const header = 'person;date;hours;from;to;workshop work'
    const bad = await problemsOf('hours', [
      header,
      'Mona Reed;2026-11-18;;8:00;12:00;Sweeping',
      'Mona Reed;2026-11-18;;11:30;13:00;Tools',
      'Mona Reed;2026-11-19;20;;;Sweeping',
      'Mona Reed;2026-11-19;5;;;Sweeping',
    ])
    expect(bad.map((each) => each.line)).toEqual([3, 5])
    expect(bad[0]?.message).toContain('overlaps')
    expect(bad[1]?.message).toContain('25 hours')
  })

  test('names links that no order of work can satisfy', async () => {
    const [type] = (await screen.client.catalogue.query()).types.map((each) => each.plan.name)
    await call('cars', [carHeader, 'I-9;Corran 9;van;Ada Fell']).commit()
    const bad = await problemsOf('repairs', [
      'shell number;repair type;name;covers',
      `I-9;${type};One;Two`,
      `I-9;${type};Two;One`,
    ])
    expect(bad).toMatchObject([{ line: 3, message: expect.stringMatching(/circle/i) }])
  })

  test('in another encoding or with other columns is refused as a whole', async () => {
    const latin = new TextDecoder().decode(Buffer.from(`${carHeader}\nI-10;Müller;van;Ada`, 'latin1'))
    const file = { kind: 'cars' as const, importId: crypto.randomUUID() }
    expect(await screen.client.importPreview.mutate({ ...file, text: latin })).toMatchObject({
      ok: false,
      refusal: { code: 'bad-input', next: expect.stringContaining('CSV UTF-8') },
    })
    expect(await screen.client.importPreview.mutate({ ...file, text: 'colour\nred' })).toMatchObject({
      ok: false,
      refusal: { message: expect.stringContaining("unknown 'colour'") },
    })
  })

  test('keeps emoji and markup as plain text', async () => {
    const name = '🚗 <img src=x onerror=alert(1)> & "Söhne"'
    const quoted = `"${name.replaceAll('"', '""')}"`
    await call('cars', [carHeader, `I-11;${quoted};van;${quoted}`]).commit()
    const car = (await screen.client.cars.query()).cars.find((each) => each.shellNumber === 'I-11')
    expect([car?.name, car?.owner]).toEqual([name, name])
  })
})
