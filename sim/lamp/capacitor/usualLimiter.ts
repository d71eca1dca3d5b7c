/** What a limiter is taken to be but for its voltage: a shunt regulator with a small transistor, and what buying one comes to. */
export const USUAL_LIMITER = { slope_ohm: 0.1, price: 1 } as const;
