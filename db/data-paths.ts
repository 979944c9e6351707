import { join } from 'node:path'

/** Where everything lies in a data folder. Only what is under `private` stays out of copies. */
export function databasePath(dataDir: string): string {
  return join(dataDir, 'workshop.db')
}

/** Photos: originals by digest, derived sizes, uploads under way. */
export function photosFolder(dataDir: string): string {
  return join(dataDir, 'photos')
}

/** Issued owner reports by digest. */
export function reportsFolder(dataDir: string): string {
  return join(dataDir, 'reports')
}

/** Journals of cars that came from other workshops, as they came, by digest: the proof of what was recorded there. */
export function broughtInFolder(dataDir: string): string {
  return join(dataDir, 'brought-in')
}

/** Files of cars that are being brought in, until they are in or refused. */
export function cameFilesFolder(dataDir: string): string {
  return join(dataDir, 'private', 'came-files')
}

/** A workshop that is being taken in, until it is in or refused. */
export function takingInFolder(dataDir: string): string {
  return join(dataDir, 'private', 'taking-in')
}

/** Books of cars until they have been handed out. */
export function booksFolder(dataDir: string): string {
  return join(dataDir, 'private', 'books')
}

/** The key that code hashes are made with. A copy without it cannot be searched for people's codes. */
export function codeKeyPath(dataDir: string): string {
  return join(dataDir, 'private', 'code-key')
}

/** How far the journal has come on this computer. */
export function journalEndPath(dataDir: string): string {
  return join(dataDir, 'private', 'journal-end')
}

/** What the host had to report; without personal data beyond names, and in no copy. */
export function logsFolder(dataDir: string): string {
  return join(dataDir, 'private', 'logs')
}

/** Held by the running host. */
export function hostLockPath(dataDir: string): string {
  return join(dataDir, 'private', 'host-lock')
}

/** There while the program runs, and after a run that was cut off. */
export function runningMarkPath(dataDir: string): string {
  return join(dataDir, 'private', 'running')
}

/** What vouches for the host on the workshop's network: who has this file can pass for it. */
export function authorityKeyPath(dataDir: string): string {
  return join(dataDir, 'private', 'network', 'authority.pem')
}

/** The host's certificate of today and its key. */
export function hostCertificatePath(dataDir: string): string {
  return join(dataDir, 'private', 'network', 'host.pem')
}

/** A database that is being copied or verified, until that is done: what is sealed lies nowhere else as it is. */
export function copyingFolder(dataDir: string): string {
  return join(dataDir, 'private', 'copying')
}

/** Held while a copy is made or verified. */
export function copyLockPath(dataDir: string): string {
  return join(dataDir, 'private', 'copy-lock')
}

/** What seals copies: kept so that they can be made without asking for the passphrase, and in none of them. */
export function copyKeyPath(dataDir: string): string {
  return join(dataDir, 'private', 'copy-key')
}

/** The database as it stood before a newer program changed its tables. */
export function beforeMigrationFolder(dataDir: string): string {
  return join(dataDir, 'before-migration')
}
