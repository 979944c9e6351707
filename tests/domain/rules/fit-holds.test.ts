import { describe, expect, test } from 'vitest'
import { edgeIdSchema } from '../../../domain/ids.ts'
import { asks, createScene } from '../../support/scene.ts'

describe('fit together', () => {
  const opening = () => {
    const scene = createScene()
    for (const name of ['Valance', 'Quarter'])
      scene.repair(name, { gates: { 'trial-fitted': { asks: asks({ fitUp: true }) } } })
    scene.group(
      'boot opening',
      ['Valance', 'Quarter'],
      [
        {
          edgeId: edgeIdSchema.parse('edge-right'),
          name: 'boot lid, right edge',
          nominalMm: 4,
          toleranceMm: 1,
          flushToleranceMm: 1,
        },
      ],
    )
    return scene
  }
  const reading = (mm: number) => ({
    readings: [{ edgeId: edgeIdSchema.parse('edge-right'), gapsMm: [mm, mm + 0.3], flushMm: 0.2 }],
  })

  test('every member must be open and primed before the group is offered up whole', () => {
    const scene = opening()
    scene.passTo('Valance', 'primed')
    expect(scene.holds('Valance', 'trial-fitted').map((hold) => hold.words)).toEqual([
      'The boot opening is offered up as one, and Quarter is not open yet.',
    ])
    expect(scene.fitUp('boot opening', reading(4))).toMatchObject({ ok: false, refusal: { code: 'held' } })
    expect(scene.fitUp('boot opening', { kind: 'dry', ...reading(7), good: false }).ok).toBe(true)
  })

  test('trial-fitted needs the last fit-up to be good', () => {
    const scene = opening()
    scene.passTo('Valance', 'primed')
    scene.passTo('Quarter', 'primed')
    expect(scene.codes('Valance', 'trial-fitted')).toEqual(['fit together'])
    expect(scene.fitUp('boot opening', reading(6))).toMatchObject({
      ok: false,
      refusal: { code: 'bad-input' },
    })
    scene.fitUp('boot opening', { ...reading(6), good: false })
    expect(scene.holds('Valance', 'trial-fitted')[0]?.words).toBe(
      'The last fit-up of the boot opening was not good.',
    )
    scene.fitUp('boot opening', reading(4))
    expect(scene.pass('Valance', 'trial-fitted').ok).toBe(true)
  })

  test('reopening a member at primed makes the fit-up stale for members not yet welded', () => {
    const scene = opening()
    scene.passTo('Valance', 'primed')
    scene.passTo('Quarter', 'primed')
    scene.fitUp('boot opening', reading(4))
    scene.reopen('Quarter', 'primed')
    scene.passTo('Quarter', 'primed')
    expect(scene.codes('Valance', 'trial-fitted')).toEqual(['fit together'])
  })

  test('a welded member stays and the others are fitted to it', () => {
    const scene = opening()
    scene.passTo('Valance', 'primed')
    scene.passTo('Quarter', 'primed')
    scene.fitUp('boot opening', reading(4))
    scene.passTo('Valance', 'welded')
    scene.reopen('Quarter', 'primed')
    scene.passTo('Quarter', 'primed')
    expect(scene.fitUp('boot opening', reading(4)).ok).toBe(true)
    expect(scene.codes('Quarter', 'trial-fitted')).toEqual([])
  })
})
