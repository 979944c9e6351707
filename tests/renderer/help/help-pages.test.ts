import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { GATES } from '../../../domain/gates.ts'
import { HELP_PAGES } from '../../../renderer/help/help-pages.ts'
import type { HelpPart } from '../../../renderer/help/help-shapes.ts'
import { HELP_NAMES, helpFor } from '../../../renderer/help/help-names.ts'

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
    expect(paths.filter((path) => helpFor(path) === 'begin')).toEqual([])
  })

  test('keep the caution that the program certifies nothing', () => {
    expect(textOf('safety').join(' ')).toMatch(/licensed inspector.*drained tank is not safe.*air-fed/s)
  })
})
