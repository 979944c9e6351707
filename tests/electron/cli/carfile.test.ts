import { mkdirSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { photosFolder } from '../../../db/data-paths.ts'
import { originalPath } from '../../../db/photos/photo-files.ts'
import { readBag } from '../../../electron/bag/read-bag.ts'
import { BAG_LIMITS } from '../../support/bags.ts'
import { carWithEveryKind, type FiledCar } from '../../support/car-file.ts'
import { describePdf, readPdf } from '../../support/pdf-tools.ts'
import { runScript, type ScriptEnd } from '../../support/run-script.ts'

let filed: FiledCar
let out: string
/** Where all cars were written, and what was said. */
let all: string
let end: ScriptEnd
beforeAll(async () => {
  filed = await carWithEveryKind()
  all = mkdtempSync(join(tmpdir(), 'panelwright-carfiles-'))
  end = await carfile('--data', dataDir(), '--out', all)
})
afterAll(() => {
  filed.workshop.close()
  rmSync(all, { recursive: true })
})
beforeEach(() => {
  out = mkdtempSync(join(tmpdir(), 'panelwright-carfile-'))
  return () => rmSync(out, { recursive: true })
})

const dataDir = () => filed.workshop.dataDir!
const carfile = (...args: readonly string[]) => runScript('electron/cli/carfile.ts', ...args)

test('a folder a car is written beside an open database, whole and without anything else', async () => {
  expect(end.out).toContain(`Larkspur Four, shell S-101: `)
  expect(end.out).toContain(`2 cars of 2 written to ${all}.`)
  expect(end.code).toBe(0)
  expect(readdirSync(all).toSorted()).toEqual(['car-S-101', 'car-S-900'])
  for (const name of readdirSync(all)) {
    const bag = await readBag(join(all, name), BAG_LIMITS)
    expect(bag).toMatchObject({ ok: true })
    if (!bag.ok) continue
    expect(bag.value.files.has('book.pdf')).toBe(true)
    await bag.value.close()
  }
})

describePdf('the book in the file', () => {
  const secrets = ['Okafor', '4 Quay Lane', '42.50', '39.90', 'The boot floor is open.']
  const bookIn = async (folder: string) =>
    (await readPdf(readFileSync(join(folder, 'car-S-101', 'data', 'book.pdf')))).text

  test('holds no contact, price or word to the owner, unless they were ticked', async () => {
    const text = await bookIn(all)
    expect(text).toContain('Larkspur Four')
    for (const secret of secrets) expect(text).not.toContain(secret)
    const ticked = ['--contacts', '--prices', '--hours']
    await carfile('--data', dataDir(), '--car', 'S-101', '--out', out, ...ticked)
    const whole = await bookIn(out)
    for (const secret of secrets.slice(0, 3)) expect(whole).toContain(secret)
    expect(readFileSync(join(out, 'car-S-101', 'data', 'people.json'), 'utf8')).toContain('4 Quay Lane')
  }, 60_000)
})

describe('what goes wrong is said with what to do, and leaves nothing half-written:', () => {
  test('a shell number that no car has', async () => {
    const { code, out: said } = await carfile('--data', dataDir(), '--car', 'S-9', '--out', out)
    expect(code).toBe(2)
    expect(said).toContain("no car with the shell number 'S-9'. The cars here: S-101, S-900")
    expect(said).toContain('npm run carfile --')
    expect(readdirSync(out)).toEqual([])
  })

  test('a folder that is there, and a missing original', async () => {
    mkdirSync(join(out, 'car-S-900'))
    const place = originalPath(photosFolder(dataDir()), filed.photos[0]!)
    renameSync(place, `${place}-away`)
    const { code, out: said } = await carfile('--data', dataDir(), '--out', out)
    renameSync(`${place}-away`, place)
    expect(code).toBe(1)
    expect(said).toContain(`Teasel, shell S-900: ${join(out, 'car-S-900')} is there already.`)
    expect(said).toContain(`${filed.photos[0]!.slice(0, 12)} is missing from the data folder. Check`)
    expect(said).toContain('0 cars of 2 written')
    expect(readdirSync(out)).toEqual(['car-S-900'])
    expect(readdirSync(join(out, 'car-S-900'))).toEqual([])
  })

  test('a folder that may not be written to', async () => {
    const file = join(out, 'a file')
    writeFileSync(file, '')
    const { code, out: said } = await carfile('--data', dataDir(), '--out', file)
    expect(code).toBe(2)
    expect(said).toContain(`${file} cannot be written to (EEXIST).`)
  })
})
