import type { Temporal as TemporalType } from 'temporal-polyfill'

type Namespace = typeof TemporalType

/**
 * What the build puts in the place of 'temporal-polyfill', which would be fetched by every browser: one that has Temporal
 * goes by its own.
 */
export let Temporal = (globalThis as unknown as { readonly Temporal: Namespace }).Temporal

/** Before anything asks for a time: the polyfill, where the browser has no Temporal yet. */
export async function fetchTemporal(): Promise<void> {
  if (Temporal === undefined) ({ Temporal } = await import('temporal-polyfill/implementation'))
}
