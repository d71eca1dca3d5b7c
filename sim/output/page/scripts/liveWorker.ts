// Runs trials beside the page: answers one question after the other.
import type { LiveRun } from '../../../trial/live/LiveRun.ts';
import type { Answers, Ask } from '../live/asks.ts';
import { LiveSession } from '../live/LiveSession.ts';
import { unpackedPlain } from '../unpackedPlain.ts';

/** First the packed run, then questions. */
type Sent = { run: string } | { number: number; ask: Ask<keyof Answers> };

let session: Promise<LiveSession>;

addEventListener('message', async ({ data }: MessageEvent<Sent>) => {
  if ('run' in data) session = unpackedPlain(data.run).then((run) => new LiveSession(run as LiveRun));
  else {
    postMessage({ number: data.number, answer: await answered(data.ask) });
  }
});

/** What breaks off where it must not is told as it is: nobody sees a worker's console. */
async function answered({ kind, tried }: Ask<keyof Answers>) {
  try {
    return (await session).answer(kind, tried);
  } catch (error) {
    return { refused: `the calculation broke off: ${error}` };
  }
}
