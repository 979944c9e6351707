/** The sheets of one car, in the order of their tabs; the first is shown when the address names none. */
export const CAR_SHEETS = [
  'map',
  'estimate',
  'photos',
  'hours',
  'money',
  'decisions',
  'dimensions',
  'record',
] as const
export type CarSheet = (typeof CAR_SHEETS)[number]
