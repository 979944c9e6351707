import { QueryClient } from '@tanstack/react-query'
import { createTRPCClient, httpLink, httpSubscriptionLink, splitLink, TRPCClientError } from '@trpc/client'
import { createTRPCOptionsProxy } from '@trpc/tanstack-react-query'
import type { BringInPreview } from '../domain/bring-in/bring-in-preview.ts'
import type { Refusal } from '../domain/refusal.ts'
import type { AppRouter } from '../electron/api/router.ts'

/** Views are read again when the host says that something changed, so an answer stays good until then. */
export const queryClient = new QueryClient({
  defaultOptions: {
    queries: {
      // Whether the browser thinks that there is a network says nothing: the host may be this computer, or on its own network.
      networkMode: 'always',
      staleTime: 60_000,
      retry: (failures, error) => isHostAway(error) && failures < 2,
      retryDelay: 400,
    },
  },
})

export const client = createTRPCClient<AppRouter>({
  links: [
    splitLink({
      condition: (operation) => operation.type === 'subscription',
      true: httpSubscriptionLink({ url: '/trpc' }),
      false: httpLink({ url: '/trpc' }),
    }),
  ],
})

/** Who is signed in, the people, the zone: what every screen knows. */
export type SessionView = Awaited<ReturnType<typeof client.session.query>>

/** `useQuery(api.car.queryOptions({ carId }))` */
export const api = createTRPCOptionsProxy<AppRouter>({ client, queryClient })

/** True when no answer of the host came back: it is off, or the network is. */
export function isHostAway(error: unknown): boolean {
  if (error instanceof HostAwayError) return true
  return error instanceof TRPCClientError && (error.data === undefined || error.data === null)
}

/** The host no longer knows this device, in its own words; null for any other answer. */
export function notPaired(error: unknown): Refusal | null {
  const refusal = error instanceof NotPairedError ? error.refusal : refusalOf(error)
  return refusal?.code === 'not-paired' ? refusal : null
}

/** The host's own words for why a view could not be read. */
export function refusalOf(error: unknown): Refusal | null {
  if (!(error instanceof TRPCClientError)) return null
  const data: unknown = error.data
  return isRefusalAnswer(data) ? data.refusal : null
}

export class HostAwayError extends Error {}

/** What was sent was not looked at: this device must be let in first. */
export class NotPairedError extends Error {
  readonly refusal: Refusal

  constructor(refusal: Refusal) {
    super(refusal.message)
    this.refusal = refusal
  }
}

export interface StoredPhoto {
  readonly sha256: string
  readonly width: number
  readonly height: number
  /** Camera date as ISO 8601 with its offset; null when the photo carries none. */
  readonly taken: string | null
}

export type UploadAnswer =
  | { readonly ok: true; readonly value: StoredPhoto }
  | { readonly ok: false; readonly refusal: Refusal }

/**
 * Sends the bytes of a photo as they are. Rejects with {@link HostAwayError} when no answer came, and with
 * {@link NotPairedError} when this device is not let in.
 *
 * @param onProgress share of the bytes that have left, 0 to 1
 */
export function uploadPhoto(photo: Blob, onProgress: (share: number) => void): Promise<UploadAnswer> {
  const stall = new AbortController()
  let timer = window.setTimeout(() => stall.abort(), STALL_MS)
  const moved = (share: number) => {
    window.clearTimeout(timer)
    timer = window.setTimeout(() => stall.abort(), STALL_MS)
    onProgress(share)
  }
  return put('/photos', photo, moved, stall.signal)
    .then(readUploadAnswer)
    .finally(() => window.clearTimeout(timer))
}

/** A network that moves nothing for this long is gone, whatever the browser thinks; the host needs seconds for a photo. */
const STALL_MS = 60_000

export type CarFileAnswer =
  | { readonly ok: true; readonly fileId: string; readonly preview: BringInPreview }
  | { readonly ok: false; readonly refusal: Refusal }

/**
 * Sends the file of a car as it is; the host verifies all of it before it answers. Rejects with {@link HostAwayError} when no
 * answer came or it was stopped.
 *
 * @param onProgress share of the bytes that have left, 0 to 1
 */
export async function sendCarFile(
  file: Blob,
  onProgress: (share: number) => void,
  stopped: AbortSignal,
): Promise<CarFileAnswer> {
  const { status, text } = await put('/came-files', file, onProgress, stopped)
  const answer = parseJson(text)
  if (status === 200) return { ok: true, ...(answer as { fileId: string; preview: BringInPreview }) }
  if (isRefusalAnswer(answer)) return { ok: false, refusal: answer.refusal }
  const message = `The host could not take the file (answer ${status}).`
  return { ok: false, refusal: { code: 'bad-input', message, next: 'Choose it again.' } }
}

/**
 * Sends a whole workshop as it is, to a host that has none yet. Rejects with {@link HostAwayError} when no
 * answer came.
 *
 * @param onProgress share of the bytes that have left, 0 to 1
 */
export async function sendWholeWorkshop(
  archive: Blob,
  onProgress: (share: number) => void,
): Promise<{ readonly ok: true } | { readonly ok: false; readonly refusal: Refusal }> {
  const { status, text } = await put('/whole-workshop', archive, onProgress, null)
  if (status === 200) return { ok: true }
  const answer = parseJson(text)
  if (isRefusalAnswer(answer)) return { ok: false, refusal: answer.refusal }
  const message = `The host could not take the workshop in (answer ${status}).`
  return { ok: false, refusal: { code: 'bad-input', message, next: 'Choose the archive again.' } }
}

interface PutAnswer {
  readonly status: number
  readonly text: string
}

/** XMLHttpRequest, because a fetch cannot tell how much of its body has been sent. */
function put(
  path: string,
  body: Blob,
  onProgress: (share: number) => void,
  stopped: AbortSignal | null,
): Promise<PutAnswer> {
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest()
    request.open('PUT', path)
    request.responseType = 'text'
    request.upload.onprogress = (event) => {
      if (event.lengthComputable && event.total > 0) onProgress(event.loaded / event.total)
    }
    request.onerror = () => reject(new HostAwayError('The host did not answer.'))
    request.onabort = () => reject(new HostAwayError('The sending was stopped.'))
    request.onload = () => resolve({ status: request.status, text: request.responseText })
    stopped?.addEventListener('abort', () => request.abort())
    request.send(body)
  })
}

function readUploadAnswer({ status, text }: PutAnswer): UploadAnswer {
  const answer = parseJson(text)
  if (status >= 200 && status < 300 && isStoredPhoto(answer)) return { ok: true, value: answer }
  if (isRefusalAnswer(answer) && answer.refusal.code === 'not-paired')
    throw new NotPairedError(answer.refusal)
  if (isRefusalAnswer(answer)) return { ok: false, refusal: answer.refusal }
  return {
    ok: false,
    refusal: {
      code: 'photo',
      message: `The host could not take the photo (answer ${status}).`,
      next: 'Try again; if it stays so, take the photo once more.',
    },
  }
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}

function isStoredPhoto(value: unknown): value is StoredPhoto {
  return typeof value === 'object' && value !== null && 'sha256' in value && typeof value.sha256 === 'string'
}

function isRefusalAnswer(value: unknown): value is { readonly refusal: Refusal } {
  return (
    typeof value === 'object' &&
    value !== null &&
    'refusal' in value &&
    typeof value.refusal === 'object' &&
    value.refusal !== null &&
    'message' in value.refusal &&
    'next' in value.refusal
  )
}

export const photoUrl = (sha256: string, size: 'thumb' | 'screen' | 'original'): string =>
  `/photos/${sha256}/${size}`
