/** The sheets of the workshop, in the order of their tabs; the first is shown when the address names none. */
export const WORKSHOP_SHEETS = [
  'people',
  'bays',
  'week',
  'planning',
  'types',
  'limits',
  'rates',
  'contacts',
  'network',
  'devices',
  'check',
  'copies',
  'take-out',
  'updates',
] as const
export type WorkshopSheet = (typeof WORKSHOP_SHEETS)[number]

export const SHEET_WORDS: Readonly<Record<WorkshopSheet, string>> = {
  people: 'People',
  bays: 'Bays',
  week: 'Working week',
  planning: 'Planning',
  types: 'Repair types',
  limits: 'Limits',
  rates: 'Rates',
  contacts: 'Contacts',
  network: 'Network',
  devices: 'Devices',
  check: 'Check',
  copies: 'Copies',
  'take-out': 'Take out',
  updates: 'Updates',
}
