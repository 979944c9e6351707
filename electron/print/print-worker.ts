/*
 * Lays reports, plans, letters and books out off the host's event loop; started and fed by printer.ts. An error of one job is its answer, so that
 * the next job finds the worker as it was.
 */
import { parentPort } from 'node:worker_threads'
import { sharp } from '../../db/photos/sharp.ts'
import { errorMessage } from '../../domain/text/error-words.ts'
import { reportHtml } from '../export/report-html.ts'
import type { BookAnswer, BookJob } from './book-job.ts'
import { createPhotoLoader } from './load-report-photo.ts'
import type { PrintAnswer, PrintJob } from './print-job.ts'
import { printEstimate } from './print-estimate.ts'
import { printOwnerWeek } from './print-owner-week.ts'
import { printPlan } from './print-plan.ts'
import { printVariation } from './print-variation.ts'
import { writeBook } from './write-book.ts'

// One thread leaves the other cores to the host.
sharp.concurrency(1)

parentPort?.on('message', (job: PrintJob | BookJob) => {
  if (job.kind === 'book') return void answerBook(job).then((result) => parentPort?.postMessage(result))
  void answer(job).then((result) => parentPort?.postMessage(result, result.ok ? [result.bytes.buffer] : []))
})

async function answerBook({ book, to, photosFolder, lostPhotos, line }: BookJob): Promise<BookAnswer> {
  const stop = new AbortController()
  line.on('message', () => stop.abort())
  try {
    const written = await writeBook(book, to, photosFolder, {
      signal: stop.signal,
      onProgress: (progress) => line.postMessage(progress),
      lostPhotos,
    })
    return { ok: true, written }
  } catch (error) {
    return { ok: false, reason: errorMessage(error) }
  } finally {
    line.close()
  }
}

async function answer(job: PrintJob): Promise<PrintAnswer> {
  try {
    // A copy of its own: its memory is handed over.
    return { ok: true, bytes: new Uint8Array(await print(job)) }
  } catch (error) {
    return { ok: false, reason: errorMessage(error) }
  }
}

function print(job: PrintJob): Promise<Buffer> {
  switch (job.kind) {
    case 'report':
      return printOwnerWeek(job.week, createPhotoLoader(job.photosFolder), job.as)
    case 'page':
      return reportHtml(job.week, createPhotoLoader(job.photosFolder), job.as)
    case 'plan':
      return printPlan(job.sheet)
    case 'estimate':
      return printEstimate(job.letter, createPhotoLoader(job.photosFolder))
    case 'variation':
      return printVariation(job.letter, createPhotoLoader(job.photosFolder))
  }
}
