import { z } from 'zod'
import { readWorkshop } from '../../db/reads.ts'
import { readSetting } from '../../db/settings.ts'
import type { CopyWarning } from '../../domain/copies/copy-age.ts'
import { copyScheduleSchema } from '../../domain/copies/copy-schedule.ts'
import { copiesSetSchema } from '../../domain/copies/copy-settings.ts'
import { passphraseSchema } from '../../domain/copies/passphrase.ts'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import type { ApiServices } from './api-services.ts'
import type { CopiesState, CopyThere, FoundWorkshop } from './copies-desk.ts'
import { folderSchema } from './folder-schema.ts'
import { isManagerHere } from './manager-here.ts'
import type { Asker } from './pairing.ts'
import { procedure } from './trpc.ts'

const stampSchema = z
  .string()
  .max(40)
  .regex(/^\d{4}-\d{2}-\d{2}T\d{2}-\d{2}-\d{2}Z$/)
const setSchema = z.strictObject({
  folder: folderSchema,
  schedule: copyScheduleSchema.nullable(),
  warnAfterDays: copiesSetSchema.shape.warnAfterDays,
  passphrase: z.union([passphraseSchema, z.null(), z.strictObject({ kind: z.literal('as before') })]),
})
const verifySchema = z.strictObject({ stamp: stampSchema, passphrase: z.string().max(200).nullable() })
const restoreSchema = z.strictObject({
  folder: folderSchema,
  stamp: stampSchema,
  passphrase: z.string().max(200).nullable(),
})

/** Copies of the workshop: how they stand, making them, and going on from one in an empty data folder. */
export function createCopiesProcedures(services: ApiServices) {
  const { deps, revisions } = services
  const { copies } = deps
  const mayRestore = ({ isHostsOwn }: Asker): Result<true> => {
    if (!isHostsOwn) return notHere
    return readWorkshop(deps.db).setUp ? setUpAlready : ok(true)
  }
  return {
    copies: procedure.query((): CopiesState => copies.state()),

    /** What lies in the folder for copies; asked for apart, as a disk may answer late or not at all. */
    copiesThere: procedure.query((): Promise<Result<readonly CopyThere[]>> => copies.list()),

    /** For managers, and on the host's own window, where copies are set; null for everybody else. A demo may go unsaid. */
    copiesWarning: procedure.query(({ ctx }): CopyWarning | null => {
      const isFor = ctx.asker.isHostsOwn || isManagerHere(services, ctx.asker)
      if (!isFor || !readWorkshop(deps.db).setUp) return null
      const { set, warning } = copies.state()
      return set === null && readSetting(deps.db, 'demo') !== null ? null : warning
    }),

    setCopies: procedure.input(setSchema).mutation(async ({ input, ctx }): Promise<Result<true>> => {
      return ctx.asker.isHostsOwn ? copies.set(input) : notHere
    }),

    makeCopy: procedure.mutation((): Result<true> => copies.start()),

    verifyCopy: procedure
      .input(verifySchema)
      .mutation(({ input: { stamp, passphrase }, ctx }): Result<true> => {
        // Passphrases are typed where they are set, and go over no network.
        if (passphrase !== null && !ctx.asker.isHostsOwn) return notHere
        return copies.verify(stamp, passphrase)
      }),

    stopCopy: procedure.mutation((): Result<true> => {
      copies.stop()
      return ok(true)
    }),

    restoreRead: procedure.mutation((): Result<true> => copies.restoreRead()),

    /** Reading another folder of this computer is for who sits at it, before there is a workshop. */
    copiesIn: procedure
      .input(z.strictObject({ folder: folderSchema }))
      .query(async ({ input, ctx }): Promise<Result<readonly FoundWorkshop[]>> => {
        const allowed = mayRestore(ctx.asker)
        return allowed.ok ? copies.found(input.folder) : allowed
      }),

    restoreCopy: procedure.input(restoreSchema).mutation(async ({ input, ctx }): Promise<Result<string>> => {
      const allowed = mayRestore(ctx.asker)
      if (!allowed.ok) return allowed
      const restored = await copies.restore(input)
      if (restored.ok) revisions.announce(false)
      return restored
    }),

    /** What is done now with a copy that is being restored; null when none is. */
    restoring: procedure.query((): string | null => copies.restoring()),

    stopRestoring: procedure.mutation(({ ctx }): Result<true> => {
      if (!ctx.asker.isHostsOwn) return notHere
      copies.stopRestoring()
      return ok(true)
    }),
  }
}

const notHere = refuse(
  'not-allowed',
  'Folders and passphrases of copies are given, and copies restored, on the computer that Panelwright runs on.',
  'Open its own window there.',
)
const setUpAlready = refuse(
  'already',
  'There is a workshop in this data folder.',
  'Start Panelwright with an empty --data folder and restore the copy there.',
)
