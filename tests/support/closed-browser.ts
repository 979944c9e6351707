import { afterAll } from 'vitest'
import { closeBrowser } from './served.ts'

afterAll(closeBrowser)
