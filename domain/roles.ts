import type { CommandKind } from './commands/command-shapes.ts'
import type { Role } from './facts/workshop-facts.ts'

/**
 * How sure the host must be of who acts.
 * 'code': the person's own code comes with the command, for everything that is signed.
 * 'session': the person gave their code on this device and has not left it since.
 * 'named': the person chosen on a paired device; the device answers for the workshop.
 * 'first': only while the workshop has no people, and only from the host's own window.
 */
export type Proof = 'code' | 'session' | 'named' | 'first'

export interface Permission {
  readonly roles: readonly Role[]
  readonly proof: Proof
}

const manager = (proof: Proof): Permission => ({ roles: ['manager'], proof })
const anyone = (proof: Proof): Permission => ({ roles: ['manager', 'technician'], proof })

/** The one table of what each role may do. */
export const permissions: Readonly<Record<CommandKind, Permission>> = {
  setUpWorkshop: manager('first'),
  addPerson: manager('session'),
  changePerson: manager('session'),
  setCode: anyone('code'),
  addParty: manager('session'),
  changeContact: manager('session'),
  eraseContact: manager('code'),
  addBay: manager('session'),
  changeBay: manager('session'),
  setCalendar: manager('session'),
  changeSettings: manager('session'),
  setReports: manager('session'),
  setRates: manager('session'),
  saveType: manager('session'),
  retireType: manager('session'),

  addCar: manager('session'),
  changeCar: manager('session'),
  openVisit: manager('session'),
  changeVisit: manager('session'),
  setVisitStatus: manager('session'),
  setSafety: anyone('named'),
  addDimension: anyone('named'),
  setDimensionTarget: manager('session'),
  readDimension: anyone('named'),
  addNote: anyone('named'),

  addRepair: manager('session'),
  takeHours: manager('session'),
  changeRepair: manager('session'),
  applyType: manager('session'),
  retireRepair: manager('code'),
  splitRepair: manager('code'),
  mergeRepairs: manager('code'),
  linkCover: manager('session'),
  unlinkCover: manager('code'),
  setFitGroup: manager('session'),
  dissolveFitGroup: manager('session'),
  addTask: manager('session'),
  changeTask: manager('session'),

  passGate: anyone('code'),
  markNotNeeded: manager('code'),
  reopenGate: manager('code'),
  releaseHold: manager('code'),
  askRelease: anyone('named'),
  setHold: manager('session'),
  clearHold: manager('session'),
  liftSupport: manager('code'),
  signTask: anyone('code'),
  markTaskNotNeeded: manager('code'),
  reopenTask: manager('code'),
  voidFact: manager('code'),

  attachPhoto: anyone('named'),
  setCaption: anyone('named'),
  setPhotoShows: anyone('named'),
  markPhoto: anyone('named'),
  gradeOutside: anyone('named'),
  gradeLayer: anyone('named'),
  markLayers: anyone('named'),
  addFinding: anyone('named'),
  readConditions: anyone('named'),
  checkDrains: anyone('named'),
  countWelds: anyone('named'),
  recordFitUp: anyone('named'),
  prepareSurface: anyone('named'),
  needPart: anyone('named'),
  movePart: anyone('named'),

  setEstimate: manager('session'),
  setCosts: manager('session'),
  takeCostOff: manager('session'),
  acceptEstimate: manager('code'),
  reviewEstimate: manager('session'),
  raiseVariation: manager('session'),
  decideVariation: manager('code'),
  settleDeclined: manager('code'),
  closeAsFound: manager('code'),
  spendCost: manager('session'),
  issueReport: manager('session'),

  startClock: anyone('named'),
  stopClock: anyone('named'),
  confirmClock: anyone('named'),
  logTime: anyone('named'),
  correctTime: anyone('named'),
  completeWatch: anyone('named'),

  bookBay: manager('session'),
  changeBooking: manager('session'),
  cancelBooking: manager('session'),
  moveShell: manager('session'),
  sendAway: manager('session'),
  bringBack: manager('session'),

  pinWork: manager('session'),
  unpinWork: manager('session'),
  sayLeft: anyone('named'),
  expectDecision: manager('session'),
  planFixture: manager('session'),
  setPlanning: manager('session'),
  setFixtures: manager('session'),
  setOvertime: manager('session'),
  cancelOvertime: manager('session'),
  takePlan: manager('session'),
}
