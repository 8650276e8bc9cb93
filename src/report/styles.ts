/** How parts of the text are set off; by default they are not. The command line hands in styles for a terminal. */
export interface Styles {
  readonly strong: (text: string) => string;
  readonly quiet: (text: string) => string;
  readonly warning: (text: string) => string;
}

const same = (text: string): string => text;
export const NO_STYLES: Styles = { strong: same, quiet: same, warning: same };
