import type { ProposedPhoto, CardProposal } from '../../../domain/import/photo-proposal.ts'
import { describe, expect, test } from 'vitest'
import type { CarId, PersonId } from '../../../domain/ids.ts'
import type { FittingWork } from '../../../domain/import/photo-match-shapes.ts'
import { attachCommands, correctionNotes } from '../../../renderer/card/attach-commands.ts'
import { fitToPlace, placePhotos, sortPhotos, type Said } from '../../../renderer/card/places.ts'
import { onGate } from '../../support/car-builder.ts'

const carId = 'car-0001' as CarId
const fit = (repair: string, more: Partial<FittingWork> = {}): FittingWork => {
  const usual = { carId, shows: 'work', layerId: null, doesNotCount: null } as const
  return { ...usual, target: onGate(repair, 'opened'), why: `while Joss was clocked on ${repair}`, ...more }
}
const photo = (name: string, more: Partial<ProposedPhoto> = {}): ProposedPhoto => {
  const taken = Date.parse('2026-11-24T14:32:00Z')
  const when = { taken, takenIso: '2026-11-24T14:32:00+00:00', camera: null }
  const usual = { sure: 'certain', fits: [fit('Sill')], others: [], says: '', here: [] } as const
  return { sha256: name.repeat(64), ...when, ...usual, ...more }
}
const several = photo('b', { sure: 'several fit', fits: [fit('Sill'), fit('Floor')] })
const lost = photo('c', { sure: 'none', fits: [], others: [fit('Floor')], says: 'Nothing is close.' })
const atSill = { carId, serves: [fitToPlace(fit('Sill')).serves], at: 0, by: 'Joss' }
const here = photo('d', { here: [atSill] })
const elsewhere = photo('e', { fits: [fit('Floor')], here: [atSill] })

const proposal = (...photos: readonly ProposedPhoto[]): CardProposal => ({
  correction: null,
  photos,
  cars: [],
  days: [],
  lacks: {},
})
const place = (
  photos: readonly ProposedPhoto[],
  said: readonly (readonly [ProposedPhoto, Said])[] = [],
  reference: ProposedPhoto | null = null,
) =>
  placePhotos(
    proposal(...photos),
    new Map(said.map(([{ sha256 }, words]) => [sha256, words])),
    reference?.sha256 ?? null,
  )
const names = (photos: readonly { readonly sha256: string }[]) =>
  photos.map(({ sha256 }) => sha256.charAt(0)).join('')

describe('the photos of a card', () => {
  test('are taken where one piece of work fits; several and none wait for the person', () => {
    const placed = place([photo('a'), several, lost])
    expect(names(placed.filter(({ ticked }) => ticked))).toBe('a')
    const sorted = sortPhotos(placed)
    expect(sorted.several.map(({ photos }) => names(photos))).toEqual(['b'])
    expect(sorted.nothing.map(({ key }) => key)).toEqual(['Nothing is close.'])
  })

  test('go where the person says, and back to what was proposed for nobody', () => {
    const floor = fitToPlace(fit('Floor'))
    const [first] = place([several], [[several, { place: floor }]])
    expect(first).toMatchObject({ ticked: true, byHand: true, place: floor })
    expect(place([several], [[several, { place: floor, ticked: false }]])[0]?.ticked).toBe(false)
  })

  test('that are here already are not attached to the same gate again, whatever is ticked', () => {
    const sorted = sortPhotos(place([here, elsewhere], [[here, { ticked: true }]]))
    expect(names(sorted.here)).toBe('d')
    expect(sorted.here[0]?.ticked).toBe(false)
    // To another gate it may go, once somebody says so.
    const [floor] = place([elsewhere])
    expect(floor).toMatchObject({ isHere: false, ticked: false })
    expect(place([elsewhere], [[elsewhere, { ticked: true }]])[0]?.ticked).toBe(true)
  })

  test('that has put the clock right stays behind unless it is ticked', () => {
    const clock = photo('a')
    expect(place([clock], [], clock)[0]?.ticked).toBe(false)
    expect(place([clock], [[clock, { ticked: true }]], clock)[0]?.ticked).toBe(true)
  })
})

describe('attaching them', () => {
  const by = 'person-joss' as PersonId
  const made = '2026-11-25T10:40:00Z'

  test('is one command a photo, with the corrected time and what it shows', () => {
    const commands = attachCommands(place([photo('a'), several]), { by, made, correction: null })
    expect(commands).toHaveLength(1)
    expect(commands[0]).toMatchObject({
      kind: 'attachPhoto',
      carId,
      by,
      payload: {
        sha256: 'a'.repeat(64),
        taken: '2026-11-24T14:32:00+00:00',
        serves: [{ what: 'gate', repairId: 'repair-sill', gate: 'opened', shows: 'work', layerId: null }],
      },
    })
    expect(correctionNotes(commands, { by, made, correction: null })).toEqual([])
  })

  test('leaves a note on each car that times were put right, and by which photo', () => {
    const correction = { words: 'The camera’s clock is 1 h 4 min slow.', reference: 'the photo abc' }
    const commands = attachCommands(place([photo('a'), photo('f')]), { by, made, correction })
    expect(correctionNotes(commands, { by, made, correction })).toMatchObject([
      {
        kind: 'addNote',
        carId,
        payload: {
          text: '2 photos came from a camera card. The camera’s clock is 1 h 4 min slow. The times were put right by the photo abc.',
        },
      },
    ])
  })
})
