/**
 * All that this origin has left on the device, as text: databases, what scripts keep by name, answers that are cached, cookies that
 * scripts see. To be run in the page.
 */
export async function allOnDevice(): Promise<string> {
  const done = <Result>(request: IDBRequest<Result>) =>
    new Promise<Result>((resolve, reject) => {
      request.onsuccess = () => resolve(request.result)
      request.onerror = () => reject(request.error)
    })
  const found: unknown[] = [Object.entries(localStorage), Object.entries(sessionStorage), document.cookie]
  for (const { name = '' } of await indexedDB.databases()) {
    const database = await done(indexedDB.open(name))
    for (const store of database.objectStoreNames)
      found.push(name, store, await done(database.transaction(store).objectStore(store).getAll()))
    database.close()
  }
  for (const name of await caches.keys()) {
    const cache = await caches.open(name)
    for (const request of await cache.keys()) {
      // Those are as built, and hold all sorts of figures.
      const isBuilt = new URL(request.url).pathname.startsWith('/assets/')
      found.push(request.url, isBuilt ? null : await (await cache.match(request))?.text())
    }
  }
  return JSON.stringify(found)
}
