import type { Context } from 'hono'
import { contactBook } from '../../db/contacts.ts'
import { readReport } from '../../db/report-files.ts'
import { reportRow } from '../../db/report-rows.ts'
import { readCar, readWorkshop } from '../../db/reads.ts'
import type { CarState, IssuedReport } from '../../domain/car.ts'
import { languages } from '../../domain/language/languages.ts'
import { visitIdSchema, type PersonId } from '../../domain/ids.ts'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import { parseIsoWeek } from '../../domain/time/iso-week.ts'
import { answerJson } from './answer-json.ts'
import type { ApiServices } from './api-services.ts'
import type { ApiDeps, MailAddress, MailLetter } from './deps.ts'
import { refused } from './guard.ts'
import { signedInManager } from './manager-here.ts'
import type { Asker } from './pairing.ts'
import type { ReportDesk } from './report-desk.ts'
import { lostReport, unknownReport } from './reports.ts'
import { savedAs } from './saved-as.ts'

/**
 * `GET /report-preview/VISIT/WEEK.html`: the week as it would be issued now, as one file for a phone; `WEEK.json`: all that it
 * says, as data, photos by their SHA-256.
 */
export async function serveDraftPage(
  c: Context,
  asked: { readonly visit: string; readonly week: string; readonly as: 'html' | 'json' },
  services: ApiServices,
  desk: ReportDesk,
  asker: Asker,
): Promise<Response> {
  const { deps } = services
  const manager = signedInManager(services, asker)
  if (!manager.ok) return refused(c, 403, manager.refusal)
  const visitId = visitIdSchema.safeParse(asked.visit)
  const week = parseIsoWeek(asked.week)
  if (!visitId.success) return refused(c, 404, unknownReport)
  if (!week.ok) return refused(c, 404, week.refusal)
  const found = desk.content({ visitId: visitId.data, week: week.value })
  if (!found.ok) return refused(c, 404, found.refusal)
  const { car, content } = found.value
  const name = `${asked.week} ${car.shellNumber} not issued`
  if (asked.as === 'json') return answerJson(c, content, name)
  const page = await deps.reportExports.toHtml(content, { kind: 'draft' })
  // No policy of its own: the usual one lets the file load and run nothing.
  return c.body(page, 200, savedAs(`${name}.html`, 'text/html; charset=utf-8'))
}

/** `GET /reports/ID.eml`: an issued report in an e-mail to its owner that is not sent yet. */
export async function serveMail(
  c: Context,
  reportId: string,
  services: ApiServices,
  asker: Asker,
): Promise<Response> {
  const { deps } = services
  const manager = signedInManager(services, asker)
  if (!manager.ok) return refused(c, 403, manager.refusal)
  const found = findIssued(deps, reportId)
  if (found === null) return refused(c, 404, unknownReport)
  const { car, report } = found
  const to = ownerAddress(deps, found)
  if (!to.ok) return refused(c, 422, to.refusal)
  const pdf = await readReport(deps.reportsFolder, 'pdf', report.sha256)
  if (pdf === null) return refused(c, 404, lostReport)
  const letter = letterOf(deps, report, { to: to.value, from: senderAddress(deps, manager.value), pdf })
  const mail = await deps.reportExports.toMail(letter)
  return c.body(mail, 200, savedAs(`${report.week} ${car.shellNumber}.eml`, 'message/rfc822'))
}

interface Issued {
  readonly car: CarState
  readonly report: IssuedReport
}

function findIssued({ db }: ApiDeps, reportId: string): Issued | null {
  const row = reportRow(db, reportId)
  const car = row === null ? null : readCar(db, row.carId)
  const report = row === null ? undefined : car?.reports.get(row.id)
  return car === null || report === undefined ? null : { car, report }
}

function ownerAddress({ db }: ApiDeps, { car, report }: Issued): Result<MailAddress> {
  const ownerId = car.visits.get(report.visitId)?.ownerId
  const contact = ownerId === undefined ? null : contactBook(db).contactOf(ownerId)
  return contact === null || contact.email === ''
    ? noAddress
    : ok({ name: contact.name, address: contact.email })
}

/** The workshop, at the address of the manager who writes; null where the contact book has none. */
function senderAddress({ db }: ApiDeps, manager: PersonId): MailAddress | null {
  const address = contactBook(db).contactOf(manager)?.email ?? ''
  return address === '' ? null : { name: readWorkshop(db).name, address }
}

function letterOf(
  { db, now }: ApiDeps,
  { title, choices }: IssuedReport,
  parts: Pick<MailLetter, 'to' | 'from' | 'pdf'>,
): MailLetter {
  const workshop = readWorkshop(db).name
  const { mail } = languages[choices.language]
  return {
    ...parts,
    subject: mail.subject(title, workshop),
    paragraphs: [...mail.paragraphs(parts.to.name, title), workshop],
    date: now(),
    pdfName: title,
  }
}

const noAddress = refuse(
  'not-now',
  'The owner of this car has no e-mail address in the contact book.',
  'Enter the owner’s e-mail address on the Workshop screen under Contacts.',
)
