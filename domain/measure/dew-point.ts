import { ok, refuse, type Result } from '../refusal.ts'
import { fixed } from '../text/words.ts'
import { asRead, type Judgement, judgementOf } from './judgement.ts'

export interface ConditionsReading {
  readonly airC: number
  /** Relative humidity, above 0 to 100. */
  readonly humidityPercent: number
  readonly steelC: number
}

export interface ConditionsLimits {
  /** Degrees C that the steel must be above the dew point: 3 as a rule (practice of ISO 8502-4). */
  readonly minMarginC: number
  readonly maxHumidityPercent: number | null
  readonly minAirC: number | null
  readonly maxAirC: number | null
}

/** Whether work may go on under a reading, and if not every reason. A reading out of bounds is a reason too. */
export function judgeConditions(reading: ConditionsReading, limits: ConditionsLimits): Judgement {
  const margin = steelMarginC(reading)
  if (!margin.ok) return judgementOf([margin.refusal.message])
  return judgementOf([
    ...marginProblems(margin.value, reading.steelC - margin.value, limits.minMarginC),
    ...humidityProblems(reading.humidityPercent, limits.maxHumidityPercent),
    ...airProblems(reading.airC, limits),
  ])
}

/**
 * Dew point in degrees C from air temperature in degrees C and relative humidity in percent: the Magnus formula over
 * water, solved for the temperature. Refused outside -45 to 60 degrees C and above 0 to 100 %.
 */
export function dewPointC(airC: number, relativeHumidityPercent: number): Result<number> {
  if (!isTemperature(airC)) return badTemperature('Air', airC)
  if (!(relativeHumidityPercent > 0 && relativeHumidityPercent <= 100)) {
    return refuse(
      'bad-input',
      `Relative humidity must be above 0 and at most 100 %, not ${shown(relativeHumidityPercent)} %.`,
      'Read the hygrometer again.',
    )
  }
  const gamma = Math.log(relativeHumidityPercent / 100) + (MAGNUS_B * airC) / (MAGNUS_C + airC)
  return ok((MAGNUS_C * gamma) / (MAGNUS_B - gamma))
}

/** Steel temperature minus dew point, degrees C. Refused outside the same bounds. */
export function steelMarginC(reading: ConditionsReading): Result<number> {
  const dewPoint = dewPointC(reading.airC, reading.humidityPercent)
  if (!dewPoint.ok) return dewPoint
  if (!isTemperature(reading.steelC)) return badTemperature('Steel', reading.steelC)
  return ok(reading.steelC - dewPoint.value)
}

/**
 * Saturation vapour pressure over water in Pa (Magnus). Refused outside -45 to 60 degrees C. No screen calls it: tests hold
 * the formula that the dew point is solved from to the published vapour pressures by it.
 */
export function saturationVapourPressurePa(tempC: number): Result<number> {
  if (!isTemperature(tempC)) return badTemperature('Air', tempC)
  return ok(MAGNUS_A_PA * Math.exp((MAGNUS_B * tempC) / (MAGNUS_C + tempC)))
}

/** Magnus formula over water, coefficients of Sonntag (1990) as in the WMO guide (WMO-No. 8), -45 to 60 degrees C. */
const MAGNUS_A_PA = 611.2
const MAGNUS_B = 17.62
const MAGNUS_C = 243.12
const LOWEST_C = -45
const HIGHEST_C = 60

/** Below what any thermometer shows; it keeps floating point from failing steel exactly at its limit. */
const NOISE = 1e-9

/**
 * The margin is shown rounded down and the dew point rounded up, so that a margin of 2.97 does not read 'is 3.0 above;
 * at least 3 is needed', and the two still add up to a steel temperature read in tenths.
 */
function marginProblems(margin: number, dewPoint: number, least: number): readonly string[] {
  if (margin + NOISE >= least) return []
  const tenths = Math.floor(margin * 10 + NOISE) / 10
  const standing =
    tenths < 0 ? `${fixed(-tenths, 1)} °C below` : tenths === 0 ? 'at' : `${fixed(tenths, 1)} °C above`
  const dew = fixed(Math.ceil(dewPoint * 10 - NOISE) / 10, 1)
  return [`steel is ${standing} the dew point (${dew} °C); at least ${asRead(least)} °C is needed`]
}

function humidityProblems(humidity: number, most: number | null): readonly string[] {
  if (most === null || humidity <= most) return []
  return [`relative humidity is ${shown(humidity)} %; at most ${shown(most)} % is allowed`]
}

function airProblems(airC: number, { minAirC, maxAirC }: ConditionsLimits): readonly string[] {
  if (minAirC !== null && airC < minAirC) {
    return [`air is ${shown(airC)} °C; at least ${shown(minAirC)} °C is needed`]
  }
  if (maxAirC !== null && airC > maxAirC) {
    return [`air is ${shown(airC)} °C; at most ${shown(maxAirC)} °C is allowed`]
  }
  return []
}

function isTemperature(tempC: number): boolean {
  return tempC >= LOWEST_C && tempC <= HIGHEST_C
}

function badTemperature(what: 'Air' | 'Steel', tempC: number): Result<never> {
  const message = `${what} temperature must be between ${LOWEST_C} and ${HIGHEST_C} °C, not ${shown(tempC)} °C.`
  return refuse('bad-input', message, 'Read the thermometer again.')
}

/** Every digit that was typed: readings are judged as they stand. */
function shown(value: number): string {
  return String(value)
}
