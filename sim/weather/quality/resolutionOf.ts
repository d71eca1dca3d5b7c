/**
 * Step in which the values of a column were written, in the column's unit: 10 where they are multiples of ten.
 *
 * in: values, NaN ignored
 * out: the step; 0 where there are fewer than ten different values
 * valid: the 5th percentile of the distances between neighbouring different values, so that a few odd ones do not count
 */
export function resolutionOf(values: Float64Array): number {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort();
  const steps: number[] = [];
  for (let i = 1; i < sorted.length; i++) {
    const step = sorted[i]! - sorted[i - 1]!;
    if (step > 1e-6) steps.push(step);
  }
  if (steps.length < 9) return 0;
  steps.sort((a, b) => a - b);
  return steps[Math.floor(steps.length / 20)]!;
}
