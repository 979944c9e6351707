/** What an error says of itself, whatever was thrown. */
export const errorMessage = (error: unknown): string =>
  error instanceof Error ? error.message : String(error)

/** The same with the places that it came by, for a log. */
export const errorStack = (error: unknown): string =>
  error instanceof Error ? (error.stack ?? error.message) : String(error)
