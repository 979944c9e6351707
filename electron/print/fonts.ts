import { readFile } from 'node:fs/promises'
import PDFDocument from 'pdfkit'
import { woffToSfnt } from './woff-to-sfnt.ts'

/** Archivo in two weights, each in the subsets that together write the languages of Europe. */
export interface PrintFonts {
  readonly regular: readonly OpenFont[]
  readonly bold: readonly OpenFont[]
}

/** A font as pdfkit's reader opens it; pdfkit takes it wherever it takes a file. */
export interface OpenFont {
  readonly hasGlyphForCodePoint: (codePoint: number) => boolean
}

let known: PrintFonts | null = null

/** Reads and opens the fonts once in a process; later calls give the same. */
export async function readPrintFonts(): Promise<PrintFonts> {
  known ??= { regular: await openAll(regularUrls), bold: await openAll(boldUrls) }
  return known
}

function openAll(urls: readonly URL[]): Promise<readonly OpenFont[]> {
  return Promise.all(urls.map(async (url) => openFont(woffToSfnt(await readFile(url)))))
}

/** pdfkit opens a font for a document; the document here is thrown away, and what it read of the font is kept. */
function openFont(file: Buffer): OpenFont {
  const doc = new PDFDocument({ autoFirstPage: false, font: file as unknown as string })
  return (doc as unknown as { readonly _font: { readonly font: OpenFont } })._font.font
}

/*
 * WOFF, as nothing here reads WOFF2. The addresses stay literals: from source they lead into node_modules, and the build
 * (build/bring-along.ts) copies the files beside the bundle and points the same lines there. So @fontsource/archivo is a
 * development dependency.
 */
const regularUrls = [
  new URL('../../node_modules/@fontsource/archivo/files/archivo-latin-400-normal.woff', import.meta.url),
  new URL('../../node_modules/@fontsource/archivo/files/archivo-latin-ext-400-normal.woff', import.meta.url),
  new URL('../../node_modules/@fontsource/archivo/files/archivo-vietnamese-400-normal.woff', import.meta.url),
]
const boldUrls = [
  new URL('../../node_modules/@fontsource/archivo/files/archivo-latin-600-normal.woff', import.meta.url),
  new URL('../../node_modules/@fontsource/archivo/files/archivo-latin-ext-600-normal.woff', import.meta.url),
  new URL('../../node_modules/@fontsource/archivo/files/archivo-vietnamese-600-normal.woff', import.meta.url),
]
