import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { sharp } from '../../../db/photos/sharp.ts'
import { attachmentIdSchema } from '../../../domain/ids.ts'
import { type OwnerWeek, type ReportPhoto, reportPhotos } from '../../../domain/report/owner-week-shapes.ts'
import type { PhotoMarks } from '../../../domain/photo-marks/photo-marks.ts'
import { printOwnerWeek } from '../../../electron/print/print-owner-week.ts'
import type { LoadPhoto } from '../../../electron/print/print-photos.ts'
import { paperTones } from '../../../electron/print/tones.ts'
import { contrastRatio } from '../../support/contrast.ts'
import { createTestPhoto } from '../../support/images.ts'
import { busyCar, choicesOf, reportOn } from '../../support/owner-report.ts'
import { textsOf } from '../../support/report-texts.ts'
import { describePdf, readPdf } from '../../support/pdf-tools.ts'
import { ACCENT_INK, ACCENT_TINT } from '../../../electron/print/tones.ts'

const HEAD = '0123456789abcdef'.repeat(4)

const photoOf = createTestPhoto({ width: 1000, height: 750, color: '#8a5a3a' })
const load: LoadPhoto = () => photoOf

const draft = { kind: 'draft' } as const
const issued = { kind: 'issued', head: HEAD } as const

describePdf('a printed report', () => {
  it('holds every sentence, figure and caption as text that can be searched', async () => {
    const week = reportOn(busyCar(), { choices: choicesOf({ words: 'The hall was cold on Thursday.' }) })
    const { text } = await readPdf(await printOwnerWeek(week, load, draft))
    const blocks = week.sections.flatMap((section) => section.blocks.map(({ kind }) => kind))
    expect(blocks).toEqual(expect.arrayContaining(['figures', 'repair', 'question', 'standing']))
    for (const words of textsOf(week)) expect(text).toContain(words)
  })

  it('shows the part of a photo that was chosen, and prints none of the rest', async () => {
    const crop = { left: 0.5, top: 0, width: 0.5, height: 1 }
    const asked: unknown[] = []
    const week = JSON.parse(
      JSON.stringify(reportOn(busyCar()), (key, value: unknown) => (key === 'crop' ? crop : value)),
    ) as OwnerWeek
    await printOwnerWeek(
      week,
      (sha256, part) => {
        asked.push([sha256, part])
        return photoOf
      },
      issued,
    )
    expect(asked).toEqual(reportPhotos(week).map(({ sha256 }) => [sha256, crop]))
  })

  it('draws the marks of a photo into its copy, and tells of them to those who do not see them', async () => {
    const all = { kind: 'circle', from: { x: 0, y: 0 }, to: { x: 1, y: 1 } } as const
    const week = withPhotos(reportOn(busyCar()), 2, [all])
    const bytes = await printOwnerWeek(week, load, draft)
    expect(bytes.toString('latin1')).toContain('marked: 1 circle')
    const [jpeg] = jpegsIn(bytes)
    const { data, info } = await sharp(jpeg).raw().toBuffer({ resolveWithObject: true })
    // The topmost point of the circle, in the middle of the upper edge, is in the accent; the photo's own corner is not.
    const [red = 0, , blue = 0] = data.subarray(Math.floor(info.width / 2) * info.channels)
    expect(red - blue).toBeGreaterThan(100)
    expect((data[0] ?? 0) - (data[2] ?? 0)).toBeLessThan(100)
  })

  it('is not issued with a hole in it: the photo that cannot be read is named', async () => {
    const lost = printOwnerWeek(reportOn(busyCar()), () => Promise.resolve(null), issued)
    await expect(lost).rejects.toThrow(
      "the photo 'Ground-before-cutting' (Tue 10 Nov) cannot be read; choose other photos",
    )
  })

  it('embeds its fonts and says who wrote it about what, in which language', async () => {
    const bytes = await printOwnerWeek(reportOn(busyCar()), load, issued)
    const { fonts, info, pages } = await readPdf(bytes)
    expect(fonts.length).toBeGreaterThanOrEqual(2)
    expect(
      fonts.filter(({ name, embedded, unicode }) => !embedded || !unicode || !name.includes('Archivo')),
    ).toEqual([])
    expect(info.get('Title')).toBe('Dunmere Saloon, shell 0412: Week 48, 23 to 29 Nov 2026')
    expect(info.get('Author')).toBe('Harrow Lane')
    expect(info.get('Tagged')).toBe('yes')
    expect(info.get('Page size')).toContain('A4')
    expect(pages).toBeLessThanOrEqual(4)
    expect(bytes.toString('latin1')).toContain('/Lang (en-GB)')
  })

  it('is tagged: headings, paragraphs, lists, tables and figures with words', async () => {
    const { structure } = await readPdf(await printOwnerWeek(reportOn(busyCar()), load, issued))
    for (const tag of [
      'Document',
      'H1',
      'H2',
      'H3',
      'P',
      'L',
      'LI',
      'LBody',
      'Table',
      'TR',
      'TH',
      'TD',
      'Figure',
      'Caption',
    ])
      expect(structure).toMatch(new RegExp(`^ *${tag}\\b`, 'm'))
  })

  it('says on every page of a draft that it is not issued', async () => {
    const { text, pages, info } = await readPdf(await printOwnerWeek(reportOn(busyCar()), load, draft))
    expect(text.match(/not issued, page \d of \d/g)).toHaveLength(pages)
    expect(text).toContain('This is a draft. It was not issued and may still change.')
    expect(info.get('Title')).toMatch(/ \(not issued\)$/)
  })

  it('carries its number, its day and the head of the record once issued', async () => {
    const { text, pages } = await readPdf(await printOwnerWeek(reportOn(busyCar()), load, issued))
    expect(text).toContain('Report 1, Fri 27 Nov 2026')
    expect(text.match(/record 0123456789ab, page \d of \d/g)).toHaveLength(pages)
    expect(text).toContain(HEAD.replaceAll(/.{8}(?=.)/g, '$& '))
    expect(text).not.toContain('not issued')
  })

  it('in German is German in every word, its own labels and its drawings too', async () => {
    const week = reportOn(busyCar(), { choices: choicesOf({ language: 'de' }) })
    const bytes = await printOwnerWeek(week, load, draft)
    const { text, pages, info, structure } = await readPdf(bytes)
    for (const words of textsOf(week)) expect(text).toContain(words)
    expect(bytes.toString('latin1')).toContain('/Lang (de-DE)')
    expect(info.get('Title')).toMatch(/Woche 48, 23\. bis 29\. November 2026 \(nicht herausgegeben\)$/)
    expect(text.match(/nicht herausgegeben, Seite \d von \d/g)).toHaveLength(pages)
    for (const words of [
      'Bericht 1, Freitag, 27. November 2026',
      'Vorher, ',
      'Nachher, ',
      'Jede Reparatur hat acht',
    ])
      expect(text).toContain(words)
    for (const words of ['außen', 'innen', '1,2 mm', 'durchgerostet']) expect(text).toContain(words)
    expect(`${text} ${structure}`).not.toMatch(
      /\b(Report|page \d|Before,|After,|passed|outside|inside|hatching|holed|issued|draft)/i,
    )
  })

  it('takes at most four pages and 3 MB with twelve photos', async () => {
    const noisy = await sharp({
      create: {
        width: 1000,
        height: 750,
        channels: 3,
        background: '#777',
        noise: { type: 'gaussian', mean: 128, sigma: 60 },
      },
    })
      .jpeg({ quality: 78 })
      .toBuffer()
    const bytes = await printOwnerWeek(
      withPhotos(reportOn(busyCar()), 12),
      () => Promise.resolve(noisy),
      issued,
    )
    const { pages, text, photoDpi } = await readPdf(bytes)
    expect(bytes.length).toBeLessThan(3_000_000)
    expect(photoDpi).toHaveLength(12)
    // Rounded to whole pixels and dots.
    expect(Math.min(...photoDpi.flat())).toBeGreaterThanOrEqual(199)
    expect(pages).toBeLessThanOrEqual(4)
    for (let count = 1; count <= 12; count += 1) expect(text).toContain(`caption number ${count},`)
  })

  it('keeps names of other languages and leaves out what no letter is', async () => {
    const week = { ...reportOn(busyCar()), owner: 'Ł', greeting: 'Dear Łucja Őry-Nguyễn 🚗,' }
    const { text, fonts } = await readPdf(await printOwnerWeek(week, load, draft))
    expect(text).toContain('Dear Łucja Őry-Nguyễn ,')
    expect(fonts.every(({ embedded }) => embedded)).toBe(true)
  })

  it('goes on over pages where an owner has much to read', async () => {
    const long = Array.from({ length: 160 }, (_, index) => `Sentence number ${index} of a long letter.`)
    const { text, pages } = await readPdf(
      await printOwnerWeek({ ...reportOn(busyCar()), words: long }, load, draft),
    )
    expect(pages).toBeGreaterThan(4)
    for (const sentence of long) expect(text).toContain(sentence)
    expect(text).toContain(`page ${pages} of ${pages}`)
  })

  it('breaks a word that is wider than the page instead of losing it', async () => {
    const word = 'sill'.repeat(100)
    const { text } = await readPdf(
      await printOwnerWeek({ ...reportOn(busyCar()), words: [word] }, load, draft),
    )
    expect(text.replaceAll(' ', '')).toContain(word)
  })

  it('says in its place that a photo could not be read, whether it is gone or damaged', async () => {
    for (const bytes of [null, Buffer.from('not a photo')]) {
      const { text } = await readPdf(
        await printOwnerWeek(reportOn(busyCar()), () => Promise.resolve(bytes), draft),
      )
      expect(text.match(/The file of this photo could not be read\./g)).toHaveLength(2)
      expect(text).toContain('New-edge-let-in')
    }
  })
})

it('a report fails when the folder of photos fails', async () => {
  const broken: LoadPhoto = () => Promise.reject(new Error('EIO: the disk'))
  await expect(printOwnerWeek(reportOn(busyCar()), broken, draft)).rejects.toThrow('EIO')
})

describe('the tones of paper', () => {
  const look = readFileSync(new URL('../../../renderer/look/tokens.css', import.meta.url), 'utf8')
  const light = new Map(
    [...look.matchAll(/--([a-z-]+): light-dark\((#[0-9a-f]{6}),/g)].map(([, name = '', colour = '']) => [
      name,
      colour,
    ]),
  )

  it('are those of the light look', () => {
    const { line, sheet, ...rest } = paperTones
    expect(line).toBe(light.get('edge'))
    expect(sheet).toBe('#ffffff')
    for (const [tone, colour] of Object.entries(rest)) expect([tone, colour]).toEqual([tone, light.get(tone)])
  })

  it('are read at 7 to 1 where they are text', () => {
    for (const ground of ['#ffffff', ACCENT_TINT])
      for (const ink of [paperTones.ink, paperTones.quiet, ACCENT_INK])
        expect(contrastRatio(ink, ground)).toBeGreaterThanOrEqual(7)
  })
})

/** Photos lie in a PDF as whole JPEG files. */
function jpegsIn(pdf: Buffer): readonly Buffer[] {
  const found: Buffer[] = []
  for (let from = pdf.indexOf(SOI); from >= 0; from = pdf.indexOf(SOI, from + 1))
    found.push(pdf.subarray(from, pdf.indexOf('endstream', from)))
  return found
}
const SOI = Buffer.from([0xff, 0xd8, 0xff])

/** The same report with so many photos in pairs, and as long a text as a full week has. */
function withPhotos(week: OwnerWeek, count: number, marks: PhotoMarks = []): OwnerWeek {
  const photos = Array.from({ length: count }, (_, index): ReportPhoto => ({
    attachmentId: attachmentIdSchema.parse(`photo-number-${index}`),
    sha256: String(index).padStart(64, '0'),
    caption: `Photo with caption number ${index + 1}, as a technician writes it`,
    taken: 'Tue 24 Nov',
    crop: null,
    marks,
  }))
  const plates = photos.flatMap((before, index) => {
    const after = photos[index + 1]
    return index % 2 === 0 && after ? [{ kind: 'pair' as const, before, after }] : []
  })
  const sections = week.sections.map((section) =>
    section.heading === 'What we did'
      ? {
          ...section,
          blocks: plates.map((plate, index) => ({
            kind: 'repair' as const,
            title: `Repair ${index + 1}`,
            texts: [
              'We opened it up (Mon 23 Nov), judged it layer by layer and sealed the seams (Thu 26 Nov).',
            ],
            plates: [plate],
          })),
        }
      : section,
  )
  return { ...week, sections }
}
