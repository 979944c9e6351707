/** What the host's own screens show to be let in. */
export interface EntrySecret {
  readonly text: string
  /** 'once' for the window that the host opens itself, 'this run' for an address that it prints. */
  readonly uses: 'once' | 'this run'
  /** True when it opens; a secret for one use opens once. */
  readonly use: (offered: string) => boolean
}

/** A new secret of 256 random bits. Made here with what the web has, as this folder takes nothing of Node. */
export function createEntrySecret(uses: EntrySecret['uses']): EntrySecret {
  const text = randomText()
  let isSpent = false
  return {
    text,
    uses,
    use: (offered) => {
      if (isSpent || !isSame(offered, text)) return false
      isSpent = uses === 'once'
      return true
    },
  }
}

/** 256 random bits as 64 hexadecimal digits. */
function randomText(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(32))
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')
}

/** Takes the same time whichever character differs. */
function isSame(offered: string, text: string): boolean {
  if (offered.length !== text.length) return false
  let difference = 0
  for (let at = 0; at < text.length; at += 1) difference |= offered.charCodeAt(at) ^ text.charCodeAt(at)
  return difference === 0
}
