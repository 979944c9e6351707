import { buffer } from 'node:stream/consumers'
import PDFDocument from 'pdfkit'
import type { PrintFonts } from './fonts.ts'
import { createTypesetter, type Line, type TextStyle, type Typesetter } from './typesetter.ts'

/** A4 with the margins of a letter; lengths are points. */
export const PAGE = { width: 595.28, height: 841.89, left: 56, right: 56, top: 52, bottom: 66 } as const
export const CONTENT_WIDTH = PAGE.width - PAGE.left - PAGE.right

export type Struct = PDFKit.PDFStructureElement

/** A tagged document that is written from top to bottom; `y` is the upper edge of what comes next. */
export interface Paper {
  readonly doc: PDFKit.PDFDocument
  readonly type: Typesetter
  readonly root: Struct
  y: number
}

export interface PaperInfo {
  readonly title: string
  readonly author: string
  readonly subject: string
  readonly language: string
}

/** An empty document with its first page; ended by {@link finishPaper}. */
export function createPaper(fonts: PrintFonts, info: PaperInfo): Paper {
  const options = {
    size: [PAGE.width, PAGE.height],
    margin: 0,
    pdfVersion: '1.7',
    subset: 'PDF/UA',
    tagged: true,
    lang: info.language,
    displayTitle: true,
    bufferPages: true,
    // Without a font of ours pdfkit would begin with one that is not embedded.
    font: fonts.regular[0],
    info: { Title: info.title, Author: info.author, Subject: info.subject, Creator: 'Panelwright' },
  }
  // Its published types know neither PDF/UA nor a font that is opened already.
  const doc = new PDFDocument(options as unknown as PDFKit.PDFDocumentOptions)
  const root = doc.struct('Document')
  doc.addStructure(root)
  return { doc, type: createTypesetter(doc, fonts), root, y: PAGE.top }
}

/** Ends the document and gives its bytes. */
export async function finishPaper({ doc, root }: Paper): Promise<Buffer> {
  root.end()
  const bytes = buffer(doc)
  doc.end()
  return bytes
}

/** Of the page that is written to, from 0. */
export const pageIndex = ({ doc }: Paper): number => doc.bufferedPageRange().count - 1

/** Begins a new page unless `height` fits below. What is higher than a page begins where it is. */
export function needRoom(paper: Paper, height: number): void {
  const isTop = paper.y <= PAGE.top
  if (isTop || paper.y + height <= PAGE.height - PAGE.bottom) return
  if (height > PAGE.height - PAGE.top - PAGE.bottom && paper.y < PAGE.height / 2) return
  paper.doc.addPage()
  paper.y = PAGE.top
}

/** Opens a part of the document; `fill` writes into it. */
export function part(paper: Paper, parent: Struct, tag: string, fill: (struct: Struct) => void): void {
  const struct = paper.doc.struct(tag)
  parent.add(struct)
  fill(struct)
  struct.end()
}

export interface StructOptions {
  /** What a figure shows, in words. */
  readonly alt?: string
  /** Left, top, right and bottom on the page. */
  readonly bbox?: readonly [number, number, number, number]
  /** Whether a table's head stands over a column or before a row. */
  readonly scope?: 'Column' | 'Row'
}

/** One element with its content drawn at once. */
export function element(
  { doc }: Paper,
  parent: Struct,
  tag: string,
  options: StructOptions,
  draw: () => void,
): void {
  const placed = options.bbox === undefined ? options : { ...options, placement: 'Block' }
  const struct = doc.struct(tag, placed as PDFKit.Mixins.StructureElementOptions)
  parent.add(struct)
  struct.add(draw)
  struct.end()
}

/** What is drawn for the eye alone. */
export function artifact({ doc }: Paper, draw: () => void): void {
  doc.markContent('Artifact', { type: 'Layout' })
  draw()
  doc.endMarkedContent()
}

export interface TextPlace {
  readonly x?: number
  readonly width?: number
  readonly after?: number
}

/** Lines below one another, on as many pages as they need. */
export function writeText(
  paper: Paper,
  parent: Struct,
  tag: string,
  text: string,
  style: TextStyle,
  { x = PAGE.left, width = CONTENT_WIDTH, after = 0 }: TextPlace = {},
): void {
  const lines = paper.type.linesOf(text, style, width)
  part(paper, parent, tag, (struct) => {
    for (let next = 0; next < lines.length;) {
      needRoom(paper, Math.min(lines.length - next, 2) * style.leading)
      const room = Math.max(1, Math.floor((PAGE.height - PAGE.bottom - paper.y) / style.leading))
      const here = lines.slice(next, next + room)
      struct.add(() => writeLines(paper, here, x, style))
      next += here.length
    }
  })
  paper.y += after
}

/** Room that the text takes. */
export function textHeight({ type }: Paper, text: string, style: TextStyle, width: number): number {
  return type.linesOf(text, style, width).length * style.leading
}

/** Moves the cursor down line by line; the caller has made sure that there is room. */
export function writeLines(paper: Paper, lines: readonly Line[], x: number, style: TextStyle): void {
  for (const line of lines) {
    paper.type.write(line, x, paper.y + style.leading * 0.5 + style.size * 0.34, style)
    paper.y += style.leading
  }
}

/** A line over the width of the text, or from `left` on; `width` is its own. */
export function rule(paper: Paper, colour: string, width: number, left: number = PAGE.left): void {
  artifact(paper, () =>
    paper.doc
      .moveTo(left, paper.y)
      .lineTo(PAGE.left + CONTENT_WIDTH, paper.y)
      .lineWidth(width)
      .strokeColor(colour)
      .stroke(),
  )
}
