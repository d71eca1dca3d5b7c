/**
 * The measured 57 mm silicon cell at 33 degC and 1000 W/m2: voltage, current. T. Easwarakhanthan et al., Int. J. Solar
 * Energy 4 (1986) 1-12, as later work repeats it: the points from 0.0057 to 0.5633 V were seen in a public script, the
 * others are from memory (the least residual over all 26 that later papers report, from memory too, agrees with them).
 */
export const MEASURED_CELL: readonly (readonly [voltage_V: number, current_A: number])[] = [
  [-0.2057, 0.764],
  [-0.1291, 0.762],
  [-0.0588, 0.7605],
  [0.0057, 0.7605],
  [0.0646, 0.76],
  [0.1185, 0.759],
  [0.1678, 0.757],
  [0.2132, 0.757],
  [0.2545, 0.7555],
  [0.2924, 0.754],
  [0.3269, 0.7505],
  [0.3585, 0.7465],
  [0.3873, 0.7385],
  [0.4137, 0.728],
  [0.4373, 0.7065],
  [0.459, 0.6755],
  [0.4784, 0.632],
  [0.496, 0.573],
  [0.5119, 0.499],
  [0.5265, 0.413],
  [0.5398, 0.3165],
  [0.5521, 0.212],
  [0.5633, 0.1035],
  [0.5736, -0.01],
  [0.5833, -0.123],
  [0.59, -0.21],
];
