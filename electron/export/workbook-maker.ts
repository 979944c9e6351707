import { MessageChannel, type MessagePort } from 'node:worker_threads'
import type { LongTable } from '../../domain/report/table.ts'
import { CLOSING, createSeat, type Ticket } from '../workers/worker-seat.ts'
import { portionsOf } from './portions.ts'
import type { RowsAnswer, WorkbookAnswer, WorkbookJob } from './workbook-job.ts'

export interface WorkbookMaker {
  /**
   * Tables as one workbook (XLSX), a sheet each.
   *
   * @throws Error that says why it could not be made; the next one may still be
   */
  readonly toXlsx: (tables: readonly LongTable[]) => Promise<Uint8Array<ArrayBuffer>>
  /** Ends the worker; what still waits is answered with an error. */
  readonly close: () => Promise<void>
}

export interface WorkbookMakerOptions {
  /** Time for one workbook; a worker that takes longer is ended. */
  readonly jobTimeoutMs?: number
  /** A worker without work ends after this, which gives back its memory. */
  readonly idleMs?: number
  /** Tests put a worker here that fails. */
  readonly workerUrl?: URL
}

/** Rows handed to the worker at once: copying them holds the host for some milliseconds. */
export const PORTION = 1000

/** Enough for any length of table, as no more than two portions are in the worker at once. */
const heapMb = 64

/** Makes workbooks one after the other in a worker thread, which is started when there is work. */
export function createWorkbookMaker(options: WorkbookMakerOptions = {}): WorkbookMaker {
  const queue: Ticket<WorkbookJob, WorkbookAnswer>[] = []
  const seat = createSeat({
    ...options,
    queue,
    workerUrl: options.workerUrl ?? workbookWorkerUrl,
    heapMb,
    lost,
  })
  let isClosed = false

  return {
    toXlsx: (tables) =>
      new Promise((resolve, reject) => {
        const { port1, port2 } = new MessageChannel()
        feedRows(port1, tables)
        const answer = (result: WorkbookAnswer) => {
          port1.close()
          if (result.ok) resolve(result.bytes)
          else reject(new Error(`The workbook could not be made: ${result.reason}.`))
        }
        if (isClosed) return answer(lost(CLOSING))
        const sheets = tables.map(({ name, columns }) => ({ name, columns }))
        queue.push({ job: { sheets, rows: port2 }, transfer: [port2], answer })
        seat.takeNext()
      }),
    close: async () => {
      isClosed = true
      for (const ticket of queue.splice(0)) ticket.answer(lost(CLOSING))
      await seat.close()
    },
  }
}

const lost = (reason: string): WorkbookAnswer => ({ ok: false, reason })

/** Hands out one portion for each message that asks for one. */
function feedRows(port: MessagePort, tables: readonly LongTable[]): void {
  const answers = rowsAnswers(tables)
  port.on('message', () => port.postMessage(answers.next().value ?? null))
}

function* rowsAnswers(tables: readonly LongTable[]): Generator<RowsAnswer> {
  for (const { rows } of tables) {
    yield* portionsOf(rows, PORTION)
    yield null
  }
}

/**
 * The one place that says where the worker is. It stays a literal: from source Node runs the TypeScript file itself, and
 * the build (build/bring-along.ts) makes the worker an entry of its own and points this line to the result.
 */
const workbookWorkerUrl = new URL('./workbook-worker.ts', import.meta.url)
