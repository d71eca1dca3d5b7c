/** Kinds that change or refuse hours; none may be found where nothing is wrong. */
export const KINDS_OF_FAULT = new Set([
  'impossible',
  'extremely-rare',
  'sun-down',
  'value-repeated',
  'straight-line',
  'zero-hours',
  'day-repeated',
  'day-drawn',
  'beyond-records',
  'air-spike',
  'air-repeated',
  'drift',
]);
