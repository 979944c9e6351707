/** A file that stays behind, and why. */
export interface LeftOut {
  readonly name: string
  readonly why: string
}

/** The most that the host takes of one photo, in bytes; what is larger is not sent at all. */
const MOST_BYTES = 50 * 1024 * 1024

/**
 * Parts the photos of a folder or card from what lies beside them. Only what no photo can be is left out here, so that no
 * film is sent for nothing: the host looks into each file whatever its name says.
 */
export function sortFiles(files: readonly File[]): {
  readonly photos: readonly File[]
  readonly leftOut: readonly LeftOut[]
} {
  const judged = files.map((file) => ({ file, why: whyNot(file) }))
  return {
    photos: judged.flatMap(({ file, why }) => (why === null ? [file] : [])),
    leftOut: judged.flatMap(({ file, why }) => (why === null ? [] : [{ name: file.name, why }])),
  }
}

function whyNot({ name, type, size }: File): string | null {
  if (name.startsWith('.')) return 'a hidden file of the card or the computer'
  if (type.startsWith('video/') || /\.(mov|mp4|avi|mts|m4v|mpg)$/i.test(name)) return 'a film'
  if (RAW.test(name)) return 'a raw picture: save it as JPEG and choose that one'
  if (!type.startsWith('image/') && !/\.(jpe?g|png|webp|hei[cf])$/i.test(name)) return 'no photo'
  if (size === 0) return 'empty: it holds 0 bytes'
  if (size > MOST_BYTES) return 'larger than 50 MB, the most that is taken'
  return null
}

const RAW = /\.(dng|cr2|cr3|nef|arw|orf|raf|rw2|pef|srw|tiff?)$/i
