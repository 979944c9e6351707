import type { VisitStatus } from './facts/car-facts.ts'

/** The car was handed over, or never came to be worked on: nothing more is done in this visit. */
export const isOver = (visit: { readonly status: VisitStatus } | null | undefined): boolean =>
  visit?.status === 'delivered' || visit?.status === 'not taken on'
