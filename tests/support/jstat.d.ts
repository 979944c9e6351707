declare module 'jstat' {
  const jstat: {
    readonly jStat: {
      readonly beta: {
        cdf(x: number, alpha: number, beta: number): number
        inv(probability: number, alpha: number, beta: number): number
      }
      readonly normal: {
        cdf(x: number, mean: number, deviation: number): number
        inv(probability: number, mean: number, deviation: number): number
      }
    }
  }
  export default jstat
}
