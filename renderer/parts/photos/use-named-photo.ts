import { useNavigate, useSearch } from '@tanstack/react-router'
import type { NamedPhoto } from './photo-grid.tsx'

/** The photo that the address names; null where it names none. */
export function useNamedPhoto(): NamedPhoto | null {
  const { photo } = useSearch({ strict: false })
  const navigate = useNavigate()
  if (photo === undefined) return null
  return {
    attachmentId: photo,
    onClose: () =>
      void navigate({
        to: '.',
        search: (before) => ({ ...before, photo: undefined }),
        replace: true,
        resetScroll: false,
      }),
  }
}
