declare module 'psychrolib' {
  const psychrolib: {
    readonly SI: number
    SetUnitSystem(system: number): void
    /** Degrees C and a humidity of 0 to 1 to degrees C. */
    GetTDewPointFromRelHum(airC: number, humidity: number): number
  }
  export default psychrolib
}
