/**
 * What a one-sided forecast costs when the value is known: each unit above it `probability`, each below it the rest (Koenker &
 * Bassett 1978). Its mean is least for the forecast that is not exceeded with that probability; in the units of the value.
 */
export function pinballLoss(value: number, forecast: number, probability: number): number {
  return value >= forecast ? probability * (value - forecast) : (1 - probability) * (forecast - value)
}
