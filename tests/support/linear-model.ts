import loadHighs from 'highs'

/** A term of a row or of the objective: a factor times a column. */
export type Term = readonly [factor: number, column: number]

/** Columns and rows of a mixed-integer model, gathered one by one. */
export interface LinearModel {
  /** A new column from 0 to `upper`; whole numbers only where `isWhole`. */
  readonly column: (isWhole: boolean, upper: number) => number
  /** Demands least <= sum of terms <= most. A column may come up more than once. */
  readonly row: (least: number, terms: readonly Term[], most: number) => void
  /**
   * Minimises the objectives one after the other, each with the earlier ones held at their least. Null when nothing
   * fulfils all rows; 'unproven' when `nodes` branches were not enough to prove one of the optima.
   */
  readonly minimise: (
    objectives: readonly (readonly Term[])[],
    nodes: number,
  ) => { readonly least: readonly number[]; readonly values: readonly number[] } | null | 'unproven'
}

const highs = await loadHighs()
const { modelStatus, variableType } = highs.constants

export function createLinearModel(): LinearModel {
  const uppers: number[] = []
  const types: number[] = []
  const lowest: number[] = []
  const highest: number[] = []
  const starts: number[] = [0]
  const indices: number[] = []
  const values: number[] = []

  const data = () => ({
    numCols: uppers.length,
    numRows: lowest.length,
    colCost: uppers.map(() => 0),
    colLower: uppers.map(() => 0),
    colUpper: uppers,
    rowLower: lowest,
    rowUpper: highest,
    integrality: Int32Array.from(types),
    matrix: {
      format: 'csr' as const,
      numRows: lowest.length,
      numCols: uppers.length,
      starts: Int32Array.from(starts),
      indices: Int32Array.from(indices),
      values: Float64Array.from(values),
    },
  })

  return {
    column: (isWhole, upper) => {
      types.push(isWhole ? variableType.integer : variableType.continuous)
      return uppers.push(upper) - 1
    },
    row: (least, terms, most) => {
      for (const [column, factor] of summed(terms)) {
        indices.push(column)
        values.push(factor)
      }
      starts.push(indices.length)
      lowest.push(least)
      highest.push(most)
    },
    minimise: (objectives, nodes) =>
      highs.withModel((model) => {
        model.passModel(data())
        // The objectives are whole numbers: a bound within less than one of the best found proves it.
        model.options.set({ output_flag: false, mip_rel_gap: 0, mip_abs_gap: 0.99, mip_max_nodes: nodes })
        const least: number[] = []
        let best: Float64Array = new Float64Array(0)
        for (const objective of objectives) {
          if (objective.length === 0) {
            least.push(0)
            continue
          }
          const terms = [...summed(objective)]
          uppers.forEach((_, column) => model.changeColCost(column, 0))
          for (const [column, factor] of terms) model.changeColCost(column, factor)
          if (best.length > 0) model.setSolution({ colValue: best })
          model.run()
          const status = model.getModelStatus()
          if (status === modelStatus.infeasible) return null
          if (status !== modelStatus.optimal) return 'unproven'
          const found = Math.round(model.getObjectiveValue())
          least.push(found)
          best = model.getSolution().colValue
          model.addRow(-highs.infinity, found, {
            indices: terms.map(([column]) => column),
            values: terms.map(([, factor]) => factor),
          })
        }
        return { least, values: Array.from(best) }
      }),
  }
}

const summed = (terms: readonly Term[]): ReadonlyMap<number, number> => {
  const factors = new Map<number, number>()
  for (const [factor, column] of terms) factors.set(column, (factors.get(column) ?? 0) + factor)
  return factors
}
