/** What a text says as JSON; null where it is none, which has no shape that is looked for. */
export function parseJson(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}
