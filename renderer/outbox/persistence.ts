/** Whether the browser has promised to leave alone what this device keeps. */
export type Persistence = 'promised' | 'refused' | 'unavailable'

const KEY = 'panelwright.persistence'

/** Asks once a page, when the first thing is kept: browsers judge by how much the page is used. */
export async function askForPersistence(): Promise<void> {
  keep(await asked())
}

async function asked(): Promise<Persistence> {
  // By plain HTTP there is nobody to ask.
  if (!('storage' in navigator) || typeof navigator.storage.persist !== 'function') return 'unavailable'
  try {
    return (await navigator.storage.persist()) ? 'promised' : 'refused'
  } catch {
    return 'refused'
  }
}

function keep(persistence: Persistence): void {
  if (localStorage.getItem(KEY) !== READ || persistence === 'promised') localStorage.setItem(KEY, persistence)
}

const READ = 'read'

/** What is to be said of it; null when nothing was asked yet, all is well, or the person has read it. */
export function persistenceToTell(): 'refused' | 'unavailable' | null {
  const kept = localStorage.getItem(KEY)
  return kept === 'refused' || kept === 'unavailable' ? kept : null
}

export function persistenceRead(): void {
  localStorage.setItem(KEY, READ)
}
