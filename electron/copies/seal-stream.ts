import { createCipheriv, createDecipheriv, hkdfSync, randomBytes } from 'node:crypto'
import { Transform } from 'node:stream'
import { bagProblem } from '../bag/bag-problem.ts'

/*
 * AES-256-GCM over pieces of 64 KiB, as STREAM orders them (Hoang, Reyhanitabar, Rogaway, Vizár: Online Authenticated-
 * Encryption and its Nonce-Reuse Misuse-Resistance, CRYPTO 2015): the nonce of a piece is its place and whether it is the
 * last, so that no piece can be changed, moved, left out or cut off unseen. Each file has a key of its own from its random
 * head and its name: no nonce comes twice under a key, and no file passes for another.
 */

const PIECE_BYTES = 64 * 1024
const TAG_BYTES = 16
const HEAD_BYTES = 16
const SEALED_PIECE_BYTES = PIECE_BYTES + TAG_BYTES

/** Sealed length of so many bytes: a head, and a tag for each piece; even an empty file has one. */
export const sealedBytes = (bytes: number): number =>
  HEAD_BYTES + bytes + TAG_BYTES * Math.max(1, Math.ceil(bytes / PIECE_BYTES))

/** @param name that binds the content to its file */
export function sealStream(key: Uint8Array, name: string): Transform {
  const head = randomBytes(HEAD_BYTES)
  const fileKey = keyOfFile(key, head, name)
  const pieces = inPieces(PIECE_BYTES, (piece, place, isLast) => {
    const cipher = createCipheriv('aes-256-gcm', fileKey, nonce(place, isLast))
    return Buffer.concat([cipher.update(piece), cipher.final(), cipher.getAuthTag()])
  })
  pieces.push(head)
  return pieces
}

/** The stream ends with a BagProblem where a bit was changed or anything is missing at the end. */
export function unsealStream(key: Uint8Array, name: string): Transform {
  let fileKey: Uint8Array | null = null
  return inPieces(
    SEALED_PIECE_BYTES,
    (sealed, place, isLast) => {
      if (fileKey === null || sealed.length < TAG_BYTES) throw damaged()
      return open(sealed, fileKey, nonce(place, isLast))
    },
    { bytes: HEAD_BYTES, take: (head) => (fileKey = keyOfFile(key, head, name)) },
  )
}

function open(sealed: Buffer, key: Uint8Array, iv: Uint8Array): Buffer {
  const decipher = createDecipheriv('aes-256-gcm', key, iv)
  decipher.setAuthTag(sealed.subarray(sealed.length - TAG_BYTES))
  try {
    return Buffer.concat([decipher.update(sealed.subarray(0, -TAG_BYTES)), decipher.final()])
  } catch {
    throw damaged()
  }
}

const damaged = () =>
  bagProblem(
    'storage',
    'A sealed file of the copy was changed or cut off.',
    'Use another copy, and have the disk checked that this one lies on.',
  )

const keyOfFile = (key: Uint8Array, head: Uint8Array, name: string): Uint8Array =>
  new Uint8Array(hkdfSync('sha256', key, head, `panelwright copies: ${name}`, 32))

/** 96 bits: the place in the six bytes before the last, and in the last one whether it is the last piece. */
function nonce(place: number, isLast: boolean): Uint8Array {
  const iv = Buffer.alloc(12)
  iv.writeUIntBE(place, 5, 6)
  iv.writeUInt8(isLast ? 1 : 0, 11)
  return iv
}

/** Hands on the bytes piece by piece; the last one, which may be shorter, is known as such when the end has come. */
function inPieces(
  size: number,
  turn: (piece: Buffer, place: number, isLast: boolean) => Buffer,
  head: { readonly bytes: number; readonly take: (head: Buffer) => void } = { bytes: 0, take: () => {} },
): Transform {
  let rest = Buffer.alloc(0)
  let place = 0
  let isHeadTaken = head.bytes === 0
  const takeHead = () => {
    if (isHeadTaken || rest.length < head.bytes) return
    head.take(rest.subarray(0, head.bytes))
    rest = rest.subarray(head.bytes)
    isHeadTaken = true
  }
  return new Transform({
    transform(chunk: Buffer, _encoding, done) {
      try {
        rest = Buffer.concat([rest, chunk])
        takeHead()
        while (isHeadTaken && rest.length > size) {
          this.push(turn(rest.subarray(0, size), place++, false))
          rest = rest.subarray(size)
        }
        done()
      } catch (error) {
        done(error as Error)
      }
    },
    flush(done) {
      try {
        this.push(turn(rest, place, true))
        done()
      } catch (error) {
        done(error as Error)
      }
    },
  })
}
