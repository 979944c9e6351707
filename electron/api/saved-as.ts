/** What may stand in a header and on any disk. */
export function fileName(name: string): string {
  return name.replace(/[^\w .-]/g, '-')
}

/**
 * The head of an answer that a browser saves as a file.
 *
 * @param name of the file, with its ending
 * @param type its media type
 */
export const savedAs = (name: string, type: string): Record<string, string> => ({
  'Content-Type': type,
  'Content-Disposition': `attachment; filename="${fileName(name)}"`,
  'Cache-Control': 'no-store',
})
