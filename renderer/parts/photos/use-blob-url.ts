import { useEffect, useState } from 'react'

/** An address of bytes that are on this device, for as long as they are shown. */
export function useBlobUrl(bytes: Blob): string | undefined {
  const [url, setUrl] = useState<string>()
  useEffect(() => {
    const made = URL.createObjectURL(bytes)
    setUrl(made)
    return () => URL.revokeObjectURL(made)
  }, [bytes])
  return url
}
