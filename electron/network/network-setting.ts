import type { Database } from '../../db/database.ts'
import { readSetting, writeSetting } from '../../db/settings.ts'
import type { NetworkScheme } from '../api/network-desk.ts'

/** How the workshop network was left. */
export interface NetworkSetting {
  readonly isOpen: boolean
  readonly scheme: NetworkScheme
  /** Kept while it is closed, too: what a tablet keeps goes by the address, port included. */
  readonly port: number
}

/** Null before it was first opened, and for what this program has not written. */
export function readNetworkSetting(db: Database): NetworkSetting | null {
  const [, state, scheme, port] = FORMAT.exec(readSetting(db, 'network') ?? '') ?? []
  if (state === undefined || scheme === undefined) return null
  return { isOpen: state === 'open', scheme: scheme === 'http' ? 'http' : 'https', port: Number(port) }
}

/** How the network is left, for the next start. */
export function writeNetworkSetting(db: Database, { isOpen, scheme, port }: NetworkSetting): void {
  writeSetting(db, 'network', `${isOpen ? 'open' : 'closed'} ${scheme} ${port}`)
}

/** 'open https 47832' */
const FORMAT = /^(open|closed) (https|http) (\d{4,5})$/
