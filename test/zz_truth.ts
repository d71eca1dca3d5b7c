import { measure } from './truth/measure.ts';
for (const f of process.argv.slice(2)) { const { cases } = await import(`./truth/${f}.truth.ts`); for (const m of measure(cases)) console.log(m.holds ? 'ok  ' : 'MISS', m.truth.what, m.truth.expected, m.got, m.truth.tolerance); }
