import type { ShownScan } from '../../session/play.js';
import type { StageProps } from '../../stage.js';
import { Grey } from '../grey.js';
import { useAnswer } from '../use-answer.js';

/** Rows and columns of a picture. */
const SIDE = 128;
/** Fractions of a scan are quotients of times. */
const ROUNDING = 1e-9;

interface ScanProps extends StageProps {
  /** The session's number. */
  readonly replication: number;
  readonly scan: ShownScan | null;
  /** The fraction of its scan time that has gone by. */
  readonly done: number;
  /** Whether the surface as it is stands beside the image. */
  readonly isTruth: boolean;
}

/** The image of a scan, drawn line by line as far as it has come; beside it, on demand, the surface as it is. */
export function ScanView({ stage: { engine, seed }, replication, scan, done, isTruth }: ScanProps) {
  const question = scan === null ? null : questionOf(scan, replication, seed);
  const { latest } = useAnswer(engine, 'tipPicture', question, 0);
  const isItsOwn = JSON.stringify(latest?.question) === JSON.stringify(question);
  const picture = isItsOwn && latest !== null ? latest.answer : null;
  const share = Math.min(1, done + ROUNDING);
  const said = scan === null ? 'No image yet' : scanText(scan, share);
  return (
    <figure class="scan">
      <div class="pair">
        <div>
          <Grey
            side={SIDE}
            heights={picture?.shown ?? null}
            rows={Math.floor(share * SIDE)}
            label={`${said}, as the tip shows it`}
          />
          <p>As the tip shows it</p>
        </div>
        {isTruth ? (
          <div>
            <Grey side={SIDE} heights={picture?.real ?? null} label={`${said}: the surface as it really is`} />
            <p>As it really is</p>
          </div>
        ) : null}
      </div>
      <figcaption>
        {said}.
        {picture === null
          ? ''
          : ` A piece of it, ${picture.side} nm wide; black to white is ${picture.range.toFixed(0)} nm.`}
      </figcaption>
    </figure>
  );
}

function questionOf({ region, before, after, changesAt }: ShownScan, replication: number, seed: string | null) {
  return { changes: [], seed, replication, region, before, after, changesAt };
}

function scanText({ image, take, place }: ShownScan, share: number): string {
  const what = `Image ${image + 1}${take === 0 ? '' : `, attempt ${take + 1}`}, ${place}`;
  return `${what}: ${share >= 1 ? 'complete' : 'scanning from the top'}`;
}
