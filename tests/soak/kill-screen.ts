import { Readable } from 'node:stream'
import { setTimeout } from 'node:timers/promises'
import type { ActAnswer, SignInAnswer } from '../../electron/api/act-procedures.ts'
import type { PersonId } from '../../domain/ids.ts'
import type { Writing } from './kill-book.ts'

/** One paired device, which keeps its cookie from host to host as a tablet does. */
export interface Screen {
  /** Enters by the address that the host printed; the first time this pairs the device. */
  readonly enter: (windowUrl: string) => Promise<void>
  readonly signIn: (personId: PersonId, code: string) => Promise<void>
  /** @returns the journal numbers that were answered; null where none are told */
  readonly send: (writing: Writing) => Promise<readonly number[] | null>
}

/** No answer came, or not all of it: the host is gone, and nobody knows what it has recorded. */
export class HostGone extends Error {}

/** @throws HostGone from each of its actions; any other error is an answer that must not be */
export function createScreen(): Screen {
  let origin = ''
  let cookie: string | null = null

  const ask = async (path: string, init: RequestInit = {}): Promise<{ response: Response; text: string }> => {
    const headers = new Headers({
      ...(cookie === null ? {} : { cookie }),
      'content-type': 'application/json',
    })
    if (init.method !== undefined) headers.set('origin', origin)
    try {
      const response = await fetch(origin + path, { ...init, headers, redirect: 'manual' })
      return { response, text: await response.text() }
    } catch (error) {
      throw new HostGone(`${path}: ${String(error)}`)
    }
  }
  const askFor = async (path: string, init: RequestInit): Promise<unknown> => {
    const { response, text } = await ask(path, init)
    if (!response.ok) throw new Error(`${path} was answered with ${response.status}: ${text.slice(0, 300)}`)
    return JSON.parse(text)
  }
  const call = async <T>(procedure: string, input: unknown): Promise<T> => {
    const answer = await askFor(`/trpc/${procedure}`, { method: 'POST', body: JSON.stringify(input) })
    return (answer as { readonly result: { readonly data: T } }).result.data
  }

  return {
    enter: async (windowUrl) => {
      const url = new URL(windowUrl)
      origin = url.origin
      const { response } = await ask(url.pathname + url.search)
      const given = response.headers.get('set-cookie')?.split(';')[0]
      if (response.status !== 303) throw new Error(`The host let nobody in (${response.status}).`)
      if (given !== undefined && cookie !== null) throw new Error('The host has forgotten a paired device.')
      cookie ??= given ?? null
    },
    signIn: async (personId, code) => {
      const answer = await call<SignInAnswer>('signIn', { personId, code })
      if (!answer.ok) throw new Error(`${personId} cannot sign in: ${answer.refusal.message}`)
    },
    send: async (writing) => {
      if (writing.what === 'photo') {
        const body = Readable.toWeb(Readable.from(inPieces(writing.bytes)))
        const stored = await askFor('/photos', { method: 'PUT', body, duplex: 'half' } as RequestInit)
        const { sha256 } = stored as { readonly sha256: string }
        if (sha256 !== writing.sha256) throw new Error(`The photo ${writing.sha256} was stored as ${sha256}.`)
        return null
      }
      const answer = await call<ActAnswer>(writing.procedure, writing.body)
      const [id] = writing.leaves.keys()
      if (!answer.ok) throw new Error(`${id} was refused: ${answer.refusal.message} ${answer.refusal.next}`)
      return writing.procedure === 'command' ? answer.numbers : null
    },
  }
}

/** A photo comes over a workshop's network bit by bit, so that a kill may come in the middle of it. */
async function* inPieces(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += PIECE_BYTES) {
    yield bytes.subarray(at, at + PIECE_BYTES)
    await setTimeout(1)
  }
}

const PIECE_BYTES = 4_096
