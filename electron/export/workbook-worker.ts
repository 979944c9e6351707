/*
 * Writes workbooks off the host's event loop; started and fed by workbook-maker.ts. An error of one job is its answer, so
 * that the next job finds the worker as it was.
 */
import { once } from 'node:events'
import { parentPort, type MessagePort } from 'node:worker_threads'
import { errorMessage } from '../../domain/text/error-words.ts'
import type { RowsAnswer, WorkbookAnswer, WorkbookJob } from './workbook-job.ts'
import { writeWorkbook, type Portion } from './write-workbook.ts'

parentPort?.on('message', (job: WorkbookJob) => {
  void answer(job).then((result) => parentPort?.postMessage(result, result.ok ? [result.bytes.buffer] : []))
})

async function answer({ sheets, rows }: WorkbookJob): Promise<WorkbookAnswer> {
  try {
    const book = await writeWorkbook(sheets.map((sheet) => ({ ...sheet, portions: askedFor(rows) })))
    // A copy of its own: its memory is handed over.
    return { ok: true, bytes: new Uint8Array(book) }
  } catch (error) {
    return { ok: false, reason: errorMessage(error) }
  }
}

/** The portions of the next sheet, each asked for when the one before is written. */
async function* askedFor(port: MessagePort): AsyncGenerator<Portion> {
  for (;;) {
    const coming = once(port, 'message') as Promise<[RowsAnswer]>
    port.postMessage('next')
    const [rows] = await coming
    if (rows === null) return
    yield rows
  }
}
