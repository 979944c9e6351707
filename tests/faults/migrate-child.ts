/*
 * Brings the database of a folder up to date and one step further, which never ends: argv is the folder and the number of steps
 * before it. Killed in the middle of it by a test.
 */
import process from 'node:process'
import { databasePath, hostLockPath } from '../../db/data-paths.ts'
import { openWriter } from '../../db/handle.ts'
import { claimFolder } from '../../db/host-lock.ts'
import { migrate, readMigrations } from '../../db/migrate.ts'

const [dataDir = '', steps = ''] = process.argv.slice(2)
claimFolder(hostLockPath(dataDir))
const writer = openWriter(databasePath(dataDir))
// What is written goes to the file at once, so that the kill comes in the middle of it.
writer.sqlite.pragma('cache_size = 10')
const done = readMigrations().slice(0, Number(steps))
const sql = `CREATE TABLE endless AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT i, hex(randomblob(200)) AS x FROM n`
migrate(writer, [...done, { version: done.length + 1, name: 'endless', sql }])
