import { readFileSync } from 'node:fs'
import { type DefaultTreeAdapterTypes, parse } from 'parse5'
import { describe, expect, test } from 'vitest'
import { type OwnerWeek, reportPhotos } from '../../../domain/report/owner-week-shapes.ts'
import { DARK_TINT, darkTones } from '../../../electron/export/report-html-style.ts'
import { reportHtml } from '../../../electron/export/report-html.ts'
import type { PrintedAs } from '../../../electron/api/deps.ts'
import { contrastRatio } from '../../support/contrast.ts'
import { createTestPhoto } from '../../support/images.ts'
import { textsOf } from '../../support/report-texts.ts'
import { busyCar, choicesOf, reportOn } from '../../support/owner-report.ts'

const week = reportOn(busyCar('floor-before-cutting'), {
  choices: choicesOf({ words: 'The hall was cold on Thursday.' }),
})

const jpeg = Buffer.from([0xff, 0xd8, 0xff, 0xd9])

type Element = DefaultTreeAdapterTypes.Element

/** As a browser would read it: the HTML standard's own rules of parsing. */
async function read(of: OwnerWeek, photo: Buffer | null = jpeg, as: PrintedAs = { kind: 'draft' }) {
  const text = (await reportHtml(of, async () => photo, as)).toString()
  const errors: string[] = []
  const document = parse(text, { onParseError: ({ code }) => errors.push(code) })
  const elements = elementsIn(document)
  const named = (...names: readonly string[]) => elements.filter(({ tagName }) => names.includes(tagName))
  return { text, errors, elements, named, words: textOf(named('body')[0]!) }
}

function elementsIn(node: DefaultTreeAdapterTypes.Node): readonly Element[] {
  const inside = 'childNodes' in node ? node.childNodes.flatMap(elementsIn) : []
  return 'tagName' in node ? [node, ...inside] : inside
}

function textOf(node: DefaultTreeAdapterTypes.Node): string {
  if ('value' in node) return node.value
  return 'childNodes' in node ? node.childNodes.map(textOf).join('') : ''
}

const attribute = ({ attrs }: Element, name: string) => attrs.find((each) => each.name === name)?.value

/** What a name may hold, in every place where the repair's name stands. */
const SIGNS = `<img src=x onerror=alert(1)></title></style> & "oak" 'elm' &amp;`
const withSigns = (of: OwnerWeek): OwnerWeek =>
  JSON.parse(
    JSON.stringify({ ...of, workshop: 'Boot floor', title: 'Boot floor', subtitle: 'Boot floor' }).replaceAll(
      /oot floor|loor-before-cutting/g,
      (words) => words + JSON.stringify(SIGNS).slice(1, -1),
    ),
  ) as OwnerWeek

describe('a report as one HTML file', () => {
  test('shows photos with their marks, told in words too', async () => {
    const mark = { kind: 'arrow', from: { x: 0.2, y: 0.2 }, to: { x: 0.6, y: 0.6 } }
    const grey = await createTestPhoto({ width: 80, height: 60, color: '#777' })
    const marked = JSON.parse(
      JSON.stringify(week, (key, value: unknown) =>
        key === 'marks' && JSON.stringify(value) === '[]' ? [mark] : value,
      ),
    ) as OwnerWeek
    const images = (await read(marked, grey)).named('img')
    expect(images.length).toBeGreaterThan(0)
    for (const image of images) {
      expect(attribute(image, 'alt')).toMatch(/\(marked: 1 arrow\)$/)
      expect(attribute(image, 'src')).not.toContain(grey.toString('base64'))
    }
    expect(attribute((await read(week, grey)).named('img')[0]!, 'src')).toContain(grey.toString('base64'))
  })

  test('is proper HTML with its language, its title and everything that the report says', async () => {
    const { errors, named, words } = await read(week)
    expect(errors).toEqual([])
    expect(attribute(named('html')[0]!, 'lang')).toBe('en-GB')
    expect(textOf(named('title')[0]!)).toBe(
      'Dunmere Saloon, shell 0412: Week 48, 23 to 29 Nov 2026 (not issued)',
    )
    const kinds = new Set(week.sections.flatMap(({ blocks }) => blocks.map(({ kind }) => kind)))
    for (const kind of ['repair', 'standing', 'figures', 'question'] as const) expect(kinds).toContain(kind)
    for (const text of textsOf(week)) expect(words).toContain(text)
  })

  test('says in German what is German, and its language to the browser', async () => {
    const german = reportOn(busyCar('floor-before-cutting'), { choices: choicesOf({ language: 'de' }) })
    const { errors, named, words, text } = await read(german, null)
    expect(errors).toEqual([])
    expect(attribute(named('html')[0]!, 'lang')).toBe('de-DE')
    for (const each of textsOf(german)) expect(words).toContain(each)
    expect(words.trimStart().startsWith('Entwurf, nicht herausgegeben')).toBe(true)
    expect(words).toContain('Die Datei dieses Fotos konnte nicht gelesen werden.')
    expect(words).toContain('Schritte: geöffnet')
    expect(text.slice(text.indexOf('<body>'))).not.toMatch(
      /\b(Report|Before,|After,|Photo,|Table:|Gates:|outside|inside|hatching|holed|issued|draft)/i,
    )
  })

  test('says at its head and its foot that it is not issued', async () => {
    const { words } = await read(week)
    expect(words.trimStart().startsWith('Draft, not issued')).toBe(true)
    expect(words.trimEnd().endsWith('This is a draft. It was not issued and may still change.')).toBe(true)
  })

  test('asks for nothing outside itself and runs nothing', async () => {
    const { elements, named, text } = await read(week)
    expect(named('script', 'link', 'iframe', 'object', 'embed', 'base', 'form', 'a')).toEqual([])
    const attrs = elements.flatMap((element) => element.attrs)
    expect(attrs.filter(({ name }) => /^on|^(href|srcset|action|style)$/.test(name))).toEqual([])
    const sources = attrs.filter(({ name }) => name === 'src').map(({ value }) => value)
    expect(sources).toHaveLength(reportPhotos(week).length)
    for (const source of sources) expect(source).toBe(`data:image/jpeg;base64,${jpeg.toString('base64')}`)
    expect(text).not.toMatch(/https?:|url\(|@import/)
    const policy = named('meta').find((meta) => attribute(meta, 'http-equiv') === 'Content-Security-Policy')
    expect(attribute(policy!, 'content')).toMatch(
      /^default-src 'none'; style-src 'sha256-[\w+/]{43}='; img-src data:; base-uri 'none'; form-action 'none'$/,
    )
  })

  test('has headings in order, words for every photo and drawing, and heads for its table', async () => {
    const { named } = await read(week)
    const levels = named('h1', 'h2', 'h3', 'h4').map(({ tagName }) => Number(tagName[1]))
    expect(levels.filter((level) => level === 1)).toEqual([1])
    levels.forEach((level, index) => expect(level - (levels[index - 1] ?? 0)).toBeLessThanOrEqual(1))
    expect(named('img').map((image) => attribute(image, 'alt'))).toContain(
      'Photo, Before, Tue 10 Nov: Floor-before-cutting',
    )
    const drawings = named('svg').map((drawing) => attribute(drawing, 'aria-label'))
    const standing = week.sections.flatMap(({ blocks }) => blocks).filter(({ kind }) => kind === 'standing')
    expect(drawings).toHaveLength(2 * standing.length)
    expect(drawings).toContainEqual(expect.stringContaining('opened, assessed and fabricated passed'))
    expect(drawings).toContainEqual(expect.stringContaining('Cut through'))
    for (const head of named('th')) expect(attribute(head, 'scope')).toMatch(/^(col|row)$/)
  })

  test('shows signs of HTML in names as what they are', async () => {
    const hostile = withSigns(week)
    const plain = await read(week)
    const { elements, errors, words, named } = await read(hostile)
    expect(errors).toEqual([])
    expect(elements.map(({ tagName }) => tagName)).toEqual(plain.elements.map(({ tagName }) => tagName))
    for (const text of textsOf(hostile)) expect(words).toContain(text)
    expect(textOf(named('title')[0]!)).toContain(SIGNS)
    expect(named('img').map((image) => attribute(image, 'alt'))).toContainEqual(
      expect.stringContaining(SIGNS),
    )
  })

  test('leaves the place of a photo that is gone and says so', async () => {
    const { named, words } = await read(week, null)
    expect(named('img')).toEqual([])
    expect(words.split('The file of this photo could not be read.')).toHaveLength(
      reportPhotos(week).length + 1,
    )
  })
})

describe('its dark tones', () => {
  const look = readFileSync(new URL('../../../renderer/look/tokens.css', import.meta.url), 'utf8')
  const dark = new Map(
    [...look.matchAll(/--([a-z-]+): light-dark\(#[0-9a-f]{6}, (#[0-9a-f]{6})\)/g)].map(
      ([, name = '', colour = '']) => [name, colour],
    ),
  )

  test('are those of the dark look', () => {
    const { line, ...rest } = darkTones
    expect(line).toBe(dark.get('edge'))
    for (const [tone, colour] of Object.entries(rest)) expect([tone, colour]).toEqual([tone, dark.get(tone)])
    expect(DARK_TINT).toBe(dark.get('accent-tint'))
  })

  test('are read at 7 to 1 where they are text', () => {
    expect(contrastRatio(darkTones.ink, DARK_TINT)).toBeGreaterThanOrEqual(7)
    for (const ink of [darkTones.ink, darkTones.quiet])
      expect(contrastRatio(ink, darkTones.sheet)).toBeGreaterThanOrEqual(7)
  })
})
