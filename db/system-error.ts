/** What the operating system reports of a file or folder, as against a defect of the program; `code` is like 'ENOSPC'. */
export function isSystemError(error: unknown): error is NodeJS.ErrnoException & { readonly code: string } {
  return error instanceof Error && 'syscall' in error && 'code' in error && typeof error.code === 'string'
}

/** There is no such file or folder. */
export const isMissing = (error: unknown): boolean => isSystemError(error) && error.code === 'ENOENT'
