import { type Checked, checkTruth, HOURS, summaryOf } from './coverage.ts';

// `npm run odds -- 1 40`: odds held against the truths of seeds 1 to 40, a row a lamp.

const [first = '1', last = '20'] = process.argv.slice(2);
const checked: Checked[] = [];
for (let seed = Number(first); seed <= Number(last); seed++) {
  for (const one of checkTruth(seed)) {
    checked.push(one);
    const { truth, hours, trueShare, low, high, trueNights, saidNights } = one;
    const held = trueShare >= low && trueShare <= high ? ' ' : '!';
    console.log(
      `${held} truth ${truth}, ${hours} h: keeps ${trueShare.toFixed(2)}, said ${low.toFixed(2)} to ${high.toFixed(2)}; nights ${trueNights.toFixed(1)}, said ${saidNights.toFixed(1)}`,
    );
  }
}
for (const hours of HOURS) {
  const { held, biasNights, biasShare } = summaryOf(checked.filter((one) => one.hours === hours));
  console.log(
    `${hours} h: held ${(100 * held).toFixed(0)} percent, bias ${biasNights.toFixed(2)} nights, ${(100 * biasShare).toFixed(0)} percent`,
  );
}
const { held, errors, biasShare } = summaryOf(checked);
console.log(
  `all: held ${(100 * held).toFixed(0)} percent, off by ${errors.toFixed(2)} standard errors, bias ${(100 * biasShare).toFixed(1)} percent`,
);
