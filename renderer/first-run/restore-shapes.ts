import type { client } from '../client.ts'

export type Found = Extract<Awaited<ReturnType<typeof client.copiesIn.query>>, { readonly ok: true }>['value']
/** Which copy of which workshop, and the passphrase of a sealed one. */
export type Chosen = Parameters<typeof client.restoreCopy.mutate>[0]
