/** All in one unit, hours or money. */
export interface ValueInputs {
  /** BAC: the whole authorised work. */
  readonly budgetAtCompletion: number
  /** PV: what was planned to be done by now. */
  readonly plannedValue: number
  /** EV: what is done, at its authorised value. */
  readonly earnedValue: number
  /** AC: what it took. */
  readonly actualCost: number
}

/** The published figures of earned value; null is undefined (a division by zero), never NaN or infinity. */
export interface EarnedValue {
  /** CV = EV - AC */
  readonly costVariance: number
  /** SV = EV - PV */
  readonly scheduleVariance: number
  /** CPI = EV / AC */
  readonly costPerformanceIndex: number | null
  /** SPI = EV / PV */
  readonly schedulePerformanceIndex: number | null
  /** TCPI = (BAC - EV) / (BAC - AC); null too when the budget is overspent, as no pace keeps it then. */
  readonly toCompletePerformanceIndex: number | null
  /** EAC = AC + (BAC - EV): the rest goes as estimated. */
  readonly asEstimated: ValueForecast
  /** EAC = BAC / CPI: the rest goes as the work so far. */
  readonly asSoFar: ValueForecast | null
  /** EAC = AC + (BAC - EV) / (CPI x SPI): lateness costs as well. */
  readonly asSoFarAndLate: ValueForecast | null
}

export interface ValueForecast {
  /** EAC */
  readonly estimateAtCompletion: number
  /** ETC = EAC - AC */
  readonly estimateToComplete: number
  /** VAC = BAC - EAC */
  readonly varianceAtCompletion: number
}

export function earnedValue(inputs: ValueInputs): EarnedValue {
  const { budgetAtCompletion: bac, plannedValue: pv, earnedValue: ev, actualCost: ac } = inputs
  const cpi = ratio(ev, ac)
  const spi = ratio(ev, pv)
  const left = bac - ev
  const slowed = cpi === null || spi === null ? null : ratio(left, cpi * spi)
  return {
    costVariance: ev - ac,
    scheduleVariance: ev - pv,
    costPerformanceIndex: cpi,
    schedulePerformanceIndex: spi,
    toCompletePerformanceIndex: bac > ac ? ratio(left, bac - ac) : null,
    asEstimated: forecast(ac + left, inputs),
    asSoFar: forecastOrNull(cpi === null ? null : ratio(bac, cpi), inputs),
    asSoFarAndLate: forecastOrNull(slowed === null ? null : ac + slowed, inputs),
  }
}

export interface ScheduleInputs {
  /** Cumulative PV at the end of each period of the plan (a week, a day), the first period first. */
  readonly plannedValues: readonly number[]
  /** EV now. */
  readonly earnedValue: number
  /** AT: periods gone by since the plan's start. */
  readonly actualTime: number
}

/** Earned schedule in periods of the plan; null is undefined. */
export interface EarnedSchedule {
  /** PD: the first period at whose end the whole planned value is reached. */
  readonly plannedDuration: number
  /** ES: the time at which the plan would have earned as much. */
  readonly earnedSchedule: number
  /** SV(t) = ES - AT */
  readonly scheduleVariance: number
  /** SPI(t) = ES / AT */
  readonly schedulePerformanceIndex: number | null
  /** IEAC(t) = PD / SPI(t) */
  readonly estimateAtCompletion: number | null
}

/**
 * Earned schedule (Lipke 2003): ES = C + (EV - PV_C) / (PV_C+1 - PV_C), where C counts the periods from the start whose
 * PV has been earned. It stops at the planned duration. Null for a plan without value.
 */
export function earnedSchedule({
  plannedValues,
  earnedValue: ev,
  actualTime,
}: ScheduleInputs): EarnedSchedule | null {
  const whole = plannedValues.at(-1) ?? 0
  if (!(whole > 0)) return null
  const plannedDuration = plannedValues.findIndex((pv) => pv >= whole) + 1
  const es = Math.min(plannedDuration, earnedTime(plannedValues, ev))
  const spi = ratio(es, actualTime)
  return {
    plannedDuration,
    earnedSchedule: es,
    scheduleVariance: es - actualTime,
    schedulePerformanceIndex: spi,
    estimateAtCompletion: spi === null ? null : ratio(plannedDuration, spi),
  }
}

function earnedTime(plannedValues: readonly number[], ev: number): number {
  const unearned = plannedValues.findIndex((pv) => pv > ev)
  const next = plannedValues[unearned]
  if (next === undefined) return plannedValues.length
  const before = plannedValues[unearned - 1] ?? 0
  return unearned + Math.max(0, (ev - before) / (next - before))
}

function forecastOrNull(eac: number | null, inputs: ValueInputs): ValueForecast | null {
  return eac === null ? null : forecast(eac, inputs)
}

function forecast(eac: number, { budgetAtCompletion, actualCost }: ValueInputs): ValueForecast {
  return {
    estimateAtCompletion: eac,
    estimateToComplete: eac - actualCost,
    varianceAtCompletion: budgetAtCompletion - eac,
  }
}

/** Null where the quotient is undefined or too large for a number. */
function ratio(part: number, whole: number): number | null {
  if (whole === 0) return null
  const quotient = part / whole
  return Number.isFinite(quotient) ? quotient : null
}
