export const GAP = 36
/** Between two depths: room for an upright with its barred box. */
export const BAND = 62
/** Between two rows of the same depth. */
export const ROW_GAP = 34
export const CLUSTER_GAP = 30
