import sharp from 'sharp'

// libvips remembers decoded files by their path: a photo that was mended or damaged in place would be shown as it was.
sharp.cache(false)

export { sharp }
