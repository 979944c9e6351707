import type { Moment } from '../../domain/car.ts'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import { plural } from '../../domain/text/words.ts'

/** A code that lets one device in, as long as this run of the host and five minutes last. */
export interface PairingCode {
  readonly text: string
  /** Epoch milliseconds by the host's clock. */
  readonly until: Moment
}

/** What became of the last code that was asked for; null before a first one. */
export type CodeState = Pick<PairingCode, 'until'> &
  (
    | { readonly is: 'open' | 'over' | 'void' }
    /** Name of the device that it let in. */
    | { readonly is: 'used'; readonly by: string }
  )

export interface PairingCodes {
  /** Makes a code; the one before it is worth nothing any more. */
  readonly make: () => Promise<PairingCode>
  readonly state: () => CodeState | null
  /**
   * Uses the code up when it is the right one.
   *
   * @param address where it was given: whoever gives wrong codes waits, twice as long each time
   * @param by name of the device that it is to let in
   */
  readonly use: (offered: string, address: string, by: string) => Promise<Result<true>>
}

/** Without I, L, O and U, which are taken for digits or make words: 5 bits each. */
const ALPHABET = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'

/**
 * 40 bits. Six digits are typed sooner, but five guesses at each code of a year would find one in some thousand workshops, and
 * nearly everybody scans.
 */
const LENGTH = 8
const LIFE_MS = 5 * 60_000
const WRONG_BEFORE_VOID = 5
const FIRST_WAIT_MS = 1_000
const LONGEST_WAIT_MS = 60 * 60_000

/** A workshop has a few dozen; whoever comes from more is not from there. */
const MOST_ADDRESSES = 1_000

interface Code {
  readonly digest: string
  readonly until: Moment
  readonly wrong: number
  readonly usedBy: string | null
}

interface Wrongs {
  readonly count: number
  readonly waitMs: number
  /** No code is looked at from there until then. */
  readonly until: Moment
}

/**
 * Codes are kept in memory only, and as a digest, so that no copy, log or database ever holds one that works. A wrong code is
 * counted before it is looked at, so that many at once buy no further guess.
 */
export function createPairingCodes(now: () => Moment): PairingCodes {
  const salt = randomText(16)
  const digestOf = (text: string) => digest(salt + text)
  const wrongs = createWrongs(now)
  let code: Code | null = null

  const use: PairingCodes['use'] = async (offered, address, by) => {
    const wait = wrongs.waitMs(address)
    if (wait > 0) return locked(wait)
    wrongs.count(address)
    const tried = code
    if (tried === null) return wrongCode
    code = { ...tried, wrong: tried.wrong + 1 }
    const isSame = (await digestOf(plainCode(offered))) === tried.digest
    // Another may have been made, or this one used, while the digest was worked out.
    if (code?.digest !== tried.digest) return wrongCode
    if (!isSame) return isVoid(code) ? voided : wrongCode
    // Whoever knows the code does not guess.
    code = { ...code, wrong: code.wrong - 1 }
    wrongs.forgive(address)
    if (code.usedBy !== null) return usedUp
    if (isVoid(code)) return voided
    if (isOver(code, now())) return over
    code = { ...code, usedBy: by }
    return ok(true)
  }

  return {
    use,
    make: async () => {
      const text = randomText(LENGTH)
      const until = now() + LIFE_MS
      code = { digest: await digestOf(text), until, wrong: 0, usedBy: null }
      return { text, until }
    },
    state: () => code && stateOf(code, now()),
  }
}

/** '4f7k-m2qx' and '4F7K M2QX' are one code, and what looks like a digit is one. */
export function plainCode(typed: string): string {
  return typed.toUpperCase().replaceAll(/[\s-]/g, '').replaceAll('O', '0').replaceAll(/[IL]/g, '1')
}

function stateOf(code: Code, now: Moment): CodeState {
  const { until, usedBy } = code
  if (usedBy !== null) return { is: 'used', by: usedBy, until }
  if (isVoid(code)) return { is: 'void', until }
  return { is: isOver(code, now) ? 'over' : 'open', until }
}

/** A clock that was set back must not make a code last longer. */
const isOver = ({ until }: Code, now: Moment): boolean => until <= now || until - now > LIFE_MS
const isVoid = ({ wrong }: Code): boolean => wrong >= WRONG_BEFORE_VOID

/** Who gave wrong codes, by address: the one that was silent longest is forgotten first. */
function createWrongs(now: () => Moment) {
  const byAddress = new Map<string, Wrongs>()
  return {
    waitMs: (address: string) => {
      const known = byAddress.get(address)
      if (known === undefined) return 0
      // After a clock was set back one waits once more, not until it has caught up.
      if (known.until - now() > known.waitMs)
        byAddress.set(address, { ...known, until: now() + known.waitMs })
      return Math.min(known.until - now(), known.waitMs)
    },
    count: (address: string) => {
      const count = (byAddress.get(address)?.count ?? 0) + 1
      const waitMs = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** (count - 1))
      byAddress.delete(address)
      byAddress.set(address, { count, waitMs, until: now() + waitMs })
      const [oldest] = byAddress.keys()
      if (byAddress.size > MOST_ADDRESSES && oldest !== undefined) byAddress.delete(oldest)
    },
    forgive: (address: string) => void byAddress.delete(address),
  }
}

/** 256 is a multiple of the alphabet's 32 characters, so that each is as likely as any other. */
function randomText(length: number): string {
  const bytes = crypto.getRandomValues(new Uint8Array(length))
  return Array.from(bytes, (byte) => ALPHABET[byte % ALPHABET.length]).join('')
}

async function digest(text: string): Promise<string> {
  const bytes = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text))
  return Array.from(new Uint8Array(bytes), (byte) => byte.toString(16).padStart(2, '0')).join('')
}

const wrongCode = refuse(
  'wrong-code',
  'This is not the code that is shown.',
  'Look at the code on the workshop’s computer and type it again.',
)
const voided = refuse(
  'locked',
  'Five wrong codes were given, so the code that was shown counts no longer.',
  'Ask a manager for a new code.',
)
const over = refuse(
  'wrong-code',
  'This code has run out: it lasts five minutes.',
  'Ask a manager for a new code.',
)
const usedUp = refuse(
  'already',
  'This code has let a device in already; each lets in one.',
  'Ask a manager for a new code.',
)

function locked(ms: number) {
  const seconds = Math.ceil(ms / 1_000)
  const wait = seconds < 60 ? plural('second', seconds) : plural('minute', Math.ceil(seconds / 60))
  return refuse('locked', 'A wrong code was given from this device.', `Wait ${wait}, then try again.`)
}
