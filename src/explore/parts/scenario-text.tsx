import { useEffect, useRef, useState } from 'preact/hooks';
import type { Fault } from '../../scenario/load.js';
import { plainText } from '../../report/text.js';

/** Milliseconds without a key after which what is typed is read. */
const PAUSE = 300;

interface TextProps {
  readonly text: string;
  readonly faults: readonly Fault[];
  readonly onText: (text: string) => void;
}

/** The scenario as text, which is the whole truth: the form beside it shows and changes what stands here. */
export function ScenarioText({ text, faults, onText }: TextProps) {
  const area = useRef<HTMLTextAreaElement>(null);
  const [typed, setTyped] = useState<string | null>(null);
  useEffect(() => {
    if (typed === null) return undefined;
    const timer = setTimeout(() => {
      onText(typed);
      setTyped(null);
    }, PAUSE);
    return () => {
      clearTimeout(timer);
    };
  }, [typed, onText]);
  const goTo = ({ line, column }: Fault) => {
    const field = area.current;
    if (field === null) return;
    const before = field.value.split('\n').slice(0, line - 1);
    const at = before.reduce((sum, each) => sum + each.length + 1, 0) + column - 1;
    field.focus();
    field.setSelectionRange(at, at);
  };
  return (
    <div class="text">
      <label>
        Scenario (YAML)
        <textarea
          ref={area}
          value={typed ?? text}
          spellcheck={false}
          autocapitalize="off"
          autocomplete="off"
          rows={24}
          onInput={({ currentTarget }) => {
            setTyped(currentTarget.value);
          }}
        />
      </label>
      <Faults faults={faults} onGo={goTo} />
    </div>
  );
}

interface FaultsProps {
  readonly faults: readonly Fault[];
  readonly onGo: ((fault: Fault) => void) | null;
}

/** What is wrong with a scenario, in the words of the command line. */
export function Faults({ faults, onGo }: FaultsProps) {
  if (faults.length === 0) return null;
  return (
    <ul class="faults">
      {faults.map((fault) => (
        <li class={fault.severity}>
          {onGo === null ? (
            `Line ${fault.line}`
          ) : (
            <button
              type="button"
              class="plain"
              onClick={() => {
                onGo(fault);
              }}
            >
              Line {fault.line}
            </button>
          )}
          : {fault.path === '' ? '' : `${plainText(fault.path)}: `}
          {plainText(fault.message)}
        </li>
      ))}
    </ul>
  );
}
