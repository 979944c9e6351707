import 'fake-indexeddb/auto'
import { beforeEach, describe, expect, test } from 'vitest'
import { repairIdSchema } from '../../domain/ids.ts'
import type { AskView } from '../../domain/views/view-shapes.ts'
import { createOutbox, type Outbox } from '../../renderer/outbox/create-outbox.ts'
import { photosUnderWay } from '../../renderer/outbox/photos-under-way.ts'
import { askAim, nextPhoto, type PhotoWork } from '../../renderer/parts/photos/photo-aim.ts'
import { createHostStandIn, fresh, photo, type HostStandIn } from '../support/outbox-host.ts'

const ask = (kind: AskView['kind'], photosMissing: number): AskView => ({
  key: kind,
  kind,
  words: kind,
  met: photosMissing === 0,
  have: '',
  photosMissing,
  layerId: null,
  subject: null,
})

/** The sill at 'opened', which asks for a photo before cutting and one after it. */
const sill = (before: number, after: number): PhotoWork => ({
  repairId: repairIdSchema.parse('repair-sill'),
  gate: 'opened',
  asks: [ask('photo before', before), ask('photo', after)],
  layers: [],
})
const beforeCutting = { ...photo('photo-1', 'one'), ...askAim(sill(1, 1), ask('photo before', 1)) }

let host: HostStandIn
let outbox: Outbox
/** What the screens show is read again. */
let readAgain: () => void

beforeEach(() => {
  host = createHostStandIn()
  const shown = new Promise<void>((resolve) => {
    readAgain = resolve
  })
  outbox = createOutbox({ ...host.ports(fresh()), onAccepted: () => shown })
})

const next = (work: PhotoWork): string => nextPhoto(work, photosUnderWay(outbox.state())).words

describe('a photo is aimed at what the gate still asks for', () => {
  test('while the one before it is on its way', async () => {
    host.isAway = true
    expect(next(sill(1, 1))).toBe('before cutting')
    await outbox.addPhotos([beforeCutting])
    await outbox.flush()
    expect(next(sill(1, 1))).toBe('after cutting')
  })

  test('while the one before it is sent, and the screen does not count it yet', async () => {
    await outbox.addPhotos([beforeCutting])
    await outbox.flush()
    expect(outbox.state().photos).toEqual([])
    expect(next(sill(1, 1))).toBe('after cutting')
  })

  test('by the screen alone once that is read again', async () => {
    await outbox.addPhotos([beforeCutting])
    await outbox.flush()
    readAgain()
    await expect.poll(() => outbox.state().arriving).toEqual([])
    expect(next(sill(1, 1))).toBe('before cutting')
    expect(next(sill(0, 1))).toBe('after cutting')
  })
})
