/** What the words behind the server's name ask for. */
export type Asked =
  /** The words by which the channel to the client is chosen. */
  | { readonly kind: 'serve'; readonly words: readonly string[] }
  | { readonly kind: 'print'; readonly text: string }
  /** One line that says what is wrong with them. */
  | { readonly kind: 'refused'; readonly line: string };

const NAME = 'pickup-spec-language-server';

const HELP = `${NAME} [OPTION]

Tells an editor that speaks the Language Server Protocol what it asks of *.pickup specs: findings, hover, completion, rename and
more. The editor starts it; there is nothing to type here.

  --stdio        over standard input and output, as without any option
  --socket=PORT  over a port of this machine on which the editor listens
  --pipe=NAME    over a pipe of that name, or a socket file
  --node-ipc     over the channel of a process of Node that starts it
  --version      which version this is
  --help         this text
`;

const CHANNELS = ['--stdio', '--node-ipc', '--socket', '--pipe'];
const WITH_VALUE = ['--socket', '--pipe', '--clientProcessId'];

/** Over standard input and output unless another channel is named. */
export function readServerOptions(words: readonly string[], version: string): Asked {
  let hasChannel = false;
  for (let index = 0; index < words.length; index += 1) {
    const word = words[index] ?? '';
    if (word === '--help' || word === '-h') return { kind: 'print', text: HELP };
    if (word === '--version') return { kind: 'print', text: `${version}\n` };
    const [name = '', value] = takesValue(word) ? word.split(/=(.*)/s) : [word];
    const isKnown = CHANNELS.includes(name) || WITH_VALUE.includes(name);
    if (!isKnown) return refused(`no option ${JSON.stringify(word)}: see ${NAME} --help`);
    // The value may be the next word.
    if (takesValue(name) && value === undefined) index += 1;
    if (takesValue(name) && (value ?? words[index] ?? '') === '') return refused(`${name} needs a value`);
    hasChannel ||= CHANNELS.includes(name);
  }
  return { kind: 'serve', words: hasChannel ? words : ['--stdio', ...words] };
}

const takesValue = (word: string): boolean => WITH_VALUE.some((name) => word === name || word.startsWith(`${name}=`));

const refused = (why: string): Asked => ({ kind: 'refused', line: `${NAME}: ${why}\n` });
