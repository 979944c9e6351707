import type { PlainProject } from './psplib.ts'

/** Small published projects with their answers. Dummies at the start and the end are kept as the sources have them. */

/** PSPLIB, set j30, instance 1_1 (Kolisch & Sprecher 1996): the optimum is 43, the critical path 38. */
export const J301_1: PlainProject = {
  durations: [
    0, 8, 4, 6, 3, 8, 5, 9, 2, 7, 9, 2, 6, 3, 9, 10, 6, 5, 3, 7, 2, 7, 2, 3, 3, 7, 8, 3, 7, 2, 2, 0,
  ],
  requests: [
    [0, 0, 0, 0],
    [4, 0, 0, 0],
    [10, 0, 0, 0],
    [0, 0, 0, 3],
    [3, 0, 0, 0],
    [0, 0, 0, 8],
    [4, 0, 0, 0],
    [0, 1, 0, 0],
    [6, 0, 0, 0],
    [0, 0, 0, 1],
    [0, 5, 0, 0],
    [0, 7, 0, 0],
    [4, 0, 0, 0],
    [0, 8, 0, 0],
    [3, 0, 0, 0],
    [0, 0, 0, 5],
    [0, 0, 0, 8],
    [0, 0, 0, 7],
    [0, 1, 0, 0],
    [0, 10, 0, 0],
    [0, 0, 0, 6],
    [2, 0, 0, 0],
    [3, 0, 0, 0],
    [0, 9, 0, 0],
    [4, 0, 0, 0],
    [0, 0, 4, 0],
    [0, 0, 0, 7],
    [0, 8, 0, 0],
    [0, 7, 0, 0],
    [0, 7, 0, 0],
    [0, 0, 2, 0],
    [0, 0, 0, 0],
  ],
  capacities: [12, 13, 4, 12],
  successors: [
    [1, 2, 3],
    [5, 10, 14],
    [6, 7, 12],
    [4, 8, 9],
    [19],
    [29],
    [26],
    [11, 18, 26],
    [13],
    [15, 24],
    [19, 25],
    [13],
    [16, 17],
    [16],
    [24],
    [20, 21],
    [21],
    [19, 21],
    [23, 28],
    [22, 24],
    [27],
    [22],
    [23],
    [29],
    [29],
    [30],
    [27],
    [30],
    [31],
    [31],
    [31],
    [],
  ],
}

/** Patterson's set, project 1 (Patterson 1984): the optimum is 19. */
export const PATTERSON_1: PlainProject = {
  durations: [0, 6, 4, 3, 1, 6, 2, 1, 4, 3, 2, 3, 5, 0],
  requests: [
    [0, 0, 0],
    [1, 0, 0],
    [0, 0, 0],
    [0, 0, 0],
    [0, 0, 0],
    [1, 0, 1],
    [1, 0, 0],
    [0, 0, 0],
    [0, 1, 1],
    [0, 0, 1],
    [0, 0, 1],
    [0, 1, 0],
    [0, 0, 0],
    [0, 0, 0],
  ],
  capacities: [2, 1, 2],
  successors: [
    [1, 2, 3],
    [8, 9],
    [4, 5, 6],
    [7, 10],
    [9],
    [11],
    [7, 10],
    [12],
    [13],
    [11],
    [11],
    [12],
    [13],
    [],
  ],
}

/**
 * Job shop ft06 (Fisher & Thompson 1963): six jobs of six operations in a row, each on a machine for a time; one at a time
 * on a machine. The optimum is 55. Rows are machine, duration by operation.
 */
const FT06_ROWS = [
  [2, 1, 0, 3, 1, 6, 3, 7, 5, 3, 4, 6],
  [1, 8, 2, 5, 4, 10, 5, 10, 0, 10, 3, 4],
  [2, 5, 3, 4, 5, 8, 0, 9, 1, 1, 4, 7],
  [1, 5, 0, 5, 2, 5, 3, 3, 4, 8, 5, 9],
  [2, 9, 1, 3, 4, 5, 5, 4, 0, 3, 3, 1],
  [1, 3, 3, 3, 5, 9, 0, 10, 4, 4, 2, 1],
] as const

export const FT06: PlainProject = {
  durations: FT06_ROWS.flatMap((row) => row.filter((_, at) => at % 2 === 1)),
  requests: FT06_ROWS.flatMap((row) => row.filter((_, at) => at % 2 === 0).map(useOfMachine)),
  capacities: [1, 1, 1, 1, 1, 1],
  successors: FT06_ROWS.flatMap((_, job) =>
    [0, 1, 2, 3, 4, 5].map((step) => (step === 5 ? [] : [6 * job + step + 1])),
  ),
}

function useOfMachine(machine: number): readonly number[] {
  return [0, 1, 2, 3, 4, 5].map((each) => (each === machine ? 1 : 0))
}

/**
 * Nine tasks on machines that are all alike (Graham 1966, 1969; data from memory, the ends reckoned again by list
 * scheduling): three machines and the plain list end at 12.
 */
export const GRAHAM: PlainProject = {
  durations: [3, 2, 2, 2, 4, 4, 4, 4, 9],
  requests: [[1], [1], [1], [1], [1], [1], [1], [1], [1]],
  capacities: [3],
  successors: [[8], [], [], [4, 5, 6, 7], [], [], [], [], []],
}
