import type { Answer, Answers, Ask, Tried } from '../../live/asks.ts';
import type { LiveBlock } from '../../live/liveBlock.ts';
import { unpackedPlain } from '../../unpackedPlain.ts';
import { blockOf } from '../page.ts';

/** Null in a page whose trials cannot run in it. */
const CARRIED = blockOf('live') as LiveBlock | null;

/** Whether trials can run here: the page carries what it takes, and the browser has it. */
export const CAN_RUN =
  CARRIED !== null && typeof Worker !== 'undefined' && typeof DecompressionStream !== 'undefined';

let address: Promise<string> | undefined;

/** Runs trials beside the page, one question after the other; it starts with the first. */
export class LiveWorker {
  private started: Promise<Worker> | undefined;
  private readonly waiting = new Map<number, (answer: unknown) => void>();
  private asked = 0;

  /** Answers a question. A worker that the browser does not let start, or that breaks off, refuses all. */
  async ask<Kind extends keyof Answers>(kind: Kind, tried: Tried): Promise<Answer<Kind>> {
    this.started ??= this.start();
    const worker = await this.started;
    const number = ++this.asked;
    return new Promise((resolve) => {
      this.waiting.set(number, (answer) => resolve(answer as Answer<Kind>));
      worker.postMessage({ number, ask: { kind, tried } satisfies Ask<Kind> });
    });
  }

  private async start(): Promise<Worker> {
    address ??= unpackedPlain(CARRIED!.code).then((code) =>
      URL.createObjectURL(new Blob([code as string], { type: 'text/javascript' })),
    );
    const worker = new Worker(await address);
    worker.addEventListener('message', ({ data: { number, answer } }) => {
      this.waiting.get(number)?.(answer);
      this.waiting.delete(number);
    });
    worker.addEventListener('error', ({ message }) => {
      for (const answer of this.waiting.values())
        answer({ refused: `the calculation does not run in this browser (${message})` });
      this.waiting.clear();
    });
    worker.postMessage({ run: CARRIED!.run });
    return worker;
  }
}
