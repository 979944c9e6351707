import { readFile } from 'node:fs/promises'

/** Archivo in two weights, each in the subsets that together write the languages of Europe. */
export interface PrintFonts {
  readonly regular: readonly Buffer[]
  readonly bold: readonly Buffer[]
}

export async function readPrintFonts(): Promise<PrintFonts> {
  const [regular, bold] = await Promise.all([
    Promise.all(regularUrls.map((url) => readFile(url))),
    Promise.all(boldUrls.map((url) => readFile(url))),
  ])
  return { regular, bold }
}

/*
 * WOFF, as pdfkit reads no WOFF2. The addresses stay literals: from source they lead into node_modules, and the build
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
