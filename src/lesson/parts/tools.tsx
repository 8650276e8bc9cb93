import { useState } from 'preact/hooks';
import { download } from '../../page/parts/files.js';
import { shellLine } from '../../scenario/shell-line.js';
import type { Change } from '../change.js';
import type { StageProps } from '../stage.js';
import { Button, StatusLine } from './controls.js';

interface ToolsProps extends StageProps {
  /** Stands in the name of the file. */
  readonly id: string;
  readonly changes: readonly Change[];
}

/** Buttons to carry away what a part shows: a link with the state of the page, and its scenario for the command line. */
export function Tools({ stage: { engine, facts, seed }, id, changes }: ToolsProps) {
  const [said, say] = useState('');
  const [link, showLink] = useState<string | null>(null);
  const copy = () => {
    const { href } = location;
    navigator.clipboard.writeText(href).then(
      () => {
        say('The link is in the clipboard; whoever opens it beside this page sees what you see.');
      },
      () => {
        showLink(href);
        say('Copy the link from the field.');
      },
    );
  };
  const save = () => {
    const file = `${facts.file.replace(/\.ya?ml$/iu, '')}-${id}.yaml`;
    engine.ask(
      'save',
      { changes, seed },
      {
        onAnswer: (text) => {
          download(file, text);
          say(`Saved as ${file}; try it with: ${shellLine('compare', file)}`);
        },
        onFault: say,
      },
    );
  };
  return (
    <div>
      <div class="row">
        <Button onPress={copy}>Copy a link to this</Button>
        <Button onPress={save}>Save this scenario</Button>
        {link === null ? null : (
          <input type="text" readOnly value={link} aria-label="Link to this" ref={(field) => field?.select()} />
        )}
      </div>
      <StatusLine>{said}</StatusLine>
    </div>
  );
}
