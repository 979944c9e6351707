import { expect, it } from 'vitest'
import { attachmentIdSchema, costIdSchema } from '../../../domain/ids.ts'
import { variationLetter } from '../../../domain/report/variation-letter.ts'
import type { LoadPhoto } from '../../../electron/print/print-photos.ts'
import { printVariation } from '../../../electron/print/print-variation.ts'
import { onGate, variationId, visitId } from '../../support/car-builder.ts'
import { createTestPhoto } from '../../support/images.ts'
import { describePdf, readPdf } from '../../support/pdf-tools.ts'
import { inWork } from '../../support/report-cases.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const photoOf = createTestPhoto({ width: 1000, height: 750, color: '#8a5a3a' })
const load: LoadPhoto = () => photoOf

/** As much as a letter may hold: six photos, hours on every gate and some costs. */
function fullLetter() {
  const photos = ['aaaa', 'bbbb', 'cccc', 'dddd', 'eeee', 'ffff']
  const builder = photos.reduce((car, name) => car.photo(name, [{ what: 'car' }]), inWork())
  const gates = ['fabricated', 'sealed', 'primed', 'trial-fitted', 'welded', 'painted'] as const
  builder.add('variationRaised', {
    variationId: variationId('Channel'),
    visitId: visitId('first'),
    payer: 'owner',
    title: 'Inner channel of the left sill, made new from the jacking point to the rear post',
    why: 'With the outer sill off, the inner channel turned out to be holed over 240 mm.',
    ifNot: 'The holes stay, and water goes on coming in.',
    findings: [],
    attachments: photos.map((name) => attachmentIdSchema.parse(`photo-${name}`)),
    lines: gates.map((gate) => ({ target: onGate('Sill, left', gate), hours: 6, low: 4, high: 11 })),
    costs: ['Sheet', 'Primer', 'Folding'].map((name) => ({
      costId: costIdSchema.parse(`cost-${name.toLowerCase()}`),
      repairId: null,
      kind: 'material',
      name,
      amount: 4_550,
    })),
  })
  const car = builder.car()
  const variation = car.variations.get(variationId('Channel'))!
  const now = Date.parse('2026-11-28T12:00:00Z')
  return variationLetter({ car, variation, now, workshop: buildWorkshop(), nameOf })
}

describePdf('a printed variation', () => {
  it('takes two pages at most, is tagged and embeds its fonts', async () => {
    const { pages, structure, fonts, info } = await readPdf(await printVariation(fullLetter(), load))
    expect(pages).toBe(2)
    expect(fonts.every(({ embedded, unicode }) => embedded && unicode)).toBe(true)
    for (const tag of ['H1', 'H2', 'Figure', 'Caption', 'Table', 'TH']) expect(structure).toContain(tag)
    expect(info.get('Title')).toContain('Dunmere Saloon, shell 0412')
  })

  it('says in its place that a photo could not be read', async () => {
    const { text } = await readPdf(await printVariation(fullLetter(), async () => null))
    expect(text).toContain('The file of this photo could not be read.')
  })
})
