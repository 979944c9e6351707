import type { Paper } from './paper.ts'

/**
 * pdfkit keeps every operator of a page as an array of its own until the document ends, some ten times the page's bytes. Each
 * page becomes one piece when the next one begins.
 */
export function packPages({ doc }: Paper): void {
  let last = contentOf(doc)
  doc.on('pageAdded', () => {
    last.buffer = [Buffer.concat(last.buffer)]
    last = contentOf(doc)
  })
}

interface PageContent {
  buffer: Uint8Array[]
}

/** Not in pdfkit's published types. */
const contentOf = ({ page }: PDFKit.PDFDocument): PageContent =>
  (page as unknown as { readonly content: PageContent }).content
