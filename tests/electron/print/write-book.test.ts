import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Readable, Writable } from 'node:stream'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { originalPath } from '../../../db/photos/photo-files.ts'
import type { CarBook } from '../../../domain/report/car-book-shapes.ts'
import { MOST_WAITING, pour } from '../../../electron/print/book-sink.ts'
import { writeBook } from '../../../electron/print/write-book.ts'
import { buildCar, repairId } from '../../support/car-builder.ts'
import { bookOn } from '../../support/car-book.ts'
import { beside, CAPTIONS, photographedBook, placeOfBook, storePhotos } from '../../support/printed-book.ts'
import { describePdf, readPdf } from '../../support/pdf-tools.ts'

let folder: string
let photosFolder: string
let digests: readonly string[]

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'panelwright-book-'))
  photosFolder = join(folder, 'photos')
  digests = await storePhotos(photosFolder)
})
afterAll(() => rm(folder, { recursive: true }))

const story = (): CarBook => photographedBook(digests)
const place = (name: string): Promise<string> => placeOfBook(folder, name)

describePdf('a printed book', () => {
  let pdf: Awaited<ReturnType<typeof readPdf>>
  let bytes: Buffer
  let names: readonly string[]
  let written: Awaited<ReturnType<typeof writeBook>>

  beforeAll(async () => {
    const to = await place('whole')
    written = await writeBook(story(), to, photosFolder)
    bytes = await readFile(to)
    pdf = await readPdf(bytes)
    names = await beside(to)
  })

  it('is sound to a foreign reader, and says how much it holds', () => {
    expect(written).toEqual({
      ok: true,
      value: { pages: pdf.pages, photos: 5, lost: [], bytes: bytes.length },
    })
    expect(names).toEqual(['book.pdf'])
    expect(pdf.info.get('Title')).toBe("Dunmere Saloon, shell 0412: the car's file")
    expect(pdf.info.get('Author')).toBe('Harrow Lane')
    expect(pdf.info.get('Tagged')).toBe('yes')
    expect(pdf.info.get('Page size')).toContain('A4')
  })

  it('embeds its fonts', () => {
    expect(pdf.fonts.length).toBeGreaterThanOrEqual(2)
    expect(pdf.fonts.filter(({ embedded, unicode }) => !embedded || !unicode)).toEqual([])
  })

  it('holds every caption, and every gate with who signed it and when, as text', () => {
    for (const [index, caption] of CAPTIONS.entries()) {
      expect(pdf.text).toContain(`${caption}. Added by Wren.`)
      expect(pdf.text).toContain(`Photo ${index + 1}, added Tue 24 Nov 2026, 09:0${index}`)
    }
    for (const [index, gate] of ['opened', 'assessed', 'fabricated', 'sealed'].entries())
      expect(pdf.text).toContain(`${gate} Tue 24 Nov 2026, 09:0${index + 5} Wren Wren`)
    expect(pdf.text).toContain('Reopened by Wren, cause ‘fit’: the edge stands proud.')
    expect(pdf.text).toContain('Primed, trial-fitted, welded and painted are not done yet.')
    expect(pdf.text).toContain('licensed inspector')
    expect(pdf.text).toContain('a line leads from a repair to what it covers')
    expect(pdf.text).toContain('01234567 89abcdef 01234567 89abcdef')
  })

  it('leads from its contents to the pages of its chapters', () => {
    const pages = bytes.toString('latin1').match(/\/S \/GoTo/g)
    expect(pages).toHaveLength(story().chapters.length)
    const contents = /Contents (The car .+?) Harrow Lane/.exec(pdf.text)?.[1] ?? ''
    for (const { title } of story().chapters) {
      const page = Number(new RegExp(`${title} (\\d+)`).exec(contents)?.[1])
      expect(page).toBeGreaterThan(3)
      expect(pageText(pdf.text, page, pdf.pages)).toContain(title)
    }
  })

  it('is tagged with headings, contents, tables, lists and figures, and has bookmarks', () => {
    for (const tag of [
      'H1',
      'H2',
      'H3',
      'TOC',
      'TOCI',
      'Link',
      'Table',
      'TH',
      'TD',
      'L',
      'LI',
      'Figure',
      'Caption',
    ])
      expect(pdf.structure).toMatch(new RegExp(`^ *${tag}\\b`, 'm'))
    expect(bytes.toString('latin1')).toContain('/Outlines')
  })

  it('numbers every page but the title', () => {
    for (let page = 2; page <= pdf.pages; page += 1)
      expect(pdf.text).toContain(`Page ${page} of ${pdf.pages}`)
    expect(pdf.text).not.toContain(`Page 1 of ${pdf.pages}`)
  })

  it('lets no heading stand alone at the foot of a page', async () => {
    const to = await place('feet')
    // Sections of 1 to 7 lines meet the foot of a page at all heights.
    const sections = Array.from({ length: 160 }, (_, index) => ({
      heading: 'Heading',
      blocks: [
        { kind: 'text' as const, text: 'seam sealer along the flange '.repeat(4 + ((index * 5) % 27)) },
      ],
    }))
    const book = { ...story(), chapters: [{ title: 'Sections', subtitle: '', sections }] }
    expect(await writeBook(book, to, photosFolder)).toMatchObject({ ok: true })
    const { text, pages } = await readPdf(await readFile(to))
    expect(pages).toBeGreaterThan(15)
    expect(text.match(/Heading Harrow Lane, Mon 28 Dec 2026 Page/)).toBeNull()
  })

  it('goes on over pages where a note, a caption or a name is very long', async () => {
    const to = await place('long')
    const long = 'seam sealer along the flange and round the corner '.repeat(190)
    const car = buildCar()
      .repair('Boot floor')
      .add('noted', { text: `${long}end of the note` })
    car.add('outsideGraded', { repairId: repairId('Boot floor'), grade: 'holed', note: `${long}end outside` })
    car.pass('Boot floor', 'opened')
    expect(await writeBook(bookOn(car.facts()), to, photosFolder)).toMatchObject({ ok: true })
    const { text } = await readPdf(await readFile(to))
    expect(text).toContain('end of the note')
    expect(text).toContain('end outside')
  })
})

/** The text before a page's foot, back to the foot of the page before. */
function pageText(text: string, page: number, pages: number): string {
  const foot = (number: number): number => text.indexOf(`Page ${number} of ${pages}`)
  return text.slice(foot(page - 1), foot(page))
}

describe('a book that cannot be written', () => {
  const dark = (sha256: string): CarBook => {
    const book = story()
    return {
      ...book,
      chapters: book.chapters.map((chapter) => ({
        ...chapter,
        sections: chapter.sections.map((section) => ({
          ...section,
          blocks: section.blocks.map((block) =>
            block.kind === 'photos'
              ? {
                  ...block,
                  photos: block.photos.map((photo) => (photo.number === 4 ? { ...photo, sha256 } : photo)),
                }
              : block,
          ),
        })),
      })),
    }
  }

  it('for a photo that is gone names the photo and leaves nothing', async () => {
    const to = await place('gone')
    expect(await writeBook(dark('0'.repeat(64)), to, photosFolder)).toMatchObject({
      ok: false,
      refusal: {
        code: 'photo',
        message:
          'The file of photo 4 (New edge let in. Added by Wren.) cannot be read, so the book was not written.',
      },
    })
    expect(await beside(to)).toEqual([])
  })

  it('for a photo that is damaged does the same, but says so in its place when that is wanted', async () => {
    const to = await place('damaged')
    const sha256 = 'f'.repeat(64)
    const path = originalPath(photosFolder, sha256)
    await mkdir(join(path, '..'), { recursive: true })
    await writeFile(path, 'not a photo')
    expect(await writeBook(dark(sha256), to, photosFolder)).toMatchObject({ ok: false })
    const written = await writeBook(dark(sha256), to, photosFolder, { lostPhotos: 'say so' })
    expect(written).toMatchObject({ ok: true, value: { photos: 5, lost: [4] } })
  })

  it('because the disk is full or its folder is not there says so, and an earlier book stays as it was', async () => {
    const to = await place('full')
    await writeFile(to, 'the earlier book')
    const full = () =>
      new Writable({
        write: (_chunk, _encoding, done) =>
          done(Object.assign(new Error('no space'), { code: 'ENOSPC', syscall: 'write' })),
      })
    const refused = await writeBook(story(), to, photosFolder, { openFile: full })
    expect(refused).toMatchObject({
      ok: false,
      refusal: { code: 'storage', message: 'The disk that the book goes to is full.' },
    })
    expect(await writeBook(story(), join(folder, 'nowhere', 'book.pdf'), photosFolder)).toMatchObject({
      ok: false,
      refusal: { code: 'storage', message: 'The book cannot be written there (ENOENT).' },
    })
    expect(await beside(to)).toEqual(['book.pdf'])
    expect(await readFile(to, 'utf8')).toBe('the earlier book')
  })

  it('stops in the middle and leaves nothing', async () => {
    const to = await place('stopped')
    const stop = new AbortController()
    const told: number[] = []
    const refused = await writeBook(story(), to, photosFolder, {
      signal: stop.signal,
      onProgress: ({ photos, of }) => {
        expect(of).toBe(5)
        told.push(photos)
        if (photos === 2) stop.abort()
      },
    })
    expect(refused).toMatchObject({ ok: false, refusal: { message: 'The book was stopped.' } })
    expect(told).toEqual([1, 2])
    expect(await beside(to)).toEqual([])
  })
})

describe('a disk that is slower than the photos', () => {
  it('holds the book back, so that few bytes wait in memory', async () => {
    const photo = Buffer.alloc(300_000)
    const doc = new Readable({ read: () => undefined })
    let written = 0
    const slow = new Writable({
      write: (chunk: Buffer, _encoding, done) => {
        written += chunk.length
        setTimeout(done, 10)
      },
    })
    const { keepUp, done } = pour(doc, slow, undefined)
    for (let index = 0; index < 20; index += 1) {
      doc.push(photo)
      await keepUp()
      expect(doc.readableLength).toBeLessThanOrEqual(MOST_WAITING)
    }
    doc.push(null)
    await done
    expect(written).toBe(20 * photo.length)
  })
})
