/** As package.json has it; a test compares the two. */
export const PROGRAM_VERSION = '0.1.0'

/** What a build was made from; two builds of the same have the same bytes. */
export interface BuiltFrom {
  readonly version: string
  /** Full hash, with ' with changes' behind it where files differed from it; 'unknown' where nothing tells. */
  readonly commit: string
  /** SHA-256 of package-lock.json, which names each package by its bytes. */
  readonly lock: string
}

/** '0.1.0 (3f2a91c04d11)', at most 40 characters. */
export function versionWords({ version, commit }: BuiltFrom): string {
  const [hash = '', ...changes] = commit.split(' ')
  return `${version} (${hash.slice(0, 12)}${changes.length > 0 ? '+' : ''})`
}
