import { useEffect, useState } from 'preact/hooks';

interface EntryProps {
  readonly id?: string;
  readonly disabled?: boolean;
  readonly 'aria-describedby'?: string;
  readonly 'aria-invalid'?: boolean;
  readonly value: string;
  /** Is told what was typed, once it is done. */
  readonly onPut: (text: string) => void;
}

/** An entry in which what is being typed stands, whatever the page learns meanwhile, until the value becomes another. */
export function Entry({ value, onPut, ...more }: EntryProps) {
  const [typed, setTyped] = useState<string | null>(null);
  useEffect(() => {
    setTyped(null);
  }, [value]);
  return (
    <input
      {...more}
      type="text"
      spellcheck={false}
      autocomplete="off"
      value={typed ?? value}
      onInput={({ currentTarget }) => {
        setTyped(currentTarget.value);
      }}
      onChange={({ currentTarget }) => {
        onPut(currentTarget.value);
      }}
    />
  );
}
