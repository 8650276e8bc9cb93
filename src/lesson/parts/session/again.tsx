import { fixed } from '../../../wording/numbers.js';
import type { ShownScan } from '../../session/play.js';

interface AgainProps {
  readonly scans: readonly ShownScan[];
  readonly chosen: ShownScan;
  readonly onChoose: (place: number) => void;
}

/** A menu of every scan of a session that is over, to look at it again with what nobody could know then. */
export function Again({ scans, chosen, onChoose }: AgainProps) {
  return (
    <div class="again">
      <label for="session-again">Look at an image again</label>
      <select
        id="session-again"
        value={scans.indexOf(chosen)}
        onChange={({ currentTarget }) => {
          onChoose(currentTarget.selectedIndex);
        }}
      >
        {scans.map((scan, place) => (
          <option value={place}>
            Image {scan.image + 1}, attempt {scan.take + 1}
          </option>
        ))}
      </select>
      <p aria-live="polite">{truthText(chosen)}</p>
    </div>
  );
}

function truthText({ before, after, quality, accept, lostAt }: ShownScan): string {
  const tip = before.state === after.state ? after.state : `${before.state}, then ${after.state}`;
  const isGood = quality >= accept;
  const fate = lostAt === null ? (isGood ? 'good, and kept' : 'bad, and kept: nobody noticed') : 'not kept';
  return `The tip was ${tip}, its apex radius ${fixed(after.radius, 0)} nm. Quality ${fixed(quality, 2)} of 1, at least ${fixed(accept, 2)} wanted: ${fate}.`;
}
