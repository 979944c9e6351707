import { execFile, spawnSync } from 'node:child_process'
import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { describe } from 'vitest'

const run = promisify(execFile)

/** poppler-utils and qpdf: readers of PDF that are not ours. */
const hasTools = ['pdftotext', 'pdffonts', 'pdfinfo', 'pdfimages', 'qpdf'].every(
  (tool) => spawnSync(tool, ['--version'], { stdio: 'ignore' }).error === undefined,
)

if (!hasTools)
  console.warn(
    'THE PDF TESTS WERE NOT RUN: install poppler-utils and qpdf (Debian: apt-get install) and run again.',
  )

/** `describe`, skipped loudly where poppler-utils or qpdf are not installed. */
export const describePdf = hasTools ? describe : describe.skip

export interface ReadPdf {
  /** As people read it: words closed up to one space. */
  readonly text: string
  readonly pages: number
  /** What pdfinfo says, by its labels. */
  readonly info: ReadonlyMap<string, string>
  readonly fonts: readonly { readonly name: string; readonly embedded: boolean; readonly unicode: boolean }[]
  /** Dots per inch of every photo as it stands on its page, across and down. */
  readonly photoDpi: readonly (readonly [number, number])[]
  /** The tree of tags, as pdfinfo prints it. */
  readonly structure: string
}

/** @throws when qpdf finds a fault */
export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const folder = await mkdtemp(join(tmpdir(), 'panelwright-pdf-'))
  const path = join(folder, 'report.pdf')
  try {
    await writeFile(path, bytes)
    await run('qpdf', ['--check', path])
    const [text, info, fonts, images, structure] = await Promise.all(
      [
        ['pdftotext', path, '-'],
        ['pdfinfo', path],
        ['pdffonts', path],
        ['pdfimages', '-list', path],
        ['pdfinfo', '-struct-text', path],
      ].map(async ([tool = '', ...args]) => (await run(tool, args)).stdout),
    )
    const byLabel = new Map(
      (info ?? '').split('\n').map((line) => {
        const [label = '', ...rest] = line.split(':')
        return [label, rest.join(':').trim()]
      }),
    )
    return {
      text: (text ?? '').replaceAll(/\s+/g, ' '),
      pages: Number(byLabel.get('Pages')),
      info: byLabel,
      fonts: fontLines(fonts ?? ''),
      photoDpi: imageLines(images ?? ''),
      structure: structure ?? '',
    }
  } finally {
    await rm(folder, { recursive: true })
  }
}

/** Columns of pdffonts: name, type, encoding, emb, sub, uni, object; two lines of head. */
function fontLines(output: string): ReadPdf['fonts'] {
  return output
    .split('\n')
    .slice(2)
    .filter((line) => line.trim() !== '')
    .map((line) => {
      const [embedded, , unicode] = line
        .slice(line.search(/ (yes|no) +(yes|no) +(yes|no) /))
        .trim()
        .split(/\s+/)
      return { name: line.split(' ')[0] ?? '', embedded: embedded === 'yes', unicode: unicode === 'yes' }
    })
}

/** Columns of pdfimages -list: page, num, type, width, height, color, comp, bpc, enc, interp, object, ID, x-ppi, y-ppi, size, ratio. */
function imageLines(output: string): ReadPdf['photoDpi'] {
  return output
    .split('\n')
    .slice(2)
    .map((line) => line.trim().split(/\s+/))
    .filter((columns) => columns[8] === 'jpeg')
    .map((columns) => [Number(columns[12]), Number(columns[13])])
}
