export const FIXTURE_NAMES = { jig: 'Jigs', rotisserie: 'Rotisseries', dolly: 'Dollies' } as const
