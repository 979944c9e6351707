import { client, uploadPhoto } from '../client.ts'
import type { SentAnswer } from './send-photos.ts'

/** Sends a photo unless the host has its very bytes already, as when a card is chosen a second time. */
export async function sendOnce(photo: Blob): Promise<SentAnswer> {
  const sha256 = await sha256Of(photo)
  if (sha256 !== null && (await client.cardPhotoKnown.query({ sha256 }))) return { ok: true, sha256 }
  const answer = await uploadPhoto(photo, () => undefined)
  return answer.ok ? { ok: true, sha256: answer.value.sha256 } : answer
}

/** Null where the browser gives no digests: it does so on this computer and on HTTPS alone. */
async function sha256Of(photo: Blob): Promise<string | null> {
  const { subtle } = crypto as { readonly subtle?: SubtleCrypto }
  if (subtle === undefined) return null
  const digest = await subtle.digest('SHA-256', await photo.arrayBuffer())
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('')
}
