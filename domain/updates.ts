import { z } from 'zod'

const MOST_ADDRESS = 500

/** A host's name or its number, a port, and what follows in printable characters: no name, password or fragment. */
const PLAIN_HTTPS =
  /^https:\/\/(?:[a-z\d](?:[a-z\d.-]*[a-z\d])?|\[[\da-f:.]+\])(?::\d{1,5})?(?:[/?][!-"$-[\]-~]*)?$/i

/** An address that is fetched or shown: encrypted, and without a name or password in it. */
const addressSchema = z
  .string()
  .trim()
  .max(MOST_ADDRESS, `Give an address of at most ${MOST_ADDRESS} characters.`)
  .regex(PLAIN_HTTPS, 'Give an address that begins with https:// and holds no name or password.')

/** '0.2.0': three numbers, the weightiest first. */
const versionSchema = z.string().regex(/^(0|[1-9]\d{0,5})(\.(0|[1-9]\d{0,5})){2}$/)

/** What lies at the address: which version is there, and the page that tells of it and has it. */
export const updateFeedSchema = z.strictObject({ version: versionSchema, page: addressSchema })
export type UpdateFeed = z.infer<typeof updateFeedSchema>

/** Where a newer version is looked for once a week; nobody has set an address beforehand. */
export const updateAddressSchema = addressSchema

/** Set on this computer, and what the looking came to; null in the settings where it is off. */
export const updateSettingSchema = z.strictObject({
  address: addressSchema,
  /** When it was looked last, epoch milliseconds, and why nothing was found out; null before the first time. */
  tried: z.strictObject({ at: z.int(), problem: z.string().max(1_000).nullable() }).nullable(),
  /** The last that was found there. */
  found: updateFeedSchema.nullable(),
})
export type UpdateSetting = z.infer<typeof updateSettingSchema>

const DAY_MS = 24 * 3_600_000
const LOOK_EVERY_DAYS = 7
/** A network that was away is back some day soon. */
const AGAIN_AFTER_DAYS = 1

/** Whether it is time to look, epoch milliseconds. A clock that was put back waits no longer than another week. */
export function isUpdateDue({ tried }: UpdateSetting, now: number): boolean {
  if (tried === null) return true
  const days = tried.problem === null ? LOOK_EVERY_DAYS : AGAIN_AFTER_DAYS
  return Math.abs(now - tried.at) >= days * DAY_MS
}

/** Whether version `one` comes after `other`. */
export function isNewer(one: string, other: string): boolean {
  const [left, right] = [one, other].map((version) => version.split('.').map(Number))
  const at = [0, 1, 2].find((place) => left?.[place] !== right?.[place])
  return at !== undefined && (left?.[at] ?? 0) > (right?.[at] ?? 0)
}
