import { z } from 'zod'
import { LEAST_DIGITS, LEAST_DIGITS_OF_MANAGER, MOST_DIGITS } from './code-digits.ts'
import { agreementFacts } from '../facts/agreement-facts.ts'
import { carFacts } from '../facts/car-facts.ts'
import { moneyFacts, workshopMoneyFacts } from '../facts/money-facts.ts'
import { placeFacts } from '../facts/place-facts.ts'
import { carPlanFacts, workshopPlanFacts } from '../facts/plan-facts.ts'
import { workshopReportFacts } from '../facts/reports-facts.ts'
import { nameSchema, optionalNoteSchema, sha256Schema } from '../facts/shapes.ts'
import { loggedOnSchema, timeFacts } from '../facts/time-facts.ts'
import { workFacts } from '../facts/work-facts.ts'
import { workshopFacts } from '../facts/workshop-facts.ts'
import { gateSchema } from '../gates.ts'
import {
  carIdSchema,
  commandIdSchema,
  entryIdSchema,
  partyIdSchema,
  personIdSchema,
  repairIdSchema,
} from '../ids.ts'

/** Kept in the contact book under the person's or party's id, never in a payload. */
export const contactSchema = z.strictObject({
  name: nameSchema,
  phone: z.string().max(60),
  email: z.union([z.literal(''), z.email('This e-mail address is not complete.')]),
  address: z.string().max(500),
})

const digitsSchema = (whose: string, least: number) =>
  z
    .string()
    .regex(new RegExp(`^\\d{${least},${MOST_DIGITS}}$`), `${whose} has ${least} to ${MOST_DIGITS} digits.`)

export const codeSchema = digitsSchema('A code', LEAST_DIGITS)

const managerCodeSchema = digitsSchema("A manager's code", LEAST_DIGITS_OF_MANAGER)
const ownName = { contact: contactSchema }

/** The payload of every command. Most commands record one fact of the same shape; the rest say what they add. */
export const commandShapes = {
  setUpWorkshop: workshopFacts.workshopSetUp.extend({
    managerId: personIdSchema,
    manager: contactSchema,
    code: managerCodeSchema,
    skills: z.array(nameSchema).max(20),
    /** Start with the catalogue of repair types and the usual bays. */
    withCatalogue: z.boolean(),
  }),
  addPerson: workshopFacts.personAdded.extend({ ...ownName, code: codeSchema }),
  changePerson: workshopFacts.personChanged.extend({
    ...ownName,
    /** Of one who becomes a manager. */
    newCode: codeSchema.optional(),
  }),
  /** Sets another code: one's own with the code in the envelope, another person's by a manager. */
  setCode: z.strictObject({ personId: personIdSchema, newCode: codeSchema }),
  addParty: workshopFacts.partyAdded.extend(ownName),
  changeContact: z.strictObject({ id: z.union([personIdSchema, partyIdSchema]), contact: contactSchema }),
  eraseContact: workshopFacts.contactErased,
  addBay: workshopFacts.bayAdded,
  changeBay: workshopFacts.bayChanged,
  setCalendar: workshopFacts.calendarSet,
  changeSettings: workshopFacts.settingsSet,
  setReports: workshopReportFacts.reportsSet,
  setRates: workshopMoneyFacts.ratesSet,
  saveType: workshopFacts.typeSaved.omit({ version: true }),
  retireType: workshopFacts.typeRetired,

  addCar: carFacts.carAdded.extend({
    visit: carFacts.visitOpened,
    photo: z
      .strictObject({
        attachmentId: workFacts.photoAttached.shape.attachmentId,
        sha256: sha256Schema,
        taken: workFacts.photoAttached.shape.taken,
      })
      .nullable(),
  }),
  changeCar: carFacts.carChanged,
  openVisit: carFacts.visitOpened,
  changeVisit: carFacts.visitChanged,
  setVisitStatus: carFacts.visitStatusSet,
  setSafety: carFacts.safetySet,
  addDimension: carFacts.dimensionAdded,
  setDimensionTarget: carFacts.dimensionTargetSet,
  readDimension: carFacts.dimensionRead,
  addNote: carFacts.noted,

  /** Estimate lines for every gate that has hours are made with it; their ids derive from the repair's. */
  addRepair: carFacts.repairAdded.extend({
    covers: z.array(repairIdSchema).max(40),
    coveredBy: z.array(repairIdSchema).max(40),
  }),
  takeHours: carFacts.hoursTaken,
  changeRepair: carFacts.repairChanged,
  /** Brings a newer version of their type to the picked repairs, on gates not passed. */
  applyType: z.strictObject({ repairIds: z.array(repairIdSchema).min(1).max(200) }),
  retireRepair: carFacts.repairRetired,
  splitRepair: carFacts.repairSplit.omit({ moves: true }),
  mergeRepairs: carFacts.repairsMerged.omit({ moves: true }),
  linkCover: carFacts.coverLinked,
  unlinkCover: carFacts.coverUnlinked,
  setFitGroup: carFacts.fitGroupSet,
  dissolveFitGroup: carFacts.fitGroupDissolved,
  addTask: carFacts.taskAdded,
  changeTask: carFacts.taskChanged,

  /** One act may pass the same gate on several repairs of a car. */
  passGate: z.strictObject({
    repairIds: z.array(repairIdSchema).min(1).max(60),
    gate: gateSchema,
    did: workFacts.gatePassed.shape.did,
    coat: workFacts.gatePassed.shape.coat,
    note: optionalNoteSchema,
  }),
  markNotNeeded: workFacts.gateNotNeeded,
  reopenGate: workFacts.gateReopened,
  releaseHold: workFacts.holdReleased.omit({ ownHold: true }),
  askRelease: workFacts.releaseAsked,
  setHold: workFacts.holdSet,
  clearHold: workFacts.holdCleared,
  liftSupport: workFacts.supportLifted,
  signTask: workFacts.taskSigned,
  markTaskNotNeeded: workFacts.taskNotNeeded,
  reopenTask: workFacts.taskReopened,
  voidFact: workFacts.factVoided,

  attachPhoto: workFacts.photoAttached,
  setCaption: workFacts.captionSet,
  setPhotoShows: workFacts.photoShowsSet,
  markPhoto: workFacts.photoMarked,
  gradeOutside: workFacts.outsideGraded,
  gradeLayer: workFacts.layerGraded,
  markLayers: workFacts.layersMarked,
  addFinding: workFacts.findingAdded,
  readConditions: workFacts.conditionsRead,
  checkDrains: workFacts.drainsChecked,
  countWelds: workFacts.weldsCounted,
  recordFitUp: workFacts.fitUpRecorded,
  prepareSurface: workFacts.surfacePrepared,
  needPart: workFacts.partNeeded,
  movePart: workFacts.partMoved,

  setEstimate: agreementFacts.estimateSet,
  setCosts: moneyFacts.costsSet,
  takeCostOff: moneyFacts.costTakenOff,
  acceptEstimate: agreementFacts.estimateAccepted,
  reviewEstimate: agreementFacts.estimateReviewed,
  raiseVariation: agreementFacts.variationRaised,
  decideVariation: agreementFacts.variationDecided,
  settleDeclined: agreementFacts.declinedSettled,
  closeAsFound: agreementFacts.closedAsFound,
  spendCost: moneyFacts.costSpent,
  /** Sent by the host after it has printed and stored the file. */
  issueReport: agreementFacts.reportIssued,

  startClock: z.strictObject({
    entryId: entryIdSchema,
    personId: personIdSchema,
    on: loggedOnSchema,
    hotWork: z.boolean(),
    cause: timeFacts.clockStarted.shape.cause,
  }),
  stopClock: timeFacts.clockStopped.omit({ end: true, countsTo: true, watchMinutes: true }),
  confirmClock: timeFacts.clockConfirmed,
  logTime: timeFacts.timeLogged.omit({ watchMinutes: true }),
  correctTime: timeFacts.timeCorrected,
  completeWatch: timeFacts.watchCompleted,

  bookBay: placeFacts.bayBooked,
  changeBooking: placeFacts.bookingChanged,
  cancelBooking: placeFacts.bookingCancelled,
  moveShell: placeFacts.shellMoved,
  sendAway: placeFacts.shellSentAway,
  bringBack: placeFacts.shellReturned,

  pinWork: carPlanFacts.workPinned,
  unpinWork: carPlanFacts.workUnpinned,
  sayLeft: carPlanFacts.leftSaid,
  expectDecision: carPlanFacts.decisionExpected,
  planFixture: carPlanFacts.fixturePlanned,
  setPlanning: workshopPlanFacts.planningSet,
  setFixtures: workshopPlanFacts.fixturesSet,
  setOvertime: workshopPlanFacts.overtimeSet,
  cancelOvertime: workshopPlanFacts.overtimeCancelled,
  /** The plan must be kept already; the fact takes its digest, cause and finishes from there. */
  takePlan: workshopPlanFacts.planTaken.pick({ planId: true }),
}

export type CommandKind = keyof typeof commandShapes
export type CommandPayload<K extends CommandKind> = z.infer<(typeof commandShapes)[K]>

/** Commands on the workshop itself; startClock, stopClock, logTime and the like go to either, by their `carId`. */
export const commandSchema = z.strictObject({
  id: commandIdSchema,
  kind: z.enum(Object.keys(commandShapes) as [CommandKind, ...CommandKind[]]),
  /** The car that the command is about; null for the workshop itself. */
  carId: carIdSchema.nullable(),
  /** The car's revision that the screen was showing, for edits that must not overwrite another's; null otherwise. */
  seen: z.int().min(0).nullable(),
  /** Who acts, as chosen on the device. */
  by: personIdSchema.nullable(),
  /** That person's own code, for what is signed. */
  code: codeSchema.nullable(),
  /** A second person's signature where the gate asks for one. */
  second: z.strictObject({ by: personIdSchema, code: codeSchema }).nullable(),
  /** When it happened, as stated; the host takes its own time when null. */
  happened: z.iso.datetime({ offset: true }).nullable(),
  /** The device's clock. */
  made: z.iso.datetime({ offset: true }),
  payload: z.unknown(),
})

export type Command = z.infer<typeof commandSchema>

export type TypedCommand<K extends CommandKind> = Omit<Command, 'kind' | 'payload'> & {
  readonly kind: K
  readonly payload: CommandPayload<K>
}
