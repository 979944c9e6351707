import { brenholt } from './cars/brenholt.ts'
import { dunmere } from './cars/dunmere.ts'
import { hesslow } from './cars/hesslow.ts'
import { lindquell } from './cars/lindquell.ts'
import { marrick } from './cars/marrick.ts'
import { ostwick } from './cars/ostwick.ts'
import { pellin } from './cars/pellin.ts'
import { tamsel } from './cars/tamsel.ts'
import { velloran } from './cars/velloran.ts'
import type { DemoCar } from './demo-car.ts'

/** Makes and models are invented: none exists. */
export const demoCars: readonly DemoCar[] = [
  lindquell,
  brenholt,
  hesslow,
  dunmere,
  ostwick,
  marrick,
  velloran,
  tamsel,
  pellin,
]
