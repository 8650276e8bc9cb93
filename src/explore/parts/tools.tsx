/// <reference lib="dom" />
import { useState } from 'preact/hooks';
import { shellLine } from '../../scenario/shell-line.js';
import { type Slot, SLOTS } from '../messages.js';
import { download, opened as openedFile } from '../../page/parts/files.js';
import type { Asking } from './use-explorer.js';

export type OnOpen = (file: string, text: string) => void;

export function OpenFile({ onOpen }: { readonly onOpen: OnOpen }) {
  return (
    <label class="button">
      Open a file
      <input
        type="file"
        accept=".yaml,.yml,.json"
        class="hidden"
        onChange={({ currentTarget }) => {
          void openedFile(currentTarget.files).then((found) => {
            if (found !== null) onOpen(found.file, found.text);
          });
        }}
      />
    </label>
  );
}

interface ToolsProps {
  readonly asking: Asking;
  readonly file: string;
  readonly text: string;
  /** The link to what is set; null while that has faults. */
  readonly link: () => string | null;
  readonly pinned: readonly Slot[];
  readonly onOpen: OnOpen;
}

/** What is done with a whole setting: open, save, pass on, hold beside others. */
export function Tools({ asking, file, text, link, pinned, onOpen }: ToolsProps) {
  const [said, setSaid] = useState('');
  const [field, setField] = useState<string | null>(null);
  const name = file.replace(/(?:\.[^.]*)?$/u, '.yaml');
  const save = () => {
    download(name, text);
    setSaid(`Saved as ${name}. For a report with all charts and files: ${shellLine('compare', name)}`);
  };
  const copy = () => {
    const address = link();
    if (address === null) {
      setSaid('A scenario with faults has no link; save it instead.');
      return;
    }
    navigator.clipboard.writeText(address).then(
      () => {
        setSaid('The link is in the clipboard; whoever has this page sees by it what you see.');
      },
      () => {
        setField(address);
        setSaid('Copy the link from the field.');
      },
    );
  };
  return (
    <>
      <div class="row tools">
        <OpenFile onOpen={onOpen} />
        <button type="button" onClick={save}>
          Save the scenario
        </button>
        <button type="button" onClick={copy}>
          Copy a link
        </button>
        {SLOTS.map((slot) => {
          const isPinned = pinned.includes(slot);
          return (
            <button
              type="button"
              aria-pressed={isPinned}
              onClick={() => {
                asking.pin(slot, !isPinned);
              }}
            >
              {isPinned ? `Unpin ${slot}` : `Pin as ${slot}`}
            </button>
          );
        })}
      </div>
      {field === null ? null : <input type="text" readOnly value={field} aria-label="Link to this" />}
      <p class="note" role="status">
        {said}
      </p>
    </>
  );
}
