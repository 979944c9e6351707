import { beforeAll } from 'vitest'
import { sharp } from '../../db/photos/sharp.ts'

// Files share their process: a worker of an earlier one that was ended while it loaded leaves on what libvips remembers.
beforeAll(() => {
  sharp.cache(false)
})
