import type { Context } from 'hono'
import { fileName } from './saved-as.ts'

/**
 * The one kind of answer that a page of this host may show in a frame; a PDF runs nothing of its own.
 *
 * @param name of the file, without its ending
 * @param cache its Cache-Control
 */
export function answerPdf(c: Context, bytes: Uint8Array<ArrayBuffer>, name: string, cache: string): Response {
  return c.body(bytes, 200, {
    'Content-Type': 'application/pdf',
    'Content-Disposition': `inline; filename="${fileName(name)}.pdf"`,
    'Content-Security-Policy': "frame-ancestors 'self'",
    'Cache-Control': cache,
  })
}
