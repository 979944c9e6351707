import { get } from 'node:https'
import type { IncomingMessage } from 'node:http'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import { parseJson } from '../../domain/text/parse-json.ts'
import { type UpdateFeed, updateAddressSchema, updateFeedSchema } from '../../domain/updates.ts'

export interface FeedOptions {
  /** Whom to trust, as PEM, instead of the authorities that the runtime comes with. */
  readonly ca?: string
  /** For all of it, from the first byte sent to the last one read. */
  readonly mostMs?: number
  /** Aborted when the host closes. */
  readonly ends?: AbortSignal
}

/** A feed is a hundred bytes. */
const MOST_BYTES = 8_192
const MOST_MS = 15_000

/**
 * Reads which version lies at an address. Sends nothing of the workshop, not even its own version; follows nothing to another
 * address; takes no answer that is long, slow or anything but a feed. Addresses of the workshop's own network are let through:
 * only a manager at the host's own window sets one, and nothing of an answer is shown but a version and the page's address.
 */
export async function readFeed(address: string, options: FeedOptions = {}): Promise<Result<UpdateFeed>> {
  const parsed = updateAddressSchema.safeParse(address)
  if (!parsed.success) return notEncrypted
  try {
    return feedOf(await fetchText(parsed.data, options))
  } catch (error) {
    return refusalFor(error)
  }
}

function fetchText(address: string, { ca, mostMs = MOST_MS, ends }: FeedOptions): Promise<Answer> {
  const late = AbortSignal.timeout(mostMs)
  const signal = ends === undefined ? late : AbortSignal.any([late, ends])
  const headers = { accept: 'application/json', 'user-agent': 'Panelwright' }
  return new Promise((resolve, reject) => {
    const settings = { headers, signal, agent: false as const, ...(ca !== undefined && { ca }) }
    const request = get(address, settings, (answer) => {
      readText(answer).then((text) => resolve({ status: answer.statusCode ?? 0, text }), reject)
    })
    request.on('error', reject)
  })
}

interface Answer {
  readonly status: number
  readonly text: string
}

async function readText(answer: IncomingMessage): Promise<string> {
  const parts: Buffer[] = []
  let bytes = 0
  for await (const part of answer as AsyncIterable<Buffer>) {
    bytes += part.byteLength
    if (bytes > MOST_BYTES) throw new TooLong()
    parts.push(part)
  }
  return Buffer.concat(parts).toString('utf8')
}

class TooLong extends Error {}

function feedOf({ status, text }: Answer): Result<UpdateFeed> {
  if (status >= 300 && status < 400) return sentOn
  if (status !== 200)
    return refuse(
      'not-now',
      `The address answered with ${status}.`,
      'Look at it in a browser, and correct it here.',
    )
  const feed = updateFeedSchema.safeParse(parseJson(text))
  return feed.success ? ok(feed.data) : noFeed
}

function refusalFor(error: unknown): Result<never> {
  if (error instanceof TooLong) return noFeed
  const code = error instanceof Error && 'code' in error ? String(error.code) : ''
  if (error instanceof Error && (error.name === 'TimeoutError' || error.name === 'AbortError')) return tooSlow
  if (/CERT|SELF_SIGNED|UNABLE_TO|ERR_TLS|ERR_SSL|EPROTO/.test(code)) return notProven
  return refuse(
    'not-now',
    `Nothing could be read at the address${code === '' ? '' : ` (${code})`}.`,
    'It is tried again tomorrow. See whether this computer reaches the internet, and whether the address is right.',
  )
}

const notEncrypted = refuse(
  'bad-input',
  'The address is not one that begins with https://.',
  'Give an encrypted address, without a name or password in it.',
)
const sentOn = refuse(
  'not-now',
  'The address sends on to another one, which is not followed.',
  'Look at it in a browser. If you trust where it leads, give that address here.',
)
const noFeed = refuse(
  'not-now',
  'What lies at the address does not say which version is there.',
  'Ask whoever gave you the address for the one of the version feed.',
)
const tooSlow = refuse('not-now', 'The address did not answer in time.', 'It is tried again tomorrow.')
const notProven = refuse(
  'not-now',
  'The address could not prove that it is the right one, so nothing was read.',
  'See whether the date of this computer is right, and whether the address is.',
)
