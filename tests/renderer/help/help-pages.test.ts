import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { GATES } from '../../../domain/gates.ts'
import { HELP_PAGES } from '../../../renderer/help/help-pages.ts'
import type { HelpPage, HelpPart } from '../../../renderer/help/help-shapes.ts'
import { HELP_NAMES, helpFor } from '../../../renderer/help/help-names.ts'
import { CAR_SHEETS } from '../../../renderer/parts/sheets/car-sheets.ts'
import { PLAN_SHEETS } from '../../../renderer/parts/sheets/plan-sheets.ts'
import { SHEET_WORDS, WORKSHOP_SHEETS } from '../../../renderer/parts/sheets/workshop-sheets.ts'

const root = fileURLToPath(new URL('../../../', import.meta.url))

function sourcesBelow(folder: string): string {
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.tsx?$/.test(file) && !file.startsWith('help'))
    .map((file) => readFileSync(join(root, folder, file), 'utf8'))
    .join('\n')
}

function linesOf(part: HelpPart): readonly string[] {
  switch (part.kind) {
    case 'terms':
      return part.terms.flat()
    case 'marks':
    case 'keys':
    case 'reckon':
      return []
    default:
      return part.lines
  }
}

const textOf = (of: (typeof HELP_NAMES)[number]): readonly string[] => {
  const { title, what, parts } = HELP_PAGES[of]
  return [title, what, ...parts.flatMap((part) => [part.heading, ...linesOf(part)])]
}

describe('the pages of help', () => {
  const screens = sourcesBelow('renderer') + sourcesBelow('domain')
  /** At the beginning of a text, whatever its first letter's case is made to be. */
  const isOnScreen = (label: string) =>
    new RegExp(`[>'"\`}\\n]\\s*${label.replaceAll(/[^\w\s’]/g, '\\$&')}`, 'i').test(screens)

  test.each(HELP_NAMES)('%s names controls as they stand on the screens', (of) => {
    const labels = textOf(of).flatMap((line) => [...line.matchAll(/‘([^’]+)’/g)].map(([, label]) => label!))
    expect(labels.filter((label) => !isOnScreen(label))).toEqual([])
  })

  test('explain every gate', () => {
    const page = textOf('repair')
    expect(GATES.filter((gate) => !page.includes(gate))).toEqual([])
  })

  test('have one for every screen that an address can name', () => {
    const paths = [...readFileSync(join(root, 'renderer/routes.tsx'), 'utf8').matchAll(/path: '([^']+)'/g)]
      .map(([, path]) => path!.replaceAll('$', ''))
      .filter((path) => !['/', '/help', '/first-run'].includes(path))
    expect(paths.length).toBeGreaterThan(10)
    const pages = paths.map((pathname) => helpFor({ pathname, search: {} }))
    expect(pages).not.toContain('begin')
    expect(new Set(pages).size).toBe(paths.length)
  })

  test.each([
    ['/cars/some-car', CAR_SHEETS],
    ['/plan', PLAN_SHEETS],
    ['/workshop', WORKSHOP_SHEETS],
  ] as const)(
    'have one for every sheet of %s, the first where the address names none',
    (pathname, sheets) => {
      const pages = sheets.map((sheet) => helpFor({ pathname, search: { sheet } }))
      expect(new Set(pages).size).toBe(sheets.length)
      expect(pages.map((page) => page.split('/')[1])).toEqual(sheets)
      expect(new Set(pages.map((page) => HELP_PAGES[page].what)).size).toBe(sheets.length)
      expect(helpFor({ pathname, search: {} })).toBe(pages[0])
    },
  )

  test('of the sheets have the names of their tabs', () => {
    const titles = (Object.entries(HELP_PAGES) as readonly (readonly [string, HelpPage])[]).flatMap(
      ([name, { title }]) => (name.includes('/') ? [title] : []),
    )
    expect(titles.length).toBe(CAR_SHEETS.length + PLAN_SHEETS.length + WORKSHOP_SHEETS.length)
    expect(titles.filter((title) => !isOnScreen(title))).toEqual([])
    for (const sheet of WORKSHOP_SHEETS)
      expect(HELP_PAGES[`workshop/${sheet}`].title).toBe(SHEET_WORDS[sheet])
  })

  test('keep the caution that the program certifies nothing', () => {
    expect(textOf('safety').join(' ')).toMatch(/licensed inspector.*drained tank is not safe.*air-fed/s)
  })
})
