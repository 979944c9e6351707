import type { Context } from 'hono'

/** The one kind of answer that a page of this host may show in a frame; a PDF runs nothing of its own. */
export function answerPdf(c: Context, bytes: Uint8Array<ArrayBuffer>, name: string, cache: string): Response {
  return c.body(bytes, 200, {
    'Content-Type': 'application/pdf',
    'Content-Disposition': `inline; filename="${fileName(name)}.pdf"`,
    'Content-Security-Policy': "frame-ancestors 'self'",
    'Cache-Control': cache,
  })
}

/** What may stand in a header and on any disk. */
export function fileName(name: string): string {
  return name.replace(/[^\w .-]/g, '-')
}
