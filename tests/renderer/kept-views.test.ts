import 'fake-indexeddb/auto'
import { deleteDB, openDB } from 'idb'
import { expect, test } from 'vitest'
import { forgetViews } from '../../renderer/outbox/kept-views.ts'

test('a store of views that could not be opened once is opened when it is needed again', async () => {
  // A newer program has left its own: an older page cannot open it.
  const newer = await openDB('panelwright-views', 2)
  newer.close()
  await expect(forgetViews()).rejects.toMatchObject({ name: 'VersionError' })
  await deleteDB('panelwright-views')
  await expect(forgetViews()).resolves.toBeUndefined()
})
