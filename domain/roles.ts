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

/** The table of what each role may do: its first part, the commands. */
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

/** Who may make a call: everybody on a paired device, or a manager who is signed in on it. */
export type Caller = 'everybody' | { readonly managersOnly: string }

const managers = (managersOnly: string): Caller => ({ managersOnly })
const deed = managers(
  'Only a manager who is signed in on this device may do this; a session ends after 30 minutes without use.',
)
const money = managers('Figures of money are shown to managers only.')
const check = managers('Only managers check the workshop’s folder.')
const copies = managers('Only managers see the copies of the workshop.')
const contacts = managers('Only managers see and erase contacts.')

/** The second part: what is shown, and what is done to the program itself. What nobody has put here is for managers. */
export const calls = {
  session: 'everybody',
  workshop: 'everybody',
  catalogue: 'everybody',
  typeUse: 'everybody',
  shopFloor: 'everybody',
  cars: 'everybody',
  car: 'everybody',
  repair: 'everybody',
  daySheet: 'everybody',
  ownerDecisions: 'everybody',
  record: 'everybody',
  // Names and words that the screens show to everybody.
  find: 'everybody',
  ownerReports: 'everybody',
  plan: 'everybody',
  planHistory: 'everybody',
  beyondAgreed: 'everybody',
  variationDraft: 'everybody',
  estimate: 'everybody',
  hoursSheet: 'everybody',
  variance: 'everybody',
  varianceDrill: 'everybody',
  varianceWork: 'everybody',
  varianceEntries: 'everybody',
  varianceCurves: 'everybody',
  hoursProposal: 'everybody',
  wereWeRight: 'everybody',
  revisions: 'everybody',
  // The table of permissions says it for each kind; the code for signing in.
  command: 'everybody',
  signIn: 'everybody',
  signOut: 'everybody',
  cardProposal: 'everybody',
  cardPhotoKnown: 'everybody',
  // Of what a manager has begun: only who began it knows the random id.
  carFileProgress: 'everybody',
  stopCarFile: 'everybody',
  bringInProgress: 'everybody',
  dropCameFile: 'everybody',
  // Of the host's own window, before there is a workshop.
  startDemo: 'everybody',
  demoProgress: 'everybody',
  takingIn: 'everybody',
  copiesIn: 'everybody',
  restoreCopy: 'everybody',
  restoring: 'everybody',
  stopRestoring: 'everybody',
  // Answers nothing but to managers and the host's own window.
  copiesWarning: 'everybody',

  carMoney: money,
  rates: money,
  wholeWorkshop: managers('Only managers take the whole workshop out.'),
  check,
  startCheck: deed,
  stopCheck: deed,
  mendChecked: deed,
  devices: managers('Devices are shown to managers only.'),
  network: managers('Only managers see how tablets reach Panelwright.'),
  copies,
  copiesThere: copies,
  setCopies: deed,
  makeCopy: deed,
  verifyCopy: deed,
  restoreRead: deed,
  erased: contacts,
  erasing: contacts,
  stopCopy: deed,
  openNetwork: deed,
  closeNetwork: deed,
  updates: managers('Only managers see whether there is a newer version.'),
  setUpdates: deed,
  lookForUpdate: deed,
  pairingCode: deed,
  renameDevice: deed,
  shutOutDevice: deed,
  draftReport: deed,
  prepareReport: deed,
  issueReport: deed,
  tryWhatIf: deed,
  importPreview: deed,
  importCommit: deed,
  bringInCar: deed,
} as const satisfies Readonly<Record<string, Caller>>

/** @param name of a call */
export const callerOf = (name: string): Caller => (isCall(name) ? calls[name] : deed)

const isCall = (name: string): name is keyof typeof calls => Object.hasOwn(calls, name)
