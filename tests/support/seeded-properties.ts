import fc from 'fast-check'

/** Every run draws the same cases, so that a red run can be repeated; PANELWRIGHT_SEED draws others. */
fc.configureGlobal({ seed: Number(process.env['PANELWRIGHT_SEED'] ?? 20_261_125) })
