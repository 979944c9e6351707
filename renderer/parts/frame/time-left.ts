/** 'about 40 s left', 'about 3 min left' */
export function timeLeftWords(ms: number): string {
  const seconds = Math.max(1, Math.ceil(ms / 1000))
  return seconds < 90 ? `about ${seconds} s left` : `about ${Math.round(seconds / 60)} min left`
}
